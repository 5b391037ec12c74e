#!/usr/bin/env python3
"""Reports issued by released versions stay as issued: fixtures/issued/README.md lists them.

usage: issued.py PROGRAM REPOSITORY
Prints "N passed, N failed".
"""
import os, re, shutil, subprocess, sys, tempfile

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
folder = repository + "/fixtures/issued"
work = tempfile.mkdtemp(prefix="rigdeed-issued-")
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words):
    return subprocess.run([program, *words], capture_output=True, text=True)


listed = {}  # report -> its row
for line in open(folder + "/README.md", encoding="utf-8"):
    row = re.match(r"\| `([^`]+\.pdf)`(.*)\| ([0-9a-f]{64}) \|$", line)
    if row:
        listed[row.group(1)] = (row.group(2), row.group(3))
there = sorted(name for name in os.listdir(folder) if name.endswith(".pdf"))
expect(sorted(listed) == there and there, f"every report there is listed, and the other way round: {there}, {sorted(listed)}")

for line in open(repository + "/docs/changes.md", encoding="utf-8"):
    release = re.match(r"## ([0-9.]+)", line)
    if release and "unreleased" not in line:
        expect(any(name.startswith(release.group(1) + "-") for name in listed), f"a report issued by {release.group(1)} is there")

for name, (words, fingerprint) in sorted(listed.items()):
    report = f"{folder}/{name}"
    told = run("verify", report, "--fingerprint", fingerprint)
    expect(told.returncode == 0 and ": as issued by " in told.stdout, f"{name} is as issued: {told.stdout}{told.stderr}")
    version = re.match(r"[0-9]+\.[0-9]+\.[0-9]+", name).group()
    now = run("--version").stdout.split()[-1]
    if version != now:
        expect(f"remark: its pages were not made anew: it was made by rigdeed {version}, this is rigdeed {now}\n" in told.stdout, f"{name}: says whose build made its pages: {told.stdout}")
    for root in re.findall(r"`([^`]+\.pem)`", words):
        trusted = run("verify", report, "--trust", f"{folder}/{root}")
        expect(trusted.returncode == 0 and trusted.stdout.count("for which an authority named vouches") == 2, f"{name}: signer and timestamp are vouched for by {root}: {trusted.stdout}{trusted.stderr}")
    out = f"{work}/{name}-files"
    unpacked = run("unpack", report, "-o", out)
    what = "works.xml" if "follow-up" in name else "survey.xml"
    expect(unpacked.returncode == 0 and what in os.listdir(out), f"{name} unpacks: {unpacked.stdout}{unpacked.stderr}")
    if "follow-up" in name:  # it names the report that it answers
        shutil.copy(f"{folder}/{next(one for one in listed if one.startswith(version + '-rsa-de'))}", out + "/report.pdf")
    # Without its photos the survey is incomplete, but it is read.
    os.makedirs(out + "/photos", exist_ok=True)
    read = run("check", f"{out}/{what}")
    expect(read.returncode == 3, f"{name}: its survey is read: exit {read.returncode} {read.stderr}")
    altered = bytearray(open(report, "rb").read())
    altered[len(altered) // 2] ^= 1
    open(work + "/altered.pdf", "wb").write(altered)
    expect(run("verify", work + "/altered.pdf", "--fingerprint", fingerprint).returncode == 4, f"{name}: an altered copy is refused")

# What answers a report, or compares with it, still finds it.
for version in sorted({name.split("-")[0] for name in listed}):
    by_name = {name[len(version) + 1:-4]: name for name in listed if name.startswith(version)}
    for later, option in (("follow-up", "--report"), ("p256-since", "--since")):
        if later in by_name:
            first = f"{folder}/{by_name['rsa-de-own-words']}"
            told = run("verify", f"{folder}/{by_name[later]}", option, first, "--fingerprint", listed[by_name[later]][1])
            expect(told.returncode == 0, f"{by_name[later]} {option} {first}: exit {told.returncode} {told.stdout}{told.stderr}")
            other = run("verify", f"{folder}/{by_name[later]}", option, f"{folder}/0.1.0-rsa.pdf", "--fingerprint", listed[by_name[later]][1])
            expect(other.returncode != 0 or "0.1.0-rsa.pdf" in other.stdout, f"{by_name[later]} {option} another report: exit {other.returncode} {other.stdout}")

print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
