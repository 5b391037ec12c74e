#!/usr/bin/env python3
"""Negates each `if` of src/verify, one at a time: a unit test must fail for each. Not run in CI.

usage: mutate.py [EVERY_NTH]
Takes the objects of build/. Prints each `if` whose negation no test noticed, then "N noticed, N not".
"""
import re, subprocess, sys, tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

root = Path(__file__).resolve().parents[1]
nth = int(sys.argv[1]) if len(sys.argv) > 1 else 1
work = Path(tempfile.mkdtemp(prefix="mutate-"))
tests = [str(path) for path in (root / "build/tests/CMakeFiles/unit_tests.dir").rglob("*.o")]
libraries = subprocess.run(["pkg-config", "--libs", "libcrypto", "exiv2", "lcms2", "pugixml", "zlib"], capture_output=True, text=True, check=True).stdout.split() + ["-ljpeg", "-lpng16", "-lhpdf", "-lpthread"]


def closing(text, at):
    depth = 0
    text = re.sub(r"'[()]'|\"[^\"\n]*\"", lambda literal: " " * len(literal.group()), text)
    for i in range(at, len(text)):
        depth += (text[i] == "(") - (text[i] == ")")
        if depth == 0:
            return i
    raise ValueError("a parenthesis without its end")


def mutants():
    for path in sorted((root / "src/verify").glob("*.cpp")):
        text = path.read_text()
        for found in re.finditer(r"\bif \(", text):
            opening = found.end() - 1
            end = closing(text, opening)
            condition = text[opening + 1:end]
            start = condition.rfind("; ") + 2 if "; " in condition else 0
            changed = text[:opening + 1] + condition[:start] + "!(" + condition[start:] + ")" + text[end:]
            yield path, text.count("\n", 0, opening) + 1, condition, changed


def noticed(job):
    number, (path, line, condition, changed) = job
    source, program = work / f"{number}.cpp", work / f"{number}.out"
    source.write_text(changed)
    built = subprocess.run(["g++", "-std=c++20", "-O1", "-w", "-I" + str(root / "src"), source, *tests, str(root / "build/libcore.a"), *libraries, "-o", program], capture_output=True)
    source.unlink()
    if built.returncode != 0:
        return path, line, condition, True  # does not even compile
    try:
        code = subprocess.run([program, "-tce=*may differ*,*cut short*", "-sf=*/tests/verify/*"], capture_output=True, timeout=120).returncode
    except subprocess.TimeoutExpired:
        code = 1
    program.unlink()
    return path, line, condition, code != 0


jobs = list(enumerate(mutants()))[::nth]
survivors = 0
with ThreadPoolExecutor(2) as pool:
    for path, line, condition, seen in pool.map(noticed, jobs):
        if not seen:
            survivors += 1
            print(f"{path.relative_to(root)}:{line}: if ({' '.join(condition.split())})", flush=True)
work.rmdir()
print(f"{len(jobs) - survivors} noticed, {survivors} not")
sys.exit(1 if survivors else 0)
