"""JSON against a schema, as far as docs/check.schema.json goes: the keywords below, and no other."""

KNOWN = {"$schema", "$id", "$defs", "title", "description", "type", "enum", "required", "properties", "additionalProperties",
         "items", "$ref", "minLength"}
TYPES = {"object": dict, "array": list, "string": str, "integer": int, "number": (int, float), "boolean": bool, "null": type(None)}


def is_a(value, name):
    if isinstance(value, bool) and name in ("integer", "number"):
        return False
    return isinstance(value, TYPES[name])


def breaches(value, schema, root=None, at="$"):
    """Where `value` is not as the schema says: a list of sentences. A keyword that is not known is an error of the schema."""
    root = root or schema
    if unknown := set(schema) - KNOWN:
        raise ValueError(f"{at}: the schema has {sorted(unknown)}, which nothing checks")
    if "$ref" in schema:
        return breaches(value, root["$defs"][schema["$ref"].removeprefix("#/$defs/")], root, at)
    found = []
    types = schema.get("type", [])
    types = [types] if isinstance(types, str) else types
    if types and not any(is_a(value, one) for one in types):
        return [f"{at}: {value!r} is not {' or '.join(types)}"]
    if "enum" in schema and value not in schema["enum"]:
        found.append(f"{at}: {value!r} is none of {schema['enum']}")
    if isinstance(value, str) and len(value) < schema.get("minLength", 0):
        found.append(f"{at}: too short")
    if isinstance(value, dict):
        found += [f"{at}: {key} is missing" for key in schema.get("required", []) if key not in value]
        known = schema.get("properties", {})
        if schema.get("additionalProperties") is False:
            found += [f"{at}: {key} is not in the schema" for key in value if key not in known]
        for key in value.keys() & known.keys():
            found += breaches(value[key], known[key], root, f"{at}.{key}")
    if isinstance(value, list) and "items" in schema:
        for number, one in enumerate(value):
            found += breaches(one, schema["items"], root, f"{at}[{number}]")
    return found
