#!/usr/bin/env python3
"""The figures in docs/reliability.md are those of the tests and scripts that it speaks of; what was measured was
measured by this release or the one before it.

usage: figures.py [CHECKOUT]
Prints "N passed, N failed".
"""
import os
import re
import subprocess
import sys
import tempfile
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

# Measured blocks: tests/figures.sh writes them, and they age with the releases.
releases = [re.match(r"[\d.]+", one).group() for one in in_file("docs/changes.md", r"(?m)^## (.+)$")]
current = in_file("CMakeLists.txt", r"project\(rigdeed VERSION ([\d.]+)")[0]
blocks = re.findall(r"<!-- measured: (\w+) ([\d.]+) (\d{4}-\d\d-\d\d) -->\n(.*?)<!-- end of \1 -->", told, re.S)
expect(releases[:1] == [current], f"the first heading of docs/changes.md is that of {current}: {releases[:1]}")
expect(sorted(name for name, *_ in blocks) == ["coverage", "fuzzing", "speed", "tests"], f"blocks: {[one[0] for one in blocks]}")


def too_old(version):
    return version not in releases or releases.index(version) > 1


for name, version, _, body in blocks:
    expect(not too_old(version), f"{name} was measured by {version}: run tests/figures.sh {name}")
    expect(body.strip() != "" and re.search(r"\d", body), f"{name} says something")
if blocks:
    expect(too_old("0.0.1") and not too_old(current), "what is older is told")


def written(block, said, *more):
    """The page with that block written anew, or nothing if the writer refused; the page itself stays."""
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder) / "page.md"
        page.write_text(told, encoding="utf-8")
        done = subprocess.run([sys.executable, root / "tests/write_figures.py", block, *more], input=said, text=True,
                              capture_output=True, env={**os.environ, "RIGDEED_FIGURES_IN": str(page)})
        after = page.read_text(encoding="utf-8")
        expect(done.returncode == 0 or after == told, f"{block}: a refused run writes nothing")
        return after if done.returncode == 0 else None


log = "  cli.py                             10692 of 10692, 66 s\n  tests/run.sh    29868 of 29870, 1493 s\n29868 passed, 2 failed\n"
page = written("tests", log) or ""
expect("| `tests/run.sh` | 29870 | 2 | 1493 |" in page and "In all 29868 passed, 2 failed." in page, "a log is written down as it is")
expect(f"measured: tests {current} " in page, "with the version")
expect(written("tests", "  cli.py   12 of 12, 1 s\n") is None, "a run cut short is refused")
expect(written("coverage", "src/verify/ branches 9 of 10 (90.0 %); 1 left out") is None, "half a coverage is refused")
expect("90.0 % of `src/verify/` (9 of 10), 50.0 % of `src/crypto/` (1 of 2)" in (written(
    "coverage", "src/verify/ branches 9 of 10 (x)\nsrc/crypto/ branches 1 of 2 (x)\n") or ""), "shares are counted anew")
expect(written("speed", "issue: 1.0 s wall\n") is None, "a bench cut short is refused")
with tempfile.TemporaryDirectory() as folder:
    expect(written("fuzzing", "", folder) is None, "no logs, no figures")
    for number in (1, 2):
        (Path(folder) / f"fuzz_cms-{number}.log").write_text(
            f"#8 cov: {number}0 ft: 1\nDone 8 runs in 1800 second(s)\nstat::number_of_executed_units: 1500\n")
    page = written("fuzzing", "", folder) or ""
    expect("| cms | 3 000 | 60 | 20 |" in page and "In all 3 000 inputs in 1.0 hours." in page, "rounds add up")

# A script or test folder that the page names is there.
for path in re.findall(r"`(tests/[^`]+)`", told):
    expect((root / path).exists(), f"{path} is there")

print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
