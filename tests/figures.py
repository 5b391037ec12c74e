#!/usr/bin/env python3
"""The figures in docs/reliability.md are those of the tests and scripts that it speaks of.

usage: figures.py [CHECKOUT]
Prints "N passed, N failed".
"""
import re
import sys
from pathlib import Path

root = Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parents[1])
told = (root / "docs/reliability.md").read_text(encoding="utf-8")
passed = failed = 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def number(text):
    words = {"a": 1, "three": 3, "eight": 8, "sixteen": 16}
    return words[text] if text in words else int(re.sub("[ ']", "", text))


def case(name):
    """The body of a test case."""
    text = (root / "tests/verify/damage_test.cpp").read_text(encoding="utf-8")
    return text[text.index(name):].split("\n}\n")[0]


def in_file(path, pattern):
    return re.findall(pattern, (root / path).read_text(encoding="utf-8"))


# What the page says, the number in brackets, and where the number stands that counts.
faults, sanitizers = "tests/faults.sh", "tests/sanitizers.sh"
rows = [
    (r"a tmpfs of (\d+) kB", in_file(faults, r"size=(\d+)k")),
    (r"`ulimit -f (\d+)`", in_file(faults, r"ulimit -f (\d+)")),
    (r"`kill -9`, (\d+) times a run", in_file(faults, r"RIGDEED_KILLS:-(\d+)")),
    (r"RIGDEED_KILLS=(\d+)", in_file(faults, r"RIGDEED_KILLS=(\d+)")),
    (r"`EINTR` (\w+) times", in_file(faults, r"EINTR:when=1\.\.(\d+)")),
    (r"`ulimit -n` (\d+) down", in_file(faults, r"few_files (\d+)")),
    (r"down to (\d+) \|", in_file(faults, r"for count in [\d ]*?(\d+); do\n  fresh\n  code=0\n  said=\$\(few_files")),
    (r"from (\d+) to \d+ MB", [n[:-3] for n in in_file(faults, r"for kib in (\d+)")]),
    (r"from \d+ to (\d+) MB", [n[:-3] for n in in_file(faults, r"for kib in [\d ]* (\d+);")]),
    (r"put in, one to \w+ taken out.*?\| 3 x (\d+) \|", re.findall(r"i < ([\d']+)", case("put in, taken out"))),
    (r"one to (\w+) taken out", re.findall(r"random\(\) % (\d+)\);\n\s*std::swap", case("put in, taken out"))),
    (r"a block of up to \d+ bytes in another's place \| (\d+) \|", re.findall(r"i < ([\d']+)", case("stand in for another"))),
    (r"a block of up to (\d+) bytes", re.findall(r"1 \+ random\(\) % (\d+)", case("stand in for another"))),
    (r"more than (\w+) seconds counts", in_file(sanitizers, r"-timeout=(\d+)")),
]
for said, counts in rows:
    found = re.search(said, told)
    expect(found is not None and len(set(counts)) == 1, f"{said}: said {bool(found)}, in the source {counts}")
    if found and counts:
        expect(number(found.group(1)) == number(counts[0]), f"{said}: {found.group(1)}, but {counts[0]} in the source")
expect("libFuzzer for a minute" in told and in_file(sanitizers, r"seconds=\$\{1:-(\d+)\}") == ["60"], "libFuzzer for a minute")

# Figures that follow from one another.
bits, bytes_ = (number(re.search(pattern, told).group(1)) for pattern in (r"every bit.*\| 2 x ([\d ]+) \|", r"every truncation.*\| 2 x ([\d ]+) \|"))
expect(bits == 8 * bytes_, f"{bits} bits are those of {bytes_} bytes")
shares = re.findall(r"([\d.]+) % of `[^`]+` \((\d+) of (\d+)\)", told)
expect(len(shares) == 2, f"shares of conditions: {shares}")
for share, part, whole in shares:
    expect(f"{100 * int(part) / int(whole):.1f}" == share, f"{part} of {whole} is {share} %")

# A script or test folder that the page names is there.
for path in re.findall(r"`(tests/[^`]+)`", told):
    expect((root / path).exists(), f"{path} is there")

print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
