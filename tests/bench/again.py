#!/usr/bin/env python3
"""What a store of copies saves: the first run and the runs after it of `issue`, `check` and `pair`, held against the first
`issue`; and `verify --photos` against the bare digests of the photos on as many threads.

usage: again.py RUNS RIGDEED SURVEY SIGNER
XDG_CACHE_HOME is emptied again and again; it must be a folder for this alone.
"""
import concurrent.futures, hashlib, os, shutil, statistics, subprocess, sys, time

runs, rigdeed, survey, signer = int(sys.argv[1]), *sys.argv[2:5]
cache = os.environ["XDG_CACHE_HOME"]
folder = os.path.dirname(survey)
report = folder + "/again.pdf"
photos = [f"{folder}/photos/{name}" for name in sorted(os.listdir(folder + "/photos"))]
issue = [rigdeed, "--quiet", "--jobs", "2", "issue", "--on-behalf", survey, "-o", report, "--signer", signer, "--issued-on", "2026-10-05", "--force"]
commands = {"issue": issue, "check": [rigdeed, "--quiet", "--jobs", "2", "check", survey], "pair": [rigdeed, "--quiet", "--jobs", "2", "pair", survey, "--json"]}


def took(work):
    started = time.monotonic()
    work()
    return time.monotonic() - started


def run(command):
    if "issue" in command and os.path.exists(report):
        os.remove(report)
    code = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode
    if code not in (0, 3, 5):
        sys.exit(f"{command[3:5]}: exit {code}")


def hash_all():
    digest = lambda path: hashlib.sha256(open(path, "rb").read()).digest()
    with concurrent.futures.ThreadPoolExecutor(2) as threads:  # hashlib lets other threads run meanwhile
        list(threads.map(digest, photos))


first, again, verify, hashing = {name: [] for name in commands}, {name: [] for name in commands}, [], []
for number in range(runs + 1):
    for name, command in commands.items():
        shutil.rmtree(cache, ignore_errors=True)
        one = took(lambda: run(command))
        two = took(lambda: run(command))
        if number > 0:  # the first round fills the page cache
            first[name].append(one)
            again[name].append(two)
    run(issue)
    whole = took(lambda: run([rigdeed, "--jobs", "2", "verify", report, "--photos", folder + "/photos"]))
    bare = took(lambda: run([rigdeed, "--jobs", "2", "verify", report]))
    if number > 0:
        verify.append(whole - bare)
        hashing.append(took(hash_all))
middle = statistics.median
for name in commands:
    print(f"{name}: first {middle(first[name]):.2f} s, again {middle(again[name]):.2f} s: "
          f"{middle(again[name]) / middle(first['issue']):.3f} of the first issue")
print(f"verify --photos takes {middle(verify):.2f} s more than verify: {middle(verify) / middle(hashing):.2f} of hashing {len(photos)} photos on 2 threads, {middle(hashing):.2f} s")
