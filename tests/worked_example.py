#!/usr/bin/env python3
"""The rigs of docs/worked-example.md: every working gives its result, and every result is the program's.

usage: worked_example.py PROGRAM REPOSITORY
Prints "N passed, N failed".
"""
import json
import math
import re
import subprocess
import sys
from collections import defaultdict
from decimal import Decimal

program, repository = sys.argv[1:]
passed = failed = 0


def expect(truth, what):
    global passed, failed
    passed, failed = passed + bool(truth), failed + (not truth)
    if not truth:
        print("FAILED:", what)


WORDS = {"pi": math.pi, "sin": lambda a: math.sin(math.radians(a)), "cos": lambda a: math.cos(math.radians(a)),
         "tan": lambda a: math.tan(math.radians(a)), "asin": lambda x: math.degrees(math.asin(x)), "hypot": math.hypot, "min": min, "abs": abs}


def worked(expression):
    assert re.fullmatch(r"(?:[0-9. ()*/+,\-]|pi|a?sin|cos|tan|hypot|min|abs)*", expression), expression
    return eval(expression, {"__builtins__": {}}, WORDS)  # nothing but numbers, signs and the words above


def number_in(text):
    return re.match(r"−?[0-9]+(?:\.[0-9]+)?", text).group(0).replace("−", "-")


def document():
    rows, calculation, rig = defaultdict(list), None, None
    with open(repository + "/docs/worked-example.md", encoding="utf-8") as file:
        for line in file:
            if named := re.match(r"The rig is `fixtures/(.+?)/survey.xml`", line):
                rig, calculation = named.group(1), None
            if line.startswith("## "):
                calculation = line[3:].strip()
            found = re.match(r"\| (.+?) \| (.+?) \| `(.+?)` \| (.+?) \|$", line)
            if found and calculation:
                subject, what, working, result = found.groups()
                rows[rig, calculation, subject, what].append((working, result))
    return rows


def program_results(rig):
    run = subprocess.run([program, "check", "--json", f"{repository}/fixtures/{rig}/survey.xml"], capture_output=True, text=True)
    expect(run.returncode == 3, "the survey is incomplete, and nothing worse: " + run.stderr)
    rows = defaultdict(list)
    for one in json.loads(run.stdout)[0]["calculations"]:
        for result in one["results"]:
            if result["value"] is not None:
                rows[rig, one["id"], one["subject"], result["name"]].append((result["value"], result["text"]))
    return rows


written = document()
given = defaultdict(list)
for rig in ("worked", "worked-more", "worked-swept"):
    given |= program_results(rig)
expect(len(written) > 50, f"{len(written)} results are worked")
for key in sorted(set(written) | set(given)):
    expect(len(written[key]) == len(given[key]), f"{key}: {len(written[key])} worked, {len(given[key])} by the program")
    for (working, result), (value, text) in zip(written[key], given[key]):
        expect(result == text, f"{key}: {result} worked, {text} by the program")
        mine = worked(working)
        expect(math.isclose(mine, value, rel_tol=1e-8, abs_tol=1e-9), f"{key}: {working} is {mine}, the program has {value}")
        digits = Decimal(number_in(result))
        step = Decimal(1).scaleb(digits.as_tuple().exponent)
        expect(abs(Decimal(mine) - digits) <= step * Decimal("0.5000001"), f"{key}: {working} is {mine}, not {result}")
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
