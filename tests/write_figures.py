#!/usr/bin/env python3
"""Writes one measured block of docs/reliability.md, for tests/figures.sh.

usage: write_figures.py tests|coverage|speed|fuzzing [FOLDER…] <what was said
RIGDEED_FIGURES_IN may name another file than docs/reliability.md.
"""
import datetime
import os
import re
import sys
from pathlib import Path

root = Path(__file__).parents[1]


def fail(text):
    sys.exit(f"write_figures.py: {text}; nothing was written")


def table(head, rows):
    lines = ["| " + " | ".join(head) + " |", "|" + "---|" * len(head)]
    return "\n".join(lines + ["| " + " | ".join(str(cell) for cell in row) + " |" for row in rows])


def tests(log):
    """`  name   P of N, S s`, as counting.sh prints them; the scripts of .ci/run, then what they ran."""
    rows = re.findall(r"^  (\S.*?) +(\d+) of (\d+), (\d+) s$", log, re.M)
    total = re.findall(r"^(\d+) passed, (\d+) failed$", log, re.M)
    if not rows or not total:
        fail("that is no log of a whole .ci/run")
    whole = [row for row in rows if row[0].startswith("tests/")]
    parts = [row for row in rows if not row[0].startswith("tests/") and int(row[2]) >= 10]
    targets = re.findall(r"^  fuzz_(\w+): (\d+) inputs in (\d+) s$", log, re.M)
    said = [table(["script", "checks", "failed", "seconds"],
                  [(f"`{name}`", n, int(n) - int(p), s) for name, p, n, s in whole + parts])]
    if targets:
        said.append("libFuzzer, inputs in " + targets[0][2] + " s each: " +
                    ", ".join(f"{name} {count}" for name, count, _ in targets) + ".")
    said.append(f"In all {total[-1][0]} passed, {total[-1][1]} failed.")
    return "\n\n".join(said)


def coverage(said):
    rows = re.findall(r"^src/(\w+)/ branches (\d+) of (\d+) ", said, re.M)
    if len(rows) != 2:
        fail("coverage.sh did not say both folders")
    return ", ".join(f"{100 * int(part) / int(whole):.1f} % of `src/{folder}/` ({part} of {whole})"
                     for folder, part, whole in rows) + "."


def speed(said):
    lines = [line for line in said.splitlines() if re.search(r"\d", line) and not re.match(r"(photos: |Reading|\d+[MG]$)", line)]
    if not any(line.startswith("ratio of wall times") for line in lines):
        fail("bench.sh did not come to its end")
    rows = []
    for line in lines:
        what, _, figures = line.partition(": ")
        rows.append((what, figures) if figures else (line, ""))
    return table(["what", "measured"], rows)


def fuzzing(folders):
    """Sums over logs: inputs executed, seconds, and the edges that the last one covered."""
    sums = {}
    for folder in folders:
        for log in sorted(Path(folder).rglob("*.log")):
            text = log.read_text(encoding="utf-8", errors="replace")
            executed = re.search(r"^stat::number_of_executed_units: *(\d+)", text, re.M)
            seconds = re.search(r"^Done \d+ runs in (\d+) second", text, re.M)
            if not executed or not seconds:
                continue
            covered = re.findall(r" cov: (\d+) ", text)
            one = sums.setdefault(re.sub(r"^\d+-|^fuzz_|-\d+$", "", log.stem), [0, 0, 0])
            one[0] += int(executed.group(1))
            one[1] += int(seconds.group(1))
            one[2] = max([one[2]] + [int(edges) for edges in covered])
    if not sums:
        fail("no log of libFuzzer with its final statistics there")
    rows = [(name, f"{n:,}".replace(",", " "), f"{s / 60:.0f}", edges) for name, (n, s, edges) in sorted(sums.items())]
    hours = sum(s for _, s, _ in sums.values()) / 3600
    count = sum(n for n, _, _ in sums.values())
    return table(["target", "inputs", "minutes", "edges covered"], rows) + \
        f"\n\nIn all {count:,}".replace(",", " ") + f" inputs in {hours:.1f} hours."


def main():
    block = sys.argv[1]
    text = {"tests": tests, "coverage": coverage, "speed": speed}[block](sys.stdin.read()) if block != "fuzzing" \
        else fuzzing(sys.argv[2:])
    page = Path(os.environ.get("RIGDEED_FIGURES_IN", root / "docs/reliability.md"))
    version = re.search(r"project\(rigdeed VERSION ([\d.]+)", (root / "CMakeLists.txt").read_text()).group(1)
    day = datetime.date.today().isoformat()
    old = page.read_text(encoding="utf-8")
    pattern = re.compile(rf"<!-- measured: {block} [^>]*-->\n.*?<!-- end of {block} -->", re.S)
    if len(pattern.findall(old)) != 1:
        fail(f"{page} has no block for {block}, or two")
    new = f"<!-- measured: {block} {version} {day} -->\n{text}\n<!-- end of {block} -->"
    page.write_text(pattern.sub(lambda _: new, old), encoding="utf-8")


main()
