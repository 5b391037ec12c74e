#!/usr/bin/env python3
"""The rules of the house that a program can check: who may include what, how large a file may be, that tests check.

usage: house_rules.py [CHECKOUT]
Prints every breach as "path:line: what", then "N passed, N failed"; one check a file and rule.
"""
import re
import sys
from pathlib import Path

root = Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parents[1])
src = root / "src"

# Folder -> folders (or single headers) its files may include, beside their own folder and base/.
EVERYTHING = {"survey", "trade", "evidence", "completeness", "assessment", "document", "report", "sheet", "pairing", "marks", "marking", "checking", "years", "works", "page", "drawing", "layout", "pdf",
              "crypto", "seal", "verify", "record", "command", "pipeline.hpp", "follow_up.hpp"}
MAY_INCLUDE = {
    "main.cpp": {"command"},
    "pipeline.cpp": EVERYTHING - {"command"},
    "pipeline.hpp": EVERYTHING - {"command"},
    "contact_sheet.cpp": EVERYTHING - {"command"},
    "follow_up.cpp": EVERYTHING - {"command"},
    "follow_up.hpp": EVERYTHING - {"command"},
    "command": EVERYTHING | {"reopen"},
    "base": set(),
    "crypto": set(),
    "survey": set(),
    "trade": {"survey"},
    "evidence": {"survey", "crypto"},
    "record": {"evidence", "survey", "crypto"},
    "completeness": {"evidence", "survey", "trade"},
    "assessment": {"evidence", "survey", "trade"},
    "drawing": {"survey", "trade"},
    "document": {"survey", "drawing"},
    "report": {"years", "record", "document", "completeness", "assessment", "evidence", "survey", "trade", "drawing"},
    "pairing": {"survey", "crypto", "evidence"},
    "sheet": {"pairing", "evidence", "drawing", "document", "completeness", "assessment", "survey", "trade"},
    "marks": {"survey"},
    "years": {"record", "evidence", "completeness", "assessment", "survey", "trade"},
    "works": {"document", "record", "evidence", "assessment", "survey", "trade", "drawing", "crypto"},
    "page": {"crypto"},
    "checking": {"page", "trade", "drawing", "survey"},
    "marking": {"page", "marks", "pairing", "completeness", "evidence", "drawing", "survey", "trade", "crypto"},
    "layout": {"document", "drawing"},
    "pdf": {"layout", "drawing"},
    "seal": {"crypto"},
    "verify": {"crypto"},
    "reopen": EVERYTHING - {"command"},
}

# Outside header, by its beginning -> where alone it may be included.
OUTSIDE = {
    "hpdf": "pdf/",
    "exiv2/": "evidence/",
    "jpeglib": "evidence/",
    "lcms2": "evidence/",
    "png.h": "evidence/",
    "libheif/": "evidence/heif.cpp",
    "ZXing/": "evidence/codes.cpp",
    "qrencode": "drawing/code.cpp",
    "jerror": "evidence/",
    "openssl/": "crypto/",
    "CLI/": "command/",
    "pugixml": "base/xml.cpp",
    "zlib": "verify/",
}

LONGEST_FILE = 400
LONGEST_MAIN = 40
UNFINISHED = re.compile(r"\b(TODO|FIXME|XXX|HACK)\b")

passed = failed = 0


def judge(path, breaches):
    """`breaches` are (line, what); none is a pass."""
    global passed, failed
    if not breaches:
        passed += 1
        return
    failed += 1
    for line, what in breaches:
        print(f"{path.relative_to(root)}:{line}: {what}")


def includes(text, opening, closing):
    pattern = re.compile(r"^\s*#\s*include\s*" + opening + "([^" + closing + "]+)" + closing)
    for number, line in enumerate(text.splitlines(), 1):
        if found := pattern.match(line):
            yield number, found.group(1)


def foreign_includes(name, text):
    folder = name.split("/")[0]
    allowed = MAY_INCLUDE.get(folder)
    if allowed is None:
        return [(1, f"{folder} is not in the table of what may include what")]
    breaches = []
    for number, header in includes(text, '"', '"'):
        target = header.split("/")[0]
        if target in (folder, "base") or target in allowed or header in allowed:
            continue
        breaches.append((number, f"{folder} may not include {header}"))
    return breaches


def outside_includes(name, text):
    return [(number, f"<{header}> belongs in src/{place} only")
            for number, header in includes(text, "<", ">")
            for beginning, place in OUTSIDE.items()
            if header.startswith(beginning) and not name.startswith(place)]


def unfinished(text):
    return [(number, "unfinished: " + line.strip()) for number, line in enumerate(text.splitlines(), 1) if UNFINISHED.search(line)]


def too_long(name, text):
    longest = LONGEST_MAIN if name == "main.cpp" else LONGEST_FILE
    lines = text.count("\n")
    return [(lines, f"{lines} lines; {longest} is the most")] if lines > longest else []


def checks_nothing(text):
    """Test cases without a check of their own: a helper that finds nothing to check would pass unseen."""
    cases = re.finditer(r"^TEST_CASE\((.*?)^}", text, re.M | re.S)
    return [(text.count("\n", 0, case.start()) + 1, "a test case without a check of its own")
            for case in cases if not re.search(r"\b(CHECK|REQUIRE|FAIL)\w*\(", case.group(1))]


sources = sorted(path for path in src.rglob("*") if path.suffix in (".cpp", ".hpp"))
for path in sources:
    name, text = path.relative_to(src).as_posix(), path.read_text(encoding="utf-8")
    judge(path, foreign_includes(name, text))
    judge(path, outside_includes(name, text))
    judge(path, unfinished(text))
    judge(path, too_long(name, text))

for folder in ("templates", "tests", "demo"):
    for path in sorted((root / folder).rglob("*")):
        if path.suffix in (".cpp", ".hpp", ".py", ".sh", ".xml", ".xsd", ".md") and path != Path(__file__).resolve():
            judge(path, unfinished(path.read_text(encoding="utf-8")))

for path in sorted((root / "tests").rglob("*_test.cpp")):
    judge(path, checks_nothing(path.read_text(encoding="utf-8")))

if len(sources) < 50:
    judge(src, [(0, f"only {len(sources)} source files found")])
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
