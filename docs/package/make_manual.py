#!/usr/bin/env python3
"""Manual pages and completions, out of what the program says of itself (--help, plans, signs) and of the schemas.

usage: make_manual.py PROGRAM TEMPLATES FOLDER DATE
Writes FOLDER/man/*.1, *.5 and FOLDER/completions/{rigdeed.bash,_rigdeed,rigdeed.fish}. DATE is YYYY-MM-DD.
"""
import json, re, subprocess, sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

program, templates, folder, date = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3]), sys.argv[4]
XS = "{http://www.w3.org/2001/XMLSchema}"


def said(*words):
    return subprocess.run([program, *words], capture_output=True, text=True, check=True, env={"LC_ALL": "C.UTF-8", "HOME": "/nonexistent", "PATH": "/usr/bin"}).stdout


class Entry:
    """A line of a section of the help: its names, what it takes, what it says."""

    def __init__(self, head, text):
        self.head, self.text = head, text.strip()
        words = head.split()
        self.names = words[0].split(",")
        rest = [word for word in words[1:] if word != "REQUIRED"]
        self.needs = rest[rest.index("Needs:") + 1:] if "Needs:" in rest else []
        if "Needs:" in rest:
            rest = rest[:rest.index("Needs:")]
        self.required = "REQUIRED" in words
        self.takes = " ".join(word for word in rest if word != "...").split(":")[0]
        self.many = "..." in rest
        choices = re.search(r":\{([^}]*)\}", head)
        self.choices = choices.group(1).split(",") if choices else []


class Help:
    def __init__(self, words):
        self.words = words
        lines = said(*words, "--help").splitlines()
        usage = next(i for i, line in enumerate(lines) if line.startswith("Usage:"))
        self.about = " ".join(lines[:usage]).strip()
        self.usage = lines[usage].removeprefix("Usage: ")
        self.sections, self.foot = {}, ""
        section = None
        for line in lines[usage + 1:]:
            if re.fullmatch(r"[A-Z][a-z]+:", line):
                section = self.sections.setdefault(line[:-1], [])
            elif line.startswith("Exit codes:") or (self.foot and line.strip()):
                self.foot += (" " if self.foot else "") + line.strip()
                section = None
            elif section is not None and line.startswith("  ") and not line.startswith("   "):
                head, _, text = line.strip().partition("  ")
                section.append([head, text.strip()])
            elif section is not None and line.strip() and section:
                section[-1][1] = (section[-1][1] + " " + line.strip()).strip()
        self.sections = {name: [Entry(head, text) for head, text in entries] for name, entries in self.sections.items()}

    def options(self):
        return self.sections.get("Options", [])


def escaped(text):
    text = text.replace("\\", "\\e").replace("-", "\\-").replace("…", "...").replace("’", "'")
    return "\\&" + text if text.startswith((".", "'")) else text


def paragraph(text):
    return ".PP\n" + escaped(text) + "\n"


def tagged(entry):
    head = ", ".join("\\fB" + escaped(name) + "\\fR" for name in entry.names)
    if entry.takes and entry.names[0].startswith("-"):
        head += " \\fI" + escaped(entry.takes) + "\\fR"
    if entry.many:
        head += " ..."
    text = entry.text + (" (must be given)" if entry.required and entry.names[0].startswith("-") else "")
    if entry.choices:
        text += ". One of: " + ", ".join(entry.choices)
    if entry.needs:
        text += ". Together with " + ", ".join(entry.needs)
    return ".TP\n" + head + "\n" + escaped(text) + ".\n"


def page(name, section, about, body, see):
    others = [one for one in see if one != f"{name}({section})"]
    links = ", ".join("\\fB" + escaped(one.split("(")[0]) + "\\fR(" + one.split("(")[1] for one in others)
    (folder / "man" / f"{name}.{section}").write_text(
        f'.TH "{name.upper()}" "{section}" "{date}" "{version}" "{version.split()[0]}"\n.SH NAME\n{escaped(name)} \\- {escaped(about)}\n{body}'
        f".SH SEE ALSO\n{links}\n", encoding="utf-8")


CAUTION = ("What a survey says was seen on one day, from outside. Do not climb a mast that the deck-level check or a report bars; "
           "a qualified rigger, local codes, the class rules and the insurer decide.")


def command_page(help_, see):
    name = "-".join(["rigdeed", *help_.words])
    body = ".SH SYNOPSIS\n" + "\\fB" + escaped(help_.usage.split(" [")[0]) + "\\fR" + escaped(help_.usage[len(help_.usage.split(" [")[0]):]) + "\n.SH DESCRIPTION\n"
    body += escaped(help_.about[0].upper() + help_.about[1:]) + ".\n" if not help_.about.endswith((".", "?")) else escaped(help_.about) + "\n"
    body += paragraph(CAUTION)
    for title, key in ("ARGUMENTS", "Positionals"), ("OPTIONS", "Options"), ("COMMANDS", "Subcommands"):
        if key in help_.sections:
            body += f".SH {title}\n" + "".join(tagged(entry) for entry in help_.sections[key])
    body += ".SH EXIT STATUS\n" + "".join(".TP\n\\fB" + part.split(" ", 1)[0] + "\\fR\n" + escaped(part.split(" ", 1)[1]) + "\n" for part in help_.foot.removeprefix("Exit codes: ").split(" · "))
    about = help_.about.rstrip(".?")
    page(name, 1, about[0].lower() + about[1:], body, see)


def documented(element):
    return " ".join(" ".join(text.split()) for one in element.findall(f"{XS}annotation/{XS}documentation") for text in one.itertext())


def file_page(name, schema, about, see):
    root = ElementTree.parse(templates / schema).getroot()
    types = {one.get("name"): one for one in root.iter() if one.tag in (XS + "complexType", XS + "simpleType") and one.get("name")}
    groups = {one.get("name"): one for one in root.iter(XS + "attributeGroup") if one.get("name")}
    body = ".SH DESCRIPTION\n" + escaped(about[0].upper() + about[1:]) + ". UTF\\-8, one root element; every element and attribute is listed here as the schema has it, " + \
        "\\fI/usr/share/rigdeed/" + escaped(schema) + "\\fR.\n" + paragraph(CAUTION)
    told = set()

    def attributes(holder):
        for one in list(holder):
            if one.tag == XS + "attribute":
                yield one
            elif one.tag == XS + "attributeGroup":
                yield from attributes(groups[one.get("ref")])
            elif one.tag in (XS + "complexContent", XS + "simpleContent", XS + "extension"):
                base = types.get(one.get("base", ""))
                if base is not None:
                    yield from attributes(base)
                yield from attributes(one)

    def values(attribute):
        kind = types.get(attribute.get("type", ""))
        kind = attribute.find(XS + "simpleType") if kind is None else kind
        return [] if kind is None else [one.get("value") for one in kind.iter(XS + "enumeration") if one.get("value") != "?"]

    def describe(element, depth):
        nonlocal body
        kind = element.find(XS + "complexType")
        kind = types.get(element.get("type", "")) if kind is None else kind
        key = (element.get("name"), element.get("type") or id(kind))
        if key in told:
            return
        told.add(key)
        text = documented(element) or (documented(kind) if kind is not None else "")
        body += (".SS " if depth else ".SH ") + "<" + escaped(element.get("name")) + ">\n" + (escaped(text) + "\n" if text else "")
        if kind is None:
            return
        for one in attributes(kind):
            body += ".TP\n\\fB" + escaped(one.get("name")) + "\\fR" + (" (must be given)" if one.get("use") == "required" else "") + "\n"
            listed = values(one)
            body += escaped(documented(one) or (documented(types[one.get("type")]) if one.get("type") in types else "") or ("One of: " + ", ".join(listed) + "." if listed else "As the schema says.")) + "\n"
        for child in kind.iter(XS + "element"):
            if child.get("name"):
                describe(child, depth + 1)

    describe(root.find(XS + "element"), 0)
    page(name, 5, about, body, see)


def quoted(text):
    return "'" + text.replace("'", "'\\''") + "'"


def kind_of(entry):
    """What an option or argument takes: a word of a list, a folder, a file."""
    if entry.choices:
        return "words"
    takes = entry.takes.upper()
    if takes in ("DIR", "PDF|DIR"):
        return "folders" if takes == "DIR" else "files"
    return "files" if takes in ("FILE", "PDF", "HTML", "SURVEY") else "nothing"


def completions(helps):
    plans = [one["id"] for one in json.loads(said("plans", "--json"))]
    kinds = [one["id"] for one in json.loads(said("signs", "--json"))]
    top = helps[()]
    commands = {words: one for words, one in helps.items() if len(words) == 1}
    lists = {"start": plans, "signs": kinds}

    bash = ["# bash completion of rigdeed; made from what the program says of itself", "_rigdeed() {",
            "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command='' sub='' i",
            "  for ((i = 1; i < COMP_CWORD; i++)); do",
            "    case ${COMP_WORDS[i]} in", "      --templates|--jobs|--units) ((i++)) ;;", "      -*) ;;",
            "      *) if [ -z \"$command\" ]; then command=${COMP_WORDS[i]}; else sub=${COMP_WORDS[i]}; break; fi ;;", "    esac", "  done",
            "  COMPREPLY=()", "  local words='' files=''", "  case $command in"]
    for words, one in sorted(commands.items()):
        subs = {sub: help_ for sub, help_ in helps.items() if len(sub) == 2 and sub[0] == words[0]}
        bash.append(f"    {words[0]})")
        cases = [("", one), *((sub[1], help_) for sub, help_ in sorted(subs.items()))]
        bash.append("      case $sub in")
        for name, help_ in cases[1:] + cases[:1]:
            options = [option for entry in help_.options() for option in entry.names]
            arguments = help_.sections.get("Positionals", [])
            bash.append(f"        {name or '*'})" + " case $before in")
            for entry in help_.options():
                if kind_of(entry) == "words":
                    bash.append(f"            {'|'.join(entry.names)}) words={quoted(' '.join(entry.choices))} ;;")
                elif kind_of(entry) in ("files", "folders"):
                    bash.append(f"            {'|'.join(entry.names)}) files={'d' if kind_of(entry) == 'folders' else 'f'} ;;")
                elif entry.takes:
                    bash.append(f"            {'|'.join(entry.names)}) return ;;")
            more = lists.get(words[0], []) if not name else []
            more = more + [sub[1] for sub in sorted(subs)] if not name else more
            bash.append(f"            *) words={quoted(' '.join(options + more))}" + ("; files=f" if arguments and not (words[0] in lists) else "") + " ;;")
            bash.append("          esac ;;")
        bash += ["      esac ;;"]
    first = [option for entry in top.options() for option in entry.names] + [words[0] for words in sorted(commands)]
    units = next(entry for entry in top.options() if "--units" in entry.names)
    bash += ["    *) case $before in", f"         --units) words={quoted(' '.join(units.choices))} ;;", "         --templates) files=d ;;", "         --jobs) return ;;",
             f"         *) words={quoted(' '.join(first))} ;;", "       esac ;;", "  esac",
             "  if [ -n \"$words\" ]; then mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\"); fi",
             "  if [ -n \"$files\" ] && [[ $word != -* ]]; then", "    local found", "    mapfile -t found < <(compgen -\"$files\" -- \"$word\")",
             "    if [ \"$files\" = f ]; then mapfile -t -O \"${#found[@]}\" found < <(compgen -d -- \"$word\"); fi",
             "    COMPREPLY+=(\"${found[@]}\")", "    compopt -o filenames 2>/dev/null", "  fi", "}", "complete -F _rigdeed rigdeed", ""]
    (folder / "completions/rigdeed.bash").write_text("\n".join(bash), encoding="utf-8")

    def zsh_option(entry):
        text = entry.text.replace("[", "(").replace("]", ")").replace(":", "\\:").replace("'", "’")
        action = {"words": "(" + " ".join(entry.choices) + ")", "files": "_files", "folders": "_files -/", "nothing": " "}[kind_of(entry)]
        tail = f":{entry.takes.lower() or 'value'}:{action}" if entry.takes else ""
        names = entry.names if len(entry.names) == 1 else [f"({' '.join(entry.names)})" + "{" + ",".join(entry.names) + "}"]
        prefix = "'*" if entry.many else "'"
        if len(entry.names) > 1:
            return f"'({' '.join(entry.names)})'" + "{" + ",".join(entry.names) + "}" + f"'[{text}]{tail}'"
        return f"{prefix}{names[0]}[{text}]{tail}'"

    zsh = ["#compdef rigdeed", "# zsh completion of rigdeed; made from what the program says of itself", "_rigdeed() {", "  local context state line", "  typeset -A opt_args",
           "  _arguments -C \\", *(f"    {zsh_option(entry)} \\" for entry in top.options()), "    '1:command:->command' '*::argument:->argument'", "  case $state in", "    command)",
           "      local -a commands=(", *(f"        {quoted(words[0] + ':' + one.about.rstrip('.').replace(':', ' '))}" for words, one in sorted(commands.items())), "      )",
           "      _describe command commands ;;", "    argument)", "      case $line[1] in"]
    for words, one in sorted(commands.items()):
        subs = [help_ for sub, help_ in sorted(helps.items()) if len(sub) == 2 and sub[0] == words[0]]
        if words[0] in lists:
            rest = f"'*:{'plan' if words[0] == 'start' else 'kind'}:({' '.join(lists[words[0]])})'"
        elif subs:
            rest = f"'1:what:({' '.join(sub.words[1] for sub in subs)})' '*:file:_files'"
        else:
            rest = "'*:file:_files'"
        options = one.options() + [entry for sub in subs for entry in sub.options() if "--help" not in entry.names]
        zsh += [f"        {words[0]}) _arguments \\", *(f"          {zsh_option(entry)} \\" for entry in options), f"          {rest} ;;"]
    zsh += ["      esac ;;", "  esac", "}", "_rigdeed \"$@\"", ""]
    (folder / "completions/_rigdeed").write_text("\n".join(zsh), encoding="utf-8")

    fish = ["# fish completion of rigdeed; made from what the program says of itself"]

    def fish_option(entry, condition):
        line = "complete -c rigdeed" + (f" -n {quoted(condition)}" if condition else "")
        for name in entry.names:
            line += f" -l {name[2:]}" if name.startswith("--") else f" -s {name[1:]}"
        kind = kind_of(entry)
        if entry.takes or entry.choices:
            line += " -x -a " + quoted(" ".join(entry.choices)) if kind == "words" else " -x -a '(__fish_complete_directories)'" if kind == "folders" else " -r -F" if kind == "files" else " -x"
        return line + f" -d {quoted(entry.text)}"

    fish += [fish_option(entry, "") for entry in top.options()]
    for words, one in sorted(commands.items()):
        fish.append(f"complete -c rigdeed -n __fish_use_subcommand -f -a {words[0]} -d {quoted(one.about.rstrip('.'))}")
        condition = f"__fish_seen_subcommand_from {words[0]}"
        subs = [help_ for sub, help_ in sorted(helps.items()) if len(sub) == 2 and sub[0] == words[0]]
        for entry in one.options() + [entry for sub in subs for entry in sub.options()]:
            if "--help" not in entry.names:
                fish.append(fish_option(entry, condition))
        if words[0] in lists:
            fish.append(f"complete -c rigdeed -n {quoted(condition)} -f -a {quoted(' '.join(lists[words[0]]))}")
        if subs:
            fish.append(f"complete -c rigdeed -n {quoted(condition)} -a {quoted(' '.join(sub.words[1] for sub in subs))}")
    (folder / "completions/rigdeed.fish").write_text("\n".join(fish) + "\n", encoding="utf-8")


version = said("--version").strip()
for name in ("man", "completions"):
    (folder / name).mkdir(parents=True, exist_ok=True)
helps = {(): Help(())}
for entry in helps[()].sections["Subcommands"]:
    words = (entry.names[0],)
    helps[words] = Help(words)
    for sub in helps[words].sections.get("Subcommands", []):
        helps[words + (sub.names[0],)] = Help(words + (sub.names[0],))
pages = ["-".join(["rigdeed", *words]) + "(1)" for words in sorted(helps)] + ["rigdeed-survey(5)", "rigdeed-works(5)"]
for words, one in helps.items():
    command_page(one, pages)
file_page("rigdeed-survey", "survey.xsd", "survey file of a yacht's standing rigging, as rigdeed reads it", pages)
file_page("rigdeed-works", "works.xsd", "answers to the works list of a sealed report, as rigdeed reads them", pages)
completions(helps)
