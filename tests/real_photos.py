#!/usr/bin/env python3
"""A survey over real camera photos is issued, and what is printed of their Exif equals what exiftool says.

usage: real_photos.py PROGRAM PHOTO_FOLDER
Needs exiftool, heif-convert, pdftotext, pdfimages and ImageMagick. Prints "N passed, N failed".
"""
import hashlib, json, os, re, shutil, subprocess, sys, tempfile

program, source = os.path.abspath(sys.argv[1]), sys.argv[2]
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, **more):
    return subprocess.run(words, capture_output=True, text=True, **more)


photos = sorted(name for name in os.listdir(source) if name.endswith((".jpg", ".heic")))
pairs = list(zip(photos[0::2], photos[1::2]))
expect(len(pairs) >= 18, "at least 18 pairs")

folder = tempfile.mkdtemp(prefix="rigdeed-real-")
os.mkdir(folder + "/photos")
for name in photos[: 2 * len(pairs)]:
    shutil.copy(os.path.join(source, name), folder + "/photos")

absent = "".join(f'<absent kind="{kind}" because="a test"/>' for kind in ("masthead", "mast-wall", "mast-step", "gooseneck", "sheave-box"))
taken = run("exiftool", "-s3", "-d", "%Y-%m-%d", "-DateTimeOriginal", "-ext", "jpg", "-ext", "heic", folder + "/photos").stdout.split()
days = " ".join(sorted({one for one in taken if re.fullmatch(r"\d{4}-\d\d-\d\d", one)}))
stem = lambda name: os.path.splitext(name)[0]
fittings = ""
for i, (far, close) in enumerate(pairs):
    fittings += f"""
    <fitting id="light-{i}" kind="light" station="mast" height="{5 + i * 6 / len(pairs):.2f} m">
      <seen pass="up" at="10:{i:02d}" far="{stem(far)}" close="{stem(close)}" because="any two photos"/>
      <seen pass="down" at="12:{59 - i:02d}"/>
    </fitting>"""
survey = f"""<?xml version="1.0" encoding="UTF-8"?>
<rig-survey xmlns="urn:rigdeed:survey:1" number="R-1" purpose="periodic">
  <surveyor name="A. Surveyor"/>
  <client name="An Owner" role="owner"/>
  <yacht name="Test Yacht" rig="cat" mast="aluminium" loa="10 m"/>
  <attendance on="2026-10-03" place="a harbour" climbed="yes"/>
  <photos folder="photos" dated="{days or "unknown"}" because="photos of many cameras"/>
  <rig choices="shrouds=0"><stay id="forestay" role="forestay" side="centre" make="rod" alloy="316" diameter="8 mm"/>{absent}</rig>
  <fittings>{fittings}
    <fitting id="f1" kind="chainplate" stay="forestay" station="deck" height="1 m"><not-seen reason="a test"/></fitting>
    <fitting id="f2" kind="turnbuckle" stay="forestay" station="deck" height="1 m"><not-seen reason="a test"/></fitting>
    <fitting id="f3" kind="toggle" stay="forestay" station="deck" height="1 m"><not-seen reason="a test"/></fitting>
    <fitting id="f4" kind="clevis-pin" stay="forestay" station="deck" height="1 m"><not-seen reason="a test"/></fitting>
    <fitting id="f7" kind="rod-head" stay="forestay" station="deck" height="1.2 m"><not-seen reason="a test"/></fitting>
    <fitting id="f8" kind="rod-head" stay="forestay" station="masthead" height="11.8 m"><not-seen reason="a test"/></fitting>
    <fitting id="f5" kind="rod" stay="forestay" station="mast" height="9 m"><not-seen reason="a test"/></fitting>
    <fitting id="f6" kind="tang" stay="forestay" station="masthead" height="12 m"><not-seen reason="a test"/></fitting>
  </fittings>
</rig-survey>
"""
open(folder + "/survey.xml", "w").write(survey)

check = run(program, "check", folder + "/survey.xml")
expect(check.returncode == 0, "check says complete: " + check.stdout[:2000] + check.stderr)

environment = dict(os.environ, RIGDEED_PASSPHRASE="a test phrase")
made = run(program, "signer", "new", folder + "/signer.p12", "--name", "A. Surveyor", env=environment)
expect(made.returncode == 0, "signer new: " + made.stderr)
issued = run(program, "issue", folder + "/survey.xml", "-o", folder + "/report.pdf", "--signer", folder + "/signer.p12", env=environment)
expect(issued.returncode == 0, "issue: " + issued.stderr)
lines = run("pdftotext", "-layout", folder + "/report.pdf", "-").stdout.splitlines()
# What most photos share is said once, above them.
first = next((i for i, line in enumerate(lines) if line.startswith("Of all photos that do not say otherwise")), len(lines))
shared = " ".join(line.strip() for line in lines[first: first + 3])


def row_of(name, digest):
    """What the register prints of a photo: its line, which ends with its digest, and what of it stands beneath."""
    at = next((i for i, line in enumerate(lines) if line.endswith(digest)), None)
    if at is None or not lines[at].startswith(name + " "):
        return ""
    row = [lines[at][: -len(digest)].strip()]
    for line in lines[at + 1:]:
        if not line or line[0] == " " or re.search(r"[0-9a-f]{64}$", line):
            break
        row.append(line.strip())
    return " ".join(row)


def says(row, words, kind):
    """In its row, or above all where the row has nothing of that kind."""
    return words in row or (words in shared and not re.search(kind, row))


unpacked = run(program, "unpack", folder + "/report.pdf", "-o", folder + "/unpacked")
expect(unpacked.returncode == 0, "unpack: " + unpacked.stderr)
register = open(folder + "/unpacked/photos.xml").read()

facts = json.loads(run("exiftool", "-json", "-n", "-DateTimeOriginal", "-Flash", "-Orientation", "-ImageWidth", "-ImageHeight", "-Rotation",
                       *[os.path.join(source, name) for name in photos[: 2 * len(pairs)]]).stdout)
for fact in facts:
    name = os.path.basename(fact["SourceFile"])
    with open(fact["SourceFile"], "rb") as file:
        digest = hashlib.sha256(file.read()).hexdigest()
    row = row_of(name, digest)
    entry = re.search(r'<photo name="%s"[^>]*/>' % re.escape(stem(name)), register)
    entry = entry.group(0) if entry else ""
    expect(bool(row) and bool(entry), name + " stands in the register")

    taken = str(fact.get("DateTimeOriginal", ""))
    real = bool(re.match(r"\d{4}:\d\d:\d\d \d\d:\d\d:\d\d", taken)) and not taken.startswith("0000")
    day, time = taken[:10].replace(":", "-"), taken[11:19]
    if real:
        expect(time in row and says(row, day, r"\d{4}-\d\d-\d\d"), f"{name}: time {day} {time} in {row!r}")
    else:
        expect(says(row, "time not recorded", r"\d\d:\d\d:\d\d"), f"{name}: no time in {row!r}")
    expect(("taken=" in entry) == real, f"{name}: time in photos.xml")

    flash = fact.get("Flash")
    words = "flash not recorded" if flash is None or not 0 <= int(flash) <= 0x7F else \
        "flash on" if int(flash) & 1 else "camera has no flash" if int(flash) & 0x20 else "flash off"
    expect(says(row, words, "flash"), f"{name}: {words!r} in {row!r}")

    heic = name.endswith(".heic")  # its container turns it, and exiftool tells the size it is stored in
    orientation = 1 if heic else fact.get("Orientation")
    words = f"orientation {orientation}" if orientation in range(1, 9) else "orientation not recorded"
    expect(says(row, words, "orientation"), f"{name}: {words!r} in {row!r}")
    turned = fact.get("Rotation") in (90, 270) if heic else orientation in (5, 6, 7, 8)
    width, height = (fact["ImageHeight"], fact["ImageWidth"]) if turned else (fact["ImageWidth"], fact["ImageHeight"])
    expect(says(row, f"{width} × {height}", r"\d × \d.*\d × \d"), f"{name}: {width} x {height} upright")

# Upright: what is in the PDF looks like what ImageMagick makes of the original when it follows the orientation.
run("pdfimages", "-j", folder + "/report.pdf", folder + "/image")
images = sorted(f for f in os.listdir(folder) if f.startswith("image-") and f.endswith(".jpg"))
expect(len(images) == len(facts), f"{len(images)} pictures in the report for {len(facts)} photos")


def pixels(path, *more):
    done = subprocess.run(["convert", path, *more, "-colorspace", "Gray", "-resize", "24x24!", "-depth", "8", "gray:-"], capture_output=True)
    return done.stdout


def as_shown(path):
    """The file, or what heif-convert makes of a HEIC, in the colours of sRGB."""
    if not path.endswith(".heic"):
        return path
    shown = folder + "/shown.png"
    subprocess.run(["heif-convert", path, shown], capture_output=True, check=True)
    subprocess.run(["convert", shown, "-profile", "/usr/share/color/icc/sRGB.icc", "-strip", shown], check=True)
    return shown


def colours(path):
    return subprocess.run(["convert", path, "-resize", "24x24!", "-depth", "8", "rgb:-"], capture_output=True).stdout


def distance(a, b):
    return sum(abs(x - y) for x, y in zip(a, b)) / max(len(a), 1)


embedded = [(image, pixels(folder + "/" + image)) for image in images]
for fact in facts:
    name = os.path.basename(fact["SourceFile"])
    original = pixels(as_shown(os.path.join(source, name)), "-auto-orient")
    near = min(distance(original, other) for _, other in embedded)
    expect(len(original) == 576 and near < 6, f"{name}: upright in the report (nearest picture differs by {near:.1f} of 255)")

    if name.endswith(".heic"):
        wanted = colours(as_shown(os.path.join(source, name)))
        near = min(distance(wanted, colours(folder + "/" + image)) for image in images)
        expect(len(wanted) == 3 * 576 and near < 2, f"{name}: its colours (off by {near:.2f} of 255 on average)")

told = run(program, "verify", folder + "/report.pdf", "--photos", folder + "/photos")
expect(f"pictures: {len(facts)} of {len(facts)} show what their originals show" in told.stdout, "the pictures are made anew from the originals: " + told.stdout)
# Small enough to be mailed: no photo is read again for its smaller sizes, the telephones' neither.
reading = environment | {"XDG_CACHE_HOME": folder + "/no-cache"}


def issue_within(survey_file, size):
    out = folder + f"/mail-{size}.pdf"
    if os.path.exists(out):
        os.remove(out)
    words = [program, "--no-store", "issue", survey_file, "-o", out, "--signer", folder + "/signer.p12", "--issued-on", "2026-10-05"]
    done = run(*words, *(["--mail-size", f"{size}kB"] if size else []), env=reading)
    return done, os.path.getsize(out) if done.returncode == 0 else 0


def opens(name, survey_file, size):
    """How often a run opens a photo, without a size a plain one; nothing where no strace is."""
    if not shutil.which("strace"):
        return None
    log, out = folder + "/strace", folder + "/traced.pdf"
    if os.path.exists(out):
        os.remove(out)
    run("strace", "-f", "-e", "trace=openat", "-o", log, program, "--no-store", "issue", survey_file, "-o", out, "--signer", folder + "/signer.p12",
        "--issued-on", "2026-10-05", *(["--mail-size", f"{size}kB"] if size else []), env=reading)
    return sum(name in line and "= -1" not in line for line in open(log, errors="replace"))


heics = [name for name in photos[: 2 * len(pairs)] if name.endswith(".heic")]
of_telephones = folder + "/telephones.xml"
shown = [i for i, pair in enumerate(pairs) if any(name in heics for name in pair)]
text_of = re.sub(r"    <fitting id=\"light-(\d+)\".*?</fitting>\n?", lambda found: found.group(0) if int(found.group(1)) in shown else "", survey, flags=re.S)
os.mkdir(folder + "/telephones")
for i in shown:
    for name in pairs[i]:
        shutil.copy(os.path.join(source, name), folder + "/telephones")
open(of_telephones, "w").write(text_of.replace('<photos folder="photos"', '<photos folder="telephones"'))
for what, file in ("all", folder + "/survey.xml"), ("the telephones'", of_telephones):
    plain, whole = issue_within(file, 0)
    expect(plain.returncode == 0, f"{what}: {plain.stderr}")
    refused, _ = issue_within(file, 1)
    least = re.search(r"smaller than ([0-9.]+) MB", refused.stderr)
    expect(refused.returncode == 2 and least, f"{what}: what cannot be is said: {refused.stderr}")
    least = float(least.group(1)) * 1e6 if least else 0
    for share in 0.8, 0.5, 0.2:
        wanted = int((least + share * (whole - least)) / 1000) + 1
        mailed, size = issue_within(file, wanted)
        expect(mailed.returncode == 0 and size <= wanted * 1000, f"{what}: at most {wanted} kB: {size} {mailed.stderr}")
        print(f"  {what}: {whole / 1e3:.0f} kB, {wanted} kB wanted, {size / 1e3:.0f} kB made")
        expect(size >= 0.97 * wanted * 1000, f"{what}: and hardly less: {size} of {wanted} kB")
    for name in heics:
        often, plainly = opens(name, file, wanted), opens(name, file, 0)
        expect(often == plainly, f"{what}: {name} is opened as often as for a plain report, {plainly} times, not {often}")

shutil.rmtree(folder)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
