#!/usr/bin/env python3
"""Photos find their fittings: place codes printed, photographed and read again; the demo's survey filled in from its photos.

usage: pair.py PROGRAM REPOSITORY
Needs qrencode, heif-enc, pdftotext, pdfimages, ImageMagick and exiftool. Prints "N passed, N failed".
"""
import datetime, json, os, re, shutil, subprocess, sys, tempfile
import xml.etree.ElementTree as ElementTree

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-pair-")
namespace = "{urn:rigdeed:survey:1}"
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


def convert(*words):
    subprocess.run(["convert", *words], check=True)


def code_pictures(survey, folder):
    """(place, pass) -> a picture of its code, by another program than the one that prints them."""
    made = run("climb", survey, "--cards", "-o", folder + "/cards.pdf", "--json")
    expect(made.returncode == 0, "cards: " + made.stderr)
    codes = json.loads(made.stdout)["codes"]
    pictures = {}
    for number, place in enumerate(codes):
        for way in "up", "down":
            pictures[number, way] = f"{folder}/code-{number}-{way}.png"
            subprocess.run(["qrencode", "-l", "Q", "-s", "10", "-m", "4", "-o", pictures[number, way], place[way]], check=True)
    return [place["fittings"] for place in codes], pictures


def photograph(code, file, when, across=150, turn=0, blur=1.0, shade=True):
    """A picture of 2016 by 1512 with the code in it: turned, in perspective, out of focus, half in the shade, creased."""
    layers = ["-size", "2016x1512", "xc:#8a8f94", "(", code, "-resize", f"{across * 29 // 21}x", "-virtual-pixel", "background", "-background", "#8a8f94"]
    layers += ["-distort", "Perspective", "0,0 6,9  0,%h 0,%h  %w,0 %w,0  %w,%h %[fx:w-8],%[fx:h-5]", "-rotate", str(turn), ")", "-gravity", "center", "-geometry", "+130-90", "-composite"]
    if shade:
        layers += ["(", "-size", "2016x1512", "gradient:gray(100%)-gray(45%)", ")", "-compose", "multiply", "-composite"]
    convert(*layers, "-blur", f"0x{blur}", "-attenuate", "0.15", "+noise", "Gaussian", "-quality", "88", file)
    subprocess.run(["exiftool", "-q", "-overwrite_original", f"-DateTimeOriginal={when:%Y:%m:%d %H:%M:%S}", "-Make=Invented", "-Model=One", file], check=True)


# The demo without times and photo names, with its looks and signs, as from the ticked sheet: codes photographed where its surveyor went, and its photos.
demo = work + "/demo"
shutil.copytree(repository + "/demo/photos", demo + "/photos")
whole = open(repository + "/demo/survey.xml", encoding="utf-8").read()
truth = ElementTree.fromstring(whole)
bare = re.sub(r'(<seen pass="(?:up|down)") at="[0-9:]*"( far="[^"]*")?( close="[^"]*")?( on-far="[^"]*")?', r"\1", whole)
expect("far=" not in bare and "close=" not in bare and ' at="1' not in bare and bare.count("<seen") == whole.count("<seen"), "no time and no photo is left")
open(demo + "/survey.xml", "w", encoding="utf-8").write(bare)
places, pictures = code_pictures(repository + "/demo/survey.xml", work)
place_of = {fitting: number for number, place in enumerate(places) for fitting in place}
shows = {}  # photo -> (view, pass, fittings)
for fitting in truth.find(namespace + "fittings"):
    for seen in fitting.findall(namespace + "seen"):
        for view in "far", "close":
            if seen.get(view):
                shows.setdefault(seen.get(view), (view, seen.get("pass"), set()))[2].add(fitting.get("id"))
facts = json.loads(subprocess.run(["exiftool", "-json", "-DateTimeOriginal", demo + "/photos"], capture_output=True, text=True).stdout)
times = sorted((fact["DateTimeOriginal"], os.path.basename(fact["SourceFile"])[:-4]) for fact in facts)
there = None
for number, (when, name) in enumerate(times):
    if name not in shows:
        continue
    view, way, fittings = shows[name]
    place = place_of[sorted(fittings, key=lambda one: place_of[one])[0]]
    if (place, way) != there:
        there = (place, way)
        moment = datetime.datetime.strptime(when, "%Y:%m:%d %H:%M:%S") - datetime.timedelta(seconds=6)
        photograph(pictures[there], f"{demo}/photos/K{number:04}.jpg", moment, turn=(number * 37) % 360, blur=0.6 + number % 3 * 0.5)
rows = [name for name in os.listdir(demo + "/photos") if name.startswith("K")]
told = {one["photo"]: one for one in json.loads(run("pair", demo + "/survey.xml", "--json").stdout)}
read = [name for name in rows if told[name[:-4]]["sure"] and told[name[:-4]]["why"] == "the code in it"]
expect(len(read) >= 0.9 * len(rows), f"codes read: {len(read)} of {len(rows)}")
expect(set(told) == set(name[:-4] for name in os.listdir(demo + "/photos")), "every photo of the folder is told of")
sure = [one for one in told.values() if one["sure"] and one["view"] != "other"]
wrong = [one["photo"] for one in sure if (one["view"], one["pass"]) != shows[one["photo"]][:2] or not set(one["fittings"]) <= shows[one["photo"]][2]]
placed = [one for one in told.values() if one["view"] != "other" and one["photo"] in shows and one["pass"] == shows[one["photo"]][1] and place_of[one["fittings"][0]] in {place_of[fitting] for fitting in shows[one["photo"]][2]}]
print(f"  demo: codes read {len(read)} of {len(rows)}, place and pass {len(placed)} of {len(shows)}, sure {len(sure)} of {len(shows)}, wrong among the sure {len(wrong)}")
expect(len(placed) >= 0.9 * len(shows), f"place and pass: {len(placed)} of {len(shows)}")
expect(not wrong, f"what is sure is as its surveyor wrote it: {wrong}")
refused = run("check", demo + "/survey.xml")
expect(refused.returncode == 2 and "let `rigdeed pair --write` take it from its photos" in refused.stderr, "for everything else a look needs its time: " + refused.stderr[:300])
# The contact sheet: one photo is a telephone's HEIC, one is broken.
demo_photos = demo + "/photos/"
heic = sorted(name for name in shows if shows[name][0] == "close")[3]
subprocess.run(["heif-enc", "-q", "60", "-o", demo_photos + heic + ".heic", demo_photos + heic + ".jpg"], check=True, capture_output=True)
subprocess.run(["exiftool", "-q", "-overwrite_original", "-TagsFromFile", demo_photos + heic + ".jpg", "-all:all", demo_photos + heic + ".heic"], capture_output=True)
os.rename(demo_photos + heic + ".jpg", work + "/aside.jpg")
open(demo_photos + "torn.jpg", "wb").write(open(work + "/aside.jpg", "rb").read()[:3000])
made = run("pair", demo + "/survey.xml", "--sheet", work + "/contact.pdf", "--json")
expect(made.returncode == 0 and open(work + "/contact.pdf", "rb").read(5) == b"%PDF-", "--sheet: " + made.stderr)
on_sheet = json.loads(made.stdout)
words = re.sub(r"\s+", " ", subprocess.run(["pdftotext", work + "/contact.pdf", "-"], capture_output=True, text=True).stdout)
files = [name for name in os.listdir(demo + "/photos") if name != "torn.jpg"]
for file in files:
    expect(file in words, f"on the contact sheet: {file}")
expect("torn.jpg" in words and "Could not be read" in words, "what could not be read is named on it")
uses = sum(max(1, len(one["fittings"])) for one in on_sheet)
images = subprocess.run(["pdfimages", "-list", work + "/contact.pdf"], capture_output=True, text=True).stdout.splitlines()[2:]
expect(len({line.split()[10] for line in images}) == len(files), f"each photo is in it: {len(files)} files, {len({line.split()[10] for line in images})} pictures")
expect(sum(len(re.findall(r"\b" + re.escape(one["photo"]) + r"\.", words)) for one in on_sheet) == uses, "a photo of several fittings stands at each, and no other twice")
expect(f"sure: {sum(one['sure'] and one['why'] == 'order and time' for one in on_sheet)};" in words and "Quillow" in words and "15 September 2026" in words, "yacht, day and how many are sure")
pages = int(re.search(r"Pages: +([0-9]+)", subprocess.run(["pdfinfo", work + "/contact.pdf"], capture_output=True, text=True).stdout).group(1))
expect(f"page 1 of {pages}" in words and f"page {pages} of {pages}" in words, "its pages are numbered")
before = open(work + "/contact.pdf", "rb").read()
refused = run("pair", demo + "/survey.xml", "--sheet", work + "/contact.pdf")
expect(refused.returncode == 2 and open(work + "/contact.pdf", "rb").read() == before, "a sheet that is there stays: " + refused.stderr)
expect(run("pair", demo + "/survey.xml", "--sheet", work + "/contact.pdf", "--force", "--language", "de").returncode == 0, "--force")
expect("Kontaktabzug" in subprocess.run(["pdftotext", work + "/contact.pdf", "-"], capture_output=True, text=True).stdout, "in the language asked for")
taken = run("pair", demo + "/survey.xml", "--sheet", demo_photos + heic + ".heic", "--force")
expect(taken.returncode == 2 and open(demo_photos + heic + ".heic", "rb").read(12)[4:8] == b"ftyp", "never a photo is written over: " + taken.stderr)
survey_before = open(demo + "/survey.xml", "rb").read()
expect(run("pair", demo + "/survey.xml", "--sheet", demo + "/survey.xml", "--force").returncode == 2 and open(demo + "/survey.xml", "rb").read() == survey_before, "nor the survey")
expect(run("pair", demo + "/survey.xml", "--sheet", work + "/no/such/contact.pdf").returncode == 2, "nor into no folder")
os.remove(demo_photos + heic + ".heic")
os.remove(demo_photos + "torn.jpg")
os.rename(work + "/aside.jpg", demo_photos + heic + ".jpg")
written = run("pair", demo + "/survey.xml", "--write")
expect(written.returncode == 0, "--write: " + written.stderr)
after = open(demo + "/survey.xml", encoding="utf-8").read()
for fitting in ElementTree.fromstring(after).find(namespace + "fittings"):
    for seen in fitting.findall(namespace + "seen"):
        for view in "far", "close":
            name = seen.get(view)
            if name:
                expect(name in shows and shows[name][0] == view and shows[name][1] == seen.get("pass") and fitting.get("id") in shows[name][2], f"written: {name} as {view} of {fitting.get('id')}")
expect(after.count('shows="row of the climb sheet"') == len(read), "photos of codes are named as such")
again = run("pair", demo + "/survey.xml", "--write")
expect(again.returncode == 0 and open(demo + "/survey.xml", encoding="utf-8").read() == after and "nothing to write" in again.stderr, "a second run changes nothing: " + again.stderr)
kept = re.sub(r"\s*<!-- pair: .*?-->", "", re.sub(r'\s*<other name="K\d+" shows="row of the climb sheet"/>', "", re.sub(r'(<seen pass="(?:up|down)")( far="[^"]*")?( close="[^"]*")?( at="[0-9:]*")?', r"\1", after)))
squeeze = lambda text: re.sub(r">\s*</fitting>", "/>", re.sub(r"\s+", " ", text)).replace(" />", "/>")
expect(squeeze(kept) == squeeze(bare), "all else stands as it stood")

if not os.environ.get("KEEP"): shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
