#!/usr/bin/env python3
"""Every rig of every plan, from a new survey to a complete one.

usage: plans.py PROGRAM REPOSITORY
For each choice of each plan's parameters (the options that all plans have, one at a time): start, xmllint against the schema, check (three gaps a fitting and nothing
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


DAY = "2026-10-03"
os.environ["SOURCE_DATE_EPOCH"] = "1791028800"
MOST = 300  # fittings of a rig


def make_photos():
    """F0 and C1 … C300: clouds, no two alike, taken a minute after each other from 8:01 on."""
    folder = work + "/cards"
    os.makedirs(folder)
    names = [f"C{number}" for number in range(MOST + 1)]
    words = ["convert", "-size", "48x36"]
    for number, name in enumerate(names):
        words += ["(", "-seed", str(number), "plasma:", "-write", f"{folder}/{name}.jpg", "+delete", ")"]
    subprocess.run([*words, "xc:gray", "null:"], check=True)
    with open(folder + "/times.csv", "w") as rows:
        rows.write("SourceFile,ExifIFD:DateTimeOriginal\n")
        for number, name in enumerate(names):
            minutes = 8 * 60 + number
            rows.write(f"{folder}/{name}.jpg,{DAY.replace('-', ':')} {minutes // 60:02}:{minutes % 60:02}:00\n")
    subprocess.run(["exiftool", "-q", "-overwrite_original", f"-csv={folder}/times.csv", *[f"{folder}/{name}.jpg" for name in names]], check=True)
    os.rename(folder + "/C0.jpg", folder + "/F0.jpg")
    return folder


cards = make_photos()


def fill_in(folder):
    """No "?" is left; both looks at each fitting, up in the order of the file and down in the other, a pair of photos each."""
    path = folder + "/survey.xml"
    text = open(path).read().replace(' ?"', '"').replace('"?"', '"Plover"')
    number = 0

    def looks(match):
        nonlocal number
        number += 1
        up, down = 8 * 60 + number, 23 * 60 + 59 - number
        return (match.group(1) + ">\n"
                f'      <seen pass="up" at="{up // 60:02}:{up % 60:02}" far="F0" close="C{number}"/>\n'
                f'      <seen pass="down" at="{down // 60:02}:{down % 60:02}"/>\n    </fitting>')

    text = re.sub(r"(<fitting [^>]*[^/])/>", looks, text)
    open(path, "w").write(text)
    for photo in ["F0"] + [f"C{one + 1}" for one in range(number)]:
        os.link(f"{cards}/{photo}.jpg", f"{folder}/photos/{photo}.jpg")
    return number


GENERAL = {"stepping", "halyards", "gear"}  # options of all plans


def choices_of(parameters):
    """Every choice of a plan's own parameters, and each of the general options once in its other value beside the standard ones."""
    for values in itertools.product(*[[one["standard"]] if one["id"] in GENERAL else one["values"] for one in parameters]):
        yield values
    for changed in parameters:
        for value in changed["values"] if changed["id"] in GENERAL else []:
            if value != changed["standard"]:
                yield tuple(value if one is changed else one["standard"] for one in parameters)


rigs = 0
for plan in json.loads(run("plans", "--json").stdout):
    names = [one["id"] for one in plan["parameters"]]
    for values in choices_of(plan["parameters"]):
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
        stays = set(re.findall(r'<stay id="([^"]+)"', open(folder + "/survey.xml").read()))
        wanted = collections.Counter((one, code) for one in fittings for code in ("not-seen-up", "not-seen-down", "no-photo-pair", "unconfirmed"))
        wanted += collections.Counter((one, "unconfirmed") for one in stays) + collections.Counter({("", "unconfirmed"): 4, ("", "left-open"): 4})
        expect(said.returncode == 3 and gaps == wanted, f"{what}: exit {said.returncode}, gaps beyond those of a new form: {list(((gaps - wanted) + (wanted - gaps)).items())[:3]}")
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
