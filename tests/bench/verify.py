#!/usr/bin/env python3
"""How long `verify --seal-only` takes for a report, held against `openssl dgst -sha256` and `pdfsig -nocert` of the same
file, by turns; `verify` whole, which makes the pages anew; and `verify --photos`, which reads the photos and makes their
copies anew, with one thread and with one a core.

usage: verify.py RUNS RIGDEED REPORT PHOTO_FOLDER
"""
import os, resource, statistics, subprocess, sys, time

runs, rigdeed, report, photos = int(sys.argv[1]), sys.argv[2], sys.argv[3], sys.argv[4]
cores = len(os.sched_getaffinity(0))
verify = [rigdeed, "verify", report]
commands = {
    "verify --seal-only": [*verify, "--seal-only"],
    "pdfsig -nocert": ["pdfsig", "-nocert", report],
    "openssl dgst": ["openssl", "dgst", "-sha256", report],
    "verify": verify,
    "verify --photos --jobs 1": [*verify, "--seal-only", "--photos", photos, "--jobs", "1"],
    f"verify --photos --jobs {cores}": [*verify, "--seal-only", "--photos", photos, "--jobs", str(cores)],
}
store = os.path.abspath(os.path.join(os.path.dirname(report), "no-store"))  # each run makes the copies anew
wall, processor = {name: [] for name in commands}, {name: [] for name in commands}


def used():
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


for number in range(runs + 1):
    for name, command in commands.items():
        if "--photos" in command and number > 3:
            continue
        subprocess.run(["rm", "-rf", store], check=True)
        started, before = time.monotonic(), used()
        code = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=dict(os.environ, XDG_CACHE_HOME=store)).returncode
        if number > 0:  # the first run fills the page cache
            wall[name].append((time.monotonic() - started) * 1000)
            processor[name].append((used() - before) * 1000)
        if code not in (0, 5):
            sys.exit(f"{name}: exit {code}")
subprocess.run(["rm", "-rf", store], check=True)
median = {name: statistics.median(taken) for name, taken in wall.items()}
work = {name: statistics.median(taken) for name, taken in processor.items()}
for name, taken in wall.items():
    print(f"{name}: {median[name]:.0f} ms wall ({min(taken):.0f} to {max(taken):.0f}), {work[name]:.0f} ms of processor time")
allowed = 1.5 * median["openssl dgst"] + 100
seal, other = "verify --seal-only", "pdfsig -nocert"
print(f"{seal} takes {median[seal] / allowed:.2f} of what is allowed: 1.5 x openssl dgst + 100 ms = {allowed:.0f} ms")
print(f"{seal} takes {median[seal] / median[other]:.2f} of {other} by the clock, {work[seal] / work[other]:.2f} of its processor time")
one, all_cores = "verify --photos --jobs 1", f"verify --photos --jobs {cores}"
print(f"{all_cores} keeps {work[all_cores] / median[all_cores]:.2f} cores busy, {one} {work[one] / median[one]:.2f}: {median[one] / median[all_cores]:.2f} times as fast")
print(f"report {os.path.getsize(report) / 1e6:.1f} MB")
