#!/usr/bin/env python3
"""Writes docs/trade.md, all that the templates know of the trade, from templates/.

usage: docs/make_trade.py            writes docs/trade.md
       docs/make_trade.py --check    exits with 1 if docs/trade.md is not what the templates say now
"""
import glob, os, sys
import xml.etree.ElementTree as ElementTree

here = os.path.dirname(os.path.abspath(__file__))
templates = os.path.join(here, "..", "templates")
BARS = {"no": "no", "at-deck": "at deck", "always": "yes"}


def root_of(name):
    return ElementTree.parse(os.path.join(templates, name)).getroot()


def local(element):
    return element.tag.split("}")[1]


def words(element):
    return " ".join((element.text or "").split())


def children(element, name):
    return [one for one in element if local(one) == name]


def text_of(element, name):
    return next((words(one) for one in children(element, name)), "")


def cell(text):
    return text.replace("|", "\\|")


def table(head, rows):
    lines = ["| " + " | ".join(head) + " |", "|" + " --- |" * len(head)]
    return lines + ["| " + " | ".join(cell(one) for one in row) + " |" for row in rows] + [""]


def sign_row(sign):
    verdict = sign.get("verdict") + (" the stay" if sign.get("renews") == "stay" else "")
    follows = " ".join(filter(None, [text_of(sign, "means"), text_of(sign, "do"), text_of(sign, "then")]))
    return [f"`{sign.get('code')}`", text_of(sign, "name") + ". *" + text_of(sign, "plainly") + "*", verdict,
            BARS[sign.get("bars")], "yes" if sign.get("spreads") == "yes" else "", follows, sign.get("source")]


SIGN_HEAD = ["code", "sign, and what a buyer reads", "verdict", "bars climbing", "siblings watched", "what follows", "source"]


def kind_lines(kind):
    lines = [f"### {kind.get('name')}: `{kind.get('id')}`", "", text_of(kind, "plain"), ""]
    parts = [f"{part.get('name')} ({part.get('metals').replace(' ', ', ')})" for part in children(kind, "part")]
    lines += [f"- usual metals: {kind.get('metals').replace(' ', ', ')}"]
    lines += ["- parts: " + "; ".join(parts)] if parts else []
    lines += [f"- how to look: {text_of(kind, 'look')}", f"- not seen: {text_of(kind, 'hidden')}",
              f"- schematic: {kind.get('schematic')}", ""]
    return lines + table(SIGN_HEAD, [sign_row(sign) for sign in children(kind, "sign")])


def families():
    order = ["deck", "terminals", "stays", "joints", "spreaders", "mast", "aloft"]
    files = [f"kinds/{name}.xml" for name in order]
    found = sorted(os.path.basename(path) for path in glob.glob(templates + "/kinds/*.xml"))
    assert found == sorted([name + ".xml" for name in order] + ["any.xml"]), found
    return [root_of(name) for name in files]


def rule_rows():
    for rule in root_of("tables/rules.xml"):
        yield [f"`{rule.get('id')}`", text_of(rule, "name"), rule.get("verdict", "adds its words only"),
               text_of(rule, "means") + " " + text_of(rule, "do"), rule.get("source")]


def contradiction_rows():
    for row in root_of("tables/contradictions.xml"):
        yield [row.get("kind"), row.get("sign"), row.get("other") or "measured " + row.get("measured"), row.get("because")]


def limit_rows():
    for row in children(root_of("tables/limits.xml"), "bound"):
        what = f"{row.get('of')} {'below' if row.get('least') else 'above'} {row.get('least') or row.get('most')}"
        where = "; ".join(row.get(name).replace(" ", ", ") for name in ("kinds", "makes", "roles") if row.get(name))
        verdict = row.get("verdict") + (" the stay" if row.get("renews") == "stay" else "")
        yield [f"`{row.get('id')}`", what, where or "all", text_of(row, "name"), verdict, BARS[row.get("bars")],
               text_of(row, "means") + " " + text_of(row, "do"), row.get("source")]


def milder_rows():
    for row in children(root_of("tables/limits.xml"), "milder"):
        yield [row.get("signs").replace(" ", ", "), f"{row.get('of')} at least {row.get('least')}", row.get("verdict"),
               text_of(row, "because"), row.get("source")]


def caution_rows():
    for row in root_of("tables/cautions.xml"):
        yield [row.get("when"), row.get("where").replace(" ", ", "), words(row)]


def make_rows():
    for make in root_of("plans/makes.xml"):
        for demand in children(make, "demand"):
            least = demand.get("least", "1")
            yield [make.get("name"), demand.get("name"), least, demand.get("at"), demand.get("kinds").replace(" ", ", ")]


def demand_name(of):
    return next(demand.get("name") for make in root_of("plans/makes.xml") for demand in children(make, "demand") if demand.get("id") == of)


def role_rows():
    for role in root_of("plans/roles.xml"):
        changes = [f"{demand_name(one.get('of'))} → {one.get('name') or 'none'}" + (f" ({one.get('kinds').replace(' ', ', ')})" if one.get("kinds") else "")
                   for one in children(role, "instead")]
        yield [f"`{role.get('id')}`", role.get("name"), role.get("runs", "deck-to-mast"), "; ".join(changes)]


def plan_rows():
    for path in sorted(glob.glob(templates + "/plans/*.xml")):
        plan = root_of("plans/" + os.path.basename(path))
        if local(plan) == "plan":
            parameters = [f"{one.get('id')}={'/'.join(one.get('values').split())}" for one in children(plan, "parameter")]
            yield [f"`{plan.get('id')}`", plan.get("says"), " ".join(parameters)]


def other_tables():
    """Every table without words of its own between its tags: one table a kind of row, a column for each attribute."""
    told = {"rules.xml", "contradictions.xml", "cautions.xml", "limits.xml"}
    lines = []
    for path in sorted(glob.glob(templates + "/tables/*.xml")):
        name = os.path.basename(path)
        if name in told:
            continue
        rows = list(root_of("tables/" + name).iter())[1:]
        kinds = list(dict.fromkeys(local(row) for row in rows))
        for kind in kinds:
            of_kind = [row for row in rows if local(row) == kind]
            heads = list(dict.fromkeys(key for row in of_kind for key in row.keys()))
            lines += [f"### {name[:-4].replace('-', ' ')}" + (f": {kind}" if len(kinds) > 1 else ""), ""]
            lines += table(heads, [[row.get(key, "") for key in heads] for row in of_kind])
    return lines


def page():
    roots = families()
    kinds = [kind for root in roots for kind in children(root, "kind")]
    signs = sum(len(children(kind, "sign")) for kind in kinds)
    lines = ["# What rigdeed knows of the trade", "",
             "Made from `templates/` by `docs/make_trade.py`; do not edit. Every row may be replaced by a file of one's own (`--templates DIR`).", "",
             f"{len(kinds)} kinds of fitting, {signs} signs. Sources: a title is a published one; \"common practice\" has no single source; "
             "\"from memory\" was not looked up and fails nothing by itself. All of it is an aid to a qualified rigger, who decides, "
             "with local codes, class and insurer.", ""]
    for root in roots:
        lines += [f"## {root.get('family')[0].upper()}{root.get('family')[1:]}", ""]
        for kind in children(root, "kind"):
            lines += kind_lines(kind)
    any_of = children(root_of("kinds/any.xml"), "any")[0]
    lines += ["## On any fitting", ""] + table(SIGN_HEAD, [sign_row(sign) for sign in children(any_of, "sign")])
    lines += ["## Rules over several fittings", ""] + table(["rule", "what it says", "at least", "words", "source"], rule_rows())
    lines += ["## Limits of what is measured or calculated", "", "Beyond one stands a finding, as if a sign had been seen; of several of one quantity the worst.", ""]
    lines += table(["limit", "beyond", "on", "name", "verdict", "bars climbing", "what follows", "source"], limit_rows())
    lines += ["A measure that makes a sign milder:", ""] + table(["signs", "where", "verdict", "because", "source"], milder_rows())
    lines += ["## What cannot both be true", ""] + table(["kind", "sign", "and", "because"], contradiction_rows())
    lines += ["## Cautions", ""] + table(["when", "where", "words"], caution_rows())
    lines += ["## What a stay must have", "", "By its make (common practice):", ""] + table(["make", "demand", "least", "where", "met by"], make_rows())
    lines += ["By its role, in place of the make's:", ""] + table(["role", "name", "runs", "in place of"], role_rows())
    lines += ["## Rig plans", ""] + table(["plan", "what it is", "parameters"], plan_rows())
    lines += ["## Tables", ""] + other_tables()
    return "\n".join(lines).rstrip() + "\n"


target = os.path.join(here, "trade.md")
text = page()
if sys.argv[1:] == ["--check"]:
    current = open(target).read() if os.path.exists(target) else ""
    print("1 passed, 0 failed" if current == text else "docs/trade.md is out of date: run docs/make_trade.py\n0 passed, 1 failed")
    sys.exit(current != text)
open(target, "w").write(text)
