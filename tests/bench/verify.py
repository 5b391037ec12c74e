#!/usr/bin/env python3
"""How long `verify --seal-only` takes for a report, held against `openssl dgst -sha256` of the same file, by turns; and
`verify` whole, which makes the pages anew.

usage: verify.py RUNS RIGDEED REPORT
"""
import os, statistics, subprocess, sys, time

runs, rigdeed, report = int(sys.argv[1]), sys.argv[2], sys.argv[3]
commands = {"verify --seal-only": [rigdeed, "verify", report, "--seal-only"], "verify": [rigdeed, "verify", report], "openssl dgst": ["openssl", "dgst", "-sha256", report]}
wall = {name: [] for name in commands}
for number in range(runs + 1):
    for name, command in commands.items():
        started = time.monotonic()
        code = subprocess.run(command, stdout=subprocess.DEVNULL).returncode
        if number > 0:  # the first run fills the page cache
            wall[name].append((time.monotonic() - started) * 1000)
        if code not in (0, 5):
            sys.exit(f"{name}: exit {code}")
median = {name: statistics.median(taken) for name, taken in wall.items()}
for name, taken in wall.items():
    print(f"{name}: {median[name]:.0f} ms wall ({min(taken):.0f} to {max(taken):.0f})")
allowed = 1.5 * median["openssl dgst"] + 100
print(f"verify --seal-only takes {median['verify --seal-only'] / allowed:.2f} of what is allowed: 1.5 x openssl dgst + 100 ms = {allowed:.0f} ms")
print(f"report {os.path.getsize(report) / 1e6:.1f} MB")
