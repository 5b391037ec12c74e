#!/usr/bin/python3
"""The check page: a second verifier, held against the first, and looked at in a real Chromium.

usage: check_page.py PROGRAM REPOSITORY [PART…]
Needs nodejs, chromium, chromium-driver, python3-selenium (Debian's, so Debian's python3), build/tests/unit_tests.
Prints "N passed, N failed".
"""
import hashlib, json, os, re, shutil, socket, subprocess, sys, tempfile, threading, time, traceback

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from browser import Browser, Keys

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-check-")
page = work + "/check.html"
issued = repository + "/fixtures/issued"
passed, failed = 0, 0

# What the program refuses although nothing of the file was changed since it was sealed, for its contents alone. The page
# does not make pages anew, so it calls these unchanged: by the names of the cases of tests/reopen/.
CONTENTS_ALONE = {}


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, **more):
    return subprocess.run([program, *words], capture_output=True, text=True, **more)


def core(*words, text=None):
    told = subprocess.run(["node", repository + "/tests/page/core.js", page, *words], input=text, capture_output=True, text=True)
    if told.returncode != 0:
        raise RuntimeError(told.stderr[-2000:])
    return told.stdout


def counted(text, what):
    """Takes over "N passed, N failed" of another script, and what it says of failures."""
    global passed, failed
    counts = re.search(r"(\d+) passed, (\d+) failed\s*$", text)
    expect(counts is not None, what)
    passed += int(counts.group(1))
    failed += int(counts.group(2))
    print("".join(line + "\n" for line in text.splitlines() if line.startswith("FAILED")), end="")


def verdicts(files):
    """Of the page's own functions: "good" or what is wrong, by file."""
    told = [line.split(" ", 1) for line in core("verdicts", text="".join(file + "\n" for file in files)).splitlines()]
    expect([file for _, file in told] == list(files), "each file is told of")
    return {file: code for code, file in told}


def listed():
    """Reports that were issued -> the fingerprint of their signer."""
    rows = re.findall(r"^\| `([^`]+\.pdf)`.*\| ([0-9a-f]{64}) \|$", open(issued + "/README.md", encoding="utf-8").read(), re.M)
    return {f"{issued}/{name}": print_ for name, print_ in rows}


def the_page():
    made = run("verify", "--page", "-o", page)
    expect(made.returncode == 0 and made.stdout == page + "\n", "the page is written: " + made.stderr)
    size = os.path.getsize(page)
    expect(size < 300_000, f"it is small: {size} bytes")
    first = open(page, "rb").read()
    expect(run("verify", "--page", "-o", page).returncode == 0 and open(page, "rb").read() == first, "it may be made again, and is the same")
    other = work + "/mine.txt"
    open(other, "w").write("mine")
    refused = run("verify", "--page", "-o", other)
    expect(refused.returncode == 2 and "--force" in refused.stderr and open(other).read() == "mine", "another file is not overwritten: " + refused.stderr)
    expect(run("verify", "--page", "-o", other, "--force").returncode == 0 and open(other, "rb").read() == first, "but it is by --force")
    expect(run("verify", "--page", issued + "/0.1.0-rsa.pdf").returncode == 2, "it verifies no report meanwhile")
    expect(run("verify", "-o", work + "/x.html", issued + "/0.1.0-rsa.pdf").returncode == 2, "-o is for the page alone")
    expect(run("verify").returncode == 2, "without a page a report is wanted")
    policy = re.search(rb'Content-Security-Policy" content="([^"]*)"', first).group(1).decode()
    expect("default-src 'none'" in policy and "connect-src" not in policy and "http" not in policy and "unsafe" not in policy, "nothing is allowed to it: " + policy)


def the_same_as_the_program():
    """Both read what reports hold from tables of their own; both judge the same files."""
    counted(core("digests"), "SHA-256")
    table = open(repository + "/src/verify/schema_table.hpp", encoding="utf-8").read()
    rows = {" ".join(one) for one in re.findall(r'Row\{Role::(\w+), "([^"]+)", Is::', table)}
    allowed = set(core("allowed").split("\n")) - {""}
    expect(len(rows) > 150 and rows == allowed, f"both tables have the same rows: {sorted(rows ^ allowed)}")
    good = verdicts(listed())
    expect(len(good) >= 4 and set(good.values()) == {"good"}, f"reports that were issued are good: {good}")


def attacks():
    """Each file that the tests of the program's verifier examine, before this one."""
    kept = work + "/kept"
    os.mkdir(kept)
    ran = subprocess.run([repository + "/build/tests/unit_tests", "-sf=*attack_test*,*forgery_test*,*value_test*,*difference_test*"], env=dict(os.environ, RIGDEED_KEEP_EXAMINED=kept), capture_output=True, text=True)
    expect(ran.returncode == 0, "the program's own tests run: " + ran.stdout[-500:])
    files = sorted(f"{kept}/{name}" for name in os.listdir(kept))
    intact = [file for file in files if file.endswith("-intact.pdf")]
    expect(len(files) > 2000 and 50 < len(intact) < len(files) / 2, f"they keep what they examine: {len(files)}, {len(intact)} of them intact")
    told = verdicts(files)
    for file in files:
        expect((told[file] == "good") == (file in intact), f"{file}: the page says {told[file]}")
    # Of the smallest report of all, bits flipped one at a time.
    smallest = min(intact, key=os.path.getsize)
    count = os.environ.get("RIGDEED_FLIPS", "5000")
    refused = re.search(r"^(\d+) of (\d+) refused$", said := core("flips", smallest, count, "20261003"), re.M)
    expect(refused and refused.group(1) == refused.group(2) and int(refused.group(2)) >= 5000, f"{os.path.getsize(smallest)} bytes, bits flipped: {said[-300:]}")


PARTS = [the_same_as_the_program, attacks]

try:
    the_page()
    wanted = sys.argv[3:]
    for part in PARTS:
        if wanted and part.__name__ not in wanted:
            continue
        try:
            part()
        except Exception:
            expect(False, f"{part.__name__} came to its end: {traceback.format_exc()}")
finally:
    shutil.rmtree(work, ignore_errors=True)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
