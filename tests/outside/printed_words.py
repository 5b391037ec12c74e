#!/usr/bin/env python3
"""What must be legible in a report by text extraction: every fitting with its verdict, every photo with its SHA-256.

usage: printed_words.py PROGRAM SURVEY REPORT PHOTO_FOLDER
The verdicts are those of `rigdeed check --json`, the digests those of `sha256sum`. Prints "N passed, N failed".
"""
import json
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

program, survey, report, folder = sys.argv[1:]
passed = failed = 0


def expect(truth, what):
    global passed, failed
    passed, failed = passed + bool(truth), failed + (not truth)
    if not truth:
        print("FAILED:", what)


extraction = subprocess.run(["pdftotext", "-layout", report, "-"], capture_output=True, text=True)
expect(extraction.returncode == 0 and not extraction.stderr, "pdftotext without a warning: " + extraction.stderr)
lines = extraction.stdout.splitlines()


# In reading order: what wraps within a column stays together.
flat = re.sub(r"\s+", " ", subprocess.run(["pdftotext", report, "-"], capture_output=True, text=True).stdout)


def word(text):
    return re.compile(r"(?<![\w.-])" + re.escape(text) + r"(?![\w.-])")


tree = ElementTree.parse(survey).getroot()
namespace = "{urn:rigdeed:survey:1}"
ids = [one.get("id") for one in tree.iter(namespace + "fitting")]
photos = sorted({one.get(name) for one in tree.iter() for name in ("far", "close") if one.get(name)} |
                {one.get("name") for one in tree.iter(namespace + "other")})
expect(ids and photos, "the survey names fittings and photos")

check = subprocess.run([program, "--json", "check", survey], capture_output=True, text=True)
expect(check.returncode == 0, "check says complete: " + check.stderr)
verdicts = {one["id"]: one["verdict"] for one in json.loads(check.stdout)[0]["fittings"]}
for name in ids:
    verdict = verdicts.get(name, "no verdict")
    rows = [line for line in lines if word(name).search(line) and word(verdict).search(line)]
    expect(rows, f"fitting {name} stands in a line with {verdict}")

for name in photos:
    digest = subprocess.run(["sha256sum", f"{folder}/{name}.jpg"], capture_output=True, text=True).stdout[:64]
    expect(len(digest) == 64 and digest in extraction.stdout and f"{name}.jpg" in flat, f"photo {name} stands with its SHA-256 {digest}")
    expect(any(word(name).search(line) for line in lines), f"photo {name} is named in the text")

# What ISO/IEC 17020:2012, 7.4.2 asks of an inspection report (docs/report-contents.md).
one = {name: tree.find(namespace + name) for name in ("surveyor", "client", "yacht", "attendance")}
elements = {
    "issuing body": one["surveyor"].get("firm"), "surveyor": one["surveyor"].get("name"), "number": tree.get("number"),
    "item: name": one["yacht"].get("name"), "item: HIN": one["yacht"].get("hin"), "place": one["attendance"].get("place"),
    "weather": one["attendance"].get("weather"), "client": one["client"].get("name"),
    "qualification": one["surveyor"].get("qualification"), "independence": one["surveyor"].get("independence"),
    "date of issue": "issued ", "statement": "Not to be sailed", "limits": "no guarantee",
    "defers to a qualified rigger": "qualified rigger", "parts not inspected": "could not be",
}
for element, words in elements.items():
    expect(words and words in flat, f"{element} stands in the report: {words}")

# The contents, and the cover's list: every entry's page number is the page on which that heading stands.
pages = extraction.stdout.split("\f")
contents = next(page for page in pages if re.search(r"^ *Contents( +m)? *$", page, re.M))
entries = re.findall(r"^ *(\d+)? +(\S.*?)  +(\d+) *$", contents[: contents.index("How to check this report") + 200], re.M)
findings = re.findall(r" (\d+) +([A-Z][a-z][A-Za-z ,'-]+?) {2,}(\d+) *$", pages[0], re.M)
expect(len(entries) == 10 and len(findings) >= 17, f"{len(entries)} entries in the contents, {len(findings)} on the cover")
for number, title, page in entries + findings:
    expect(int(page) <= len(pages) and title.lower() in re.sub(r"\s+", " ", pages[int(page) - 1]).lower(), f"{title} stands on page {page}")

# Reading order: the chapters follow one another in the text as in the contents; no character is missing.
raw = subprocess.run(["pdftotext", "-raw", report, "-"], capture_output=True, text=True).stdout
expect("\ufffd" not in raw, "no character without a meaning")
chapters = [title for number, title, page in entries if number]
body = "\f".join(raw.split("\f")[pages.index(contents):])
body = body[body.index(chapters[-1]) + 1:]  # the works begin beneath the contents
places = [body.find("\n" + title + "\n") if "\n" + title + "\n" in body else body.find("\f" + title) for title in chapters]
expect(len(chapters) == 9 and sorted(places) == places and -1 not in places, f"chapters in order: {list(zip(chapters, places))}")

print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
