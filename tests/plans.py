#!/usr/bin/env python3
"""Every rig of every plan, from a new survey to a complete one.

usage: plans.py PROGRAM REPOSITORY
For each choice of each plan's parameters: start, xmllint against the schema, check (three gaps a fitting and nothing
else), both looks and a pair of photos filled in for each fitting, check again (complete). Needs xmllint.
Prints "N passed, N failed".
"""
import collections, itertools, json, os, re, shutil, subprocess, sys, tempfile

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
schema = repository + "/templates/survey.xsd"
work = tempfile.mkdtemp(prefix="rigdeed-plans-")
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


card = open(repository + "/fixtures/complete/photos/F1.jpg", "rb").read()
assert card[:2] == b"\xff\xd8"


def write_photo(path, serial):
    """A card with a comment of its own, so that no two photos are the same file."""
    comment = b"photo %d" % serial
    with open(path, "wb") as file:
        file.write(card[:2] + b"\xff\xfe" + (len(comment) + 2).to_bytes(2, "big") + comment + card[2:])


def fill_in(folder):
    """Both looks at each fitting, up in the order of the file and down in the other, a pair of photos each."""
    path = folder + "/survey.xml"
    text = open(path).read()
    number, photos = 0, []

    def looks(match):
        nonlocal number
        number += 1
        up, down = 8 * 60 + number, 23 * 60 + 59 - number
        photos.append(f"C{number}")
        return (match.group(1) + ">\n"
                f'      <seen pass="up" at="{up // 60:02}:{up % 60:02}" far="F0" close="C{number}"/>\n'
                f'      <seen pass="down" at="{down // 60:02}:{down % 60:02}"/>\n    </fitting>')

    text = re.sub(r"(<fitting [^>]*[^/])/>", looks, text)
    open(path, "w").write(text)
    for serial, photo in enumerate(["F0"] + photos):
        write_photo(f"{folder}/photos/{photo}.jpg", serial)
    return number


rigs = 0
for plan in json.loads(run("plans", "--json").stdout):
    names = [one["id"] for one in plan["parameters"]]
    for values in itertools.product(*[one["values"] for one in plan["parameters"]]):
        rigs += 1
        chosen = [f"{name}={value}" for name, value in zip(names, values)]
        what = " ".join([plan["id"], *chosen])
        folder = f"{work}/{rigs}"
        started = run("start", plan["id"], "-o", folder, *(["--set", *chosen] if chosen else []))
        expect(started.returncode == 0, f"{what}: start: {started.stderr}")
        if started.returncode != 0:
            continue
        linted = subprocess.run(["xmllint", "--noout", "--schema", schema, folder + "/survey.xml"], capture_output=True, text=True)
        expect(linted.returncode == 0, f"{what}: xmllint: {linted.stderr}")
        said = run("check", "--json", folder + "/survey.xml")
        gaps = collections.Counter((one["fitting"], one["code"]) for one in json.loads(said.stdout)[0]["gaps"])
        fittings = set(re.findall(r'<fitting id="([^"]+)"', open(folder + "/survey.xml").read()))
        wanted = collections.Counter((one, code) for one in fittings for code in ("not-seen-up", "not-seen-down", "no-photo-pair"))
        expect(said.returncode == 3 and gaps == wanted, f"{what}: exit {said.returncode}, gaps beyond three a fitting: {list(((gaps - wanted) + (wanted - gaps)).items())[:3]}")
        expect(fill_in(folder) == len(fittings), f"{what}: every fitting is filled in")
        filled = run("check", folder + "/survey.xml")
        expect(filled.returncode == 0, f"{what}: filled in, check exits {filled.returncode}: {filled.stdout[:300]}{filled.stderr[:300]}")
        linted = subprocess.run(["xmllint", "--noout", "--schema", schema, folder + "/survey.xml"], capture_output=True, text=True)
        expect(linted.returncode == 0, f"{what}: filled in, xmllint: {linted.stderr}")
        shutil.rmtree(folder)
expect(rigs >= 200, f"{rigs} rigs")
shutil.rmtree(work, ignore_errors=True)
print(f"{passed} passed, {failed} failed")
sys.exit(failed != 0)
