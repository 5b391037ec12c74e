#!/usr/bin/env python3
"""The climb sheet as it is printed, of every rig plan.

usage: climb.py PROGRAM REPOSITORY
Needs pdftotext, pdftoppm, pdfinfo and zbarimg. Prints "N passed, N failed".
"""
import json, os, re, shutil, subprocess, sys, tempfile

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-climb-")
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


def text_of(pdf):
    return subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True).stdout


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


kinds = {}
for name in sorted(os.listdir(repository + "/templates/kinds")):
    kinds.update(re.findall(r'<kind id="([^"]+)"[^>]*? name="([^"]+)"', read(f"{repository}/templates/kinds/{name}")))


def fittings_of(survey):
    """Kind's name and height, in the order of the file."""
    rows = re.findall(r'<fitting id="[^"]+" kind="([^"]+)".* height="([^"]+)"', read(survey))
    return [(kinds[kind], height.removesuffix(" ?")) for kind, height in rows]


def rows_of(pdf):
    """Number -> what stands in its row, from the number to the next one's; twice the same number is kept twice."""
    found = {}
    text = text_of(pdf).replace("\f", "\n").split("What the codes mean")[0]
    for number, row in re.findall(r"^(\d+) ((?:(?!^\d+ [A-Z0-9]).*\n?)*)", text, re.M):
        found.setdefault(int(number), []).append(" ".join(row.split()))
    return found


# Every plan: each fitting once, under its place in the climbing order.
for plan in json.loads(run("plans", "--json").stdout):
    folder = f"{work}/{plan['id']}"
    expect(run("start", plan["id"], "-o", folder).returncode == 0, f"start {plan['id']}")
    made = run("climb", folder + "/survey.xml", "-o", folder + "/sheet.pdf")
    expect(made.returncode == 0 and made.stdout.strip() == folder + "/sheet.pdf", f"{plan['id']}: {made.stderr}")
    rows, wanted = rows_of(folder + "/sheet.pdf"), fittings_of(folder + "/survey.xml")
    expect(len(wanted) >= 5, f"{plan['id']}: fittings in the survey")
    for number, (kind, height) in enumerate(wanted, 1):
        there = [row for row in rows.get(number, []) if kind.lower() in row.lower() and height in row]
        expect(len(there) == 1, f"{plan['id']}: {number}. {kind}, {height} stands on the sheet once: {rows.get(number)}")
    info = subprocess.run(["pdfinfo", folder + "/sheet.pdf"], capture_output=True, text=True).stdout
    expect("Tagged:          yes" in info and "(A4)" in info and "Form:            none" in info, f"{plan['id']}: tagged, A4, no form: {info}")
    expect("?" not in info, f"{plan['id']}: the PDF does not say what is not known yet: {info}")
    words = " ".join(text_of(folder + "/sheet.pdf").split())
    for needed in ("Do not go up if", "Two halyards", "tools hang on lanyards", "Leave insects alone", "Do not climb unless the deck-level check is clean"):
        expect(needed in words, f"{plan['id']}: {needed!r}")

sloop = work + "/masthead-sloop/survey.xml"
again = run("climb", sloop, "-o", work + "/again.pdf", "--paper", "letter")
info = subprocess.run(["pdfinfo", work + "/again.pdf"], capture_output=True, text=True).stdout
expect(again.returncode == 0 and "612 x 792" in info, "--paper letter: " + info)
for language, words in {"de": "Nicht aufsteigen, wenn", "es": "No subir si", "fr": "Ne pas monter si"}.items():
    spoken = run("climb", sloop, "-o", work + "/speaks.pdf", "--force", "--language", language)
    expect(spoken.returncode == 0 and words in text_of(work + "/speaks.pdf"), f"--language {language}: {spoken.stderr}")
    expect(f"/Lang ({language})".encode() in open(work + "/speaks.pdf", "rb").read(), f"/Lang in {language}")
said = run("climb", sloop, "-o", work + "/again.pdf", "--json", "--force")
told = json.loads(said.stdout)
codes = told.pop("codes")
expect(told == {"file": work + "/again.pdf", "pages": text_of(work + "/again.pdf").count("\f")}, "--json: " + said.stdout)


def read_codes(pdf):
    """By another reader than the program's, at several sizes, since it overlooks one of several codes on a page at times."""
    stem, found = pdf[:-4], set()
    for size in "200", "160", "260":
        subprocess.run(["pdftoppm", "-r", size, "-gray", "-png", pdf, stem], check=True)
        for page in sorted(name for name in os.listdir(work) if name.startswith(os.path.basename(stem) + "-")):
            read = subprocess.run(["zbarimg", "--quiet", "--raw", f"{work}/{page}"], capture_output=True, text=True).stdout
            found |= set(read.split())
            os.remove(f"{work}/{page}")
    return found


# The codes: each fitting at one place, each place's codes once on the sheet and once on the cards.
wanted = sorted(text for place in codes for text in (place["up"], place["down"]))
ids = re.findall(r'<fitting id="([^"]+)"', read(sloop))
expect(sorted(fitting for place in codes for fitting in place["fittings"]) == sorted(ids) and len(set(wanted)) == len(wanted) == 2 * len(codes), f"each fitting is at one place: {codes}")
expect(all(re.fullmatch(r"RD[0-9A-Z]{10}[UD]", text) for text in wanted), f"codes as they are written: {wanted}")
expect(read_codes(work + "/again.pdf") == set(wanted), "every code on the sheet is read, and no other")
cards = run("climb", sloop, "--cards", "-o", work + "/cards.pdf")
expect(cards.returncode == 0 and read_codes(work + "/cards.pdf") == set(wanted), "and on the cards: " + cards.stderr)
expect(text_of(work + "/cards.pdf").count("\f") == 1 + (len(codes) - 2 + 3) // 4, "four cards a page, two on the first")
bare = run("climb", sloop, "--no-codes", "-o", work + "/bare.pdf", "--json")
expect(json.loads(bare.stdout)["codes"] == [] and not read_codes(work + "/bare.pdf") and json.loads(bare.stdout)["pages"] < told["pages"], "--no-codes: " + bare.stdout)

# What is missing of a survey half filled in.
half = work + "/half.xml"
whole = read(repository + "/fixtures/complete/survey.xml")
expect(run("climb", repository + "/fixtures/complete/survey.xml", "-o", work + "/none.pdf", "--missing").returncode == 0, "nothing is missing: exit 0")
expect(not os.path.exists(work + "/none.pdf"), "nothing is missing: no sheet")
with open(half, "w") as file:
    file.write(re.sub(r'<seen pass="down"[^>]*/>', "", whole, count=1))
expect(read(half) != whole, "a look was taken out")
made = run("climb", half, "-o", work + "/half.pdf", "--missing")
expect(made.returncode == 0, "half: " + made.stderr)
expect(len(rows_of(work + "/half.pdf")) == 1, f"only what lacks a look: {rows_of(work + '/half.pdf')}")
made = run("climb", half, "-o", work + "/half.pdf", "--force")
expect(len(rows_of(work + "/half.pdf")) == len(fittings_of(half)), "without --missing every fitting, though no photo is there")

# The sheet never takes the place of the survey, and a survey that is none makes no sheet.
before = read(sloop)
for name in (sloop, os.path.dirname(sloop) + "/photos/../survey.xml"):
    refused = run("climb", sloop, "-o", name)
    expect(refused.returncode == 2 and "place of its own source" in refused.stderr and read(sloop) == before, f"-o {name}: {refused.stderr}")
os.symlink(sloop, work + "/link.xml")
refused = run("climb", sloop, "-o", work + "/link.xml")
expect(refused.returncode == 2 and read(sloop) == before, "-o a link to the survey: " + refused.stderr)
with open(work + "/bad.xml", "w") as file:
    file.write(whole.replace('kind="', 'kind="x', 1))
refused = run("climb", work + "/bad.xml", "-o", work + "/bad.pdf")
expect(refused.returncode == 2 and "bad.xml:" in refused.stderr and not os.path.exists(work + "/bad.pdf"), "a bad survey: " + refused.stderr)
lost = run("climb", work + "/nowhere.xml", "-o", work + "/nowhere.pdf")
expect(lost.returncode == 2 and not os.path.exists(work + "/nowhere.pdf"), "no survey: " + lost.stderr)

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
