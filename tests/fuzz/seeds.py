#!/usr/bin/env python3
"""Seeds for the fuzz targets, made from the fixtures: TARGET_FOLDER/TARGET/…
Needs openssl, ImageMagick and heif-enc.

usage: seeds.py PROGRAM REPOSITORY TARGET_FOLDER
"""
import hashlib, http.server, os, re, shutil, struct, subprocess, sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
from authority import AUTHORITY, Authorities, serve

program, repository, target = os.path.abspath(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]).resolve()
environment = dict(os.environ, RIGDEED_PASSPHRASE="seeds of reports")
for name in ("survey", "photo", "structure", "cms", "timestamp", "verify", "record", "register", "templates", "heif", "marks", "works", "store", "before", "authority"):
    (target / name).mkdir(parents=True, exist_ok=True)


def run(*words):
    subprocess.run([program, "--quiet", *map(str, words)], env=environment, check=True, stdout=subprocess.DEVNULL)


for path in sorted(repository.glob("fixtures/*/survey.xml")) + sorted(repository.glob("fixtures/invalid/*")):
    if path.is_file() and 0 < path.stat().st_size < 65536:
        shutil.copy(path, target / "survey" / f"{path.parent.name}-{path.name}")
for path in sorted(repository.glob("fixtures/marks/*.xml")):
    shutil.copy(path, target / "marks" / path.name)
for number, done in enumerate(("yes", "otherwise", "no", "worse", "?")):
    (target / "works" / f"{number}.xml").write_text(f"""<works-done xmlns="urn:rigdeed:works:1" number="W-1"><report file="r.pdf" number="F-1" yacht="Y" sha256="{'0' * 64}"/>
<rigger name="Per" firm="?"/><photos folder="photos"/><item number="1" asks="Renew it" done="{done}" on="2026-11-04" before="b" after="a">
<renewed stay="cap" make="1x19 ?" alloy="316" diameter="8 mm" certificate="H-1" because="so"/><part what="pin"/><measured what="tension" value="3 kN"/>Done.</item>
<item number="2" done="no">No time.</item></works-done>""")
(target / "works" / "before.xml").write_text('<before xmlns="urn:rigdeed:before:1"><report survey="&lt;rig-survey/&gt;" record="&lt;issue/&gt;" templates="x"/></before>')
photos = [path for path in sorted(repository.glob("fixtures/*/photos/*.jpg")) if path.stat().st_size < 65536]
for path in photos[:20]:
    shutil.copy(path, target / "photo" / f"{path.parent.parent.name}-{path.name}")
for number, path in enumerate(photos[:4]):  # small: what decodes them is slow
    small = target / "heif" / f"{number}.png"
    subprocess.run(["convert", path, "-auto-orient", "-resize", "96x96", small], check=True)
    subprocess.run(["heif-enc", "-q", "60", "-o", small.with_suffix(".heic"), small], check=True, stdout=subprocess.DEVNULL)
    small.unlink()
made = Authorities(str(target / "authority"))
made.certificate("root", extensions=AUTHORITY)
made.certificate("coast", "root", AUTHORITY, key="p256")
made.certificate("chain", "coast", key="p256")
made.clock("clock", "root")
made.clock("clock-p384", "root", key="p384")


class Clock(http.server.BaseHTTPRequestHandler):
    def do_POST(self):
        body = made.answer(self.rfile.read(int(self.headers["Content-Length"])))
        self.send_response(200)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *words):
        pass


address = serve(Clock)
digest, nonce = bytes(range(32)), b"seeding!"
imprint = bytes.fromhex("3031300d060960864801650304020105000420") + digest
query = bytes.fromhex("30430201" + "01") + imprint + b"\x02\x08" + nonce + b"\x01\x01\xff"
for clock, kind in ("clock", "sha256"), ("clock-p384", "sha512"):
    (target / "timestamp" / clock).write_bytes(digest + nonce + made.answer(query, clock, kind, chain="root"))
for kind in "rsa", "p256", "chain", "stamped":
    signer, report = target / f"{kind}.p12", target / "verify" / f"{kind}.pdf"
    if kind == "chain":
        made.signer_file("chain", environment["RIGDEED_PASSPHRASE"], "coast", file=str(signer))
    else:
        run("signer", "new", signer, "--name", "A. Seed", *(() if kind == "rsa" else ("--curve", "p256")))
    run("issue", repository / "fixtures/complete/survey.xml", "-o", report, "--on-behalf", "--signer", signer, "--issued-on", "2026-10-05", *(("--timestamp", address) if kind == "stamped" else ()))
    signer.unlink()
    shutil.copy(report, target / "structure" / f"{kind}.pdf")
    sealed = report.read_bytes()
    before, after = (int(n) for n in re.search(rb"/ByteRange \[0 (\d{10}) (\d{10})", sealed).groups())
    der = bytes.fromhex(sealed[before + 1:after - 1].decode())
    der = der[:4 + int.from_bytes(der[2:4], "big")]
    (target / "cms" / kind).write_bytes(hashlib.sha256(sealed[:before] + sealed[after:]).digest() + der)
# What reports carry, each for its reader.
own = target / "own"
(own / "look").mkdir(parents=True)
(own / "tables").mkdir()
(own / "look/letterhead.xml").write_text('<letterhead xmlns="urn:rigdeed:letterhead:1" firm="Seed &amp; Sons"><line>Quay 4</line></letterhead>\n')
shutil.copy(repository / "templates/tables/intervals.xml", own / "tables")
signer = target / "own.p12"
run("signer", "new", signer, "--name", "A. Seed", "--curve", "p256")
run("issue", repository / "fixtures/complete/survey.xml", "-o", target / "own.pdf", "--on-behalf", "--signer", signer, "--templates", own)
issued = sorted((repository / "fixtures/issued").glob("*.pdf"))
for report in [target / "own.pdf", target / "verify/stamped.pdf", *issued]:
    run("unpack", report, "-o", target / "unpacked")
    for file, reader in ("issue.xml", "record"), ("photos.xml", "register"), ("templates.xml", "templates"):
        if (target / "unpacked" / file).exists():
            shutil.copy(target / "unpacked" / file, target / reader / report.stem)
    shutil.rmtree(target / "unpacked")

# What the store keeps, behind a letter that says whose it is; and what the children say, by hand.
kept = target / "cache"
subprocess.run([program, "--quiet", "issue", repository / "fixtures/complete/survey.xml", "--preview", "-o", target / "kept.pdf"],
               env=dict(environment, XDG_CACHE_HOME=str(kept)), check=True, stdout=subprocess.DEVNULL)
contents = {path.read_bytes()[80:] for path in (kept / "rigdeed").iterdir()}
for number, content in enumerate(sorted(one for one in contents if len(one) < 16384)[::4]):
    for letter in "cp":
        (target / "store" / f"{letter}{number}").write_bytes(letter.encode() + content)
n = lambda *values: b"".join(struct.pack("<Q", value) for value in values)
text = lambda value: n(len(value)) + value.encode()
date, sha256, mark = n(2026, 10, 5), n(*range(32)), struct.pack("<3d", 0.5, 0.5, 0.1)
key = hashlib.sha256(text("copy") + text("a build") + n(*hashlib.sha256(b"no photo\n").digest(), 96, 0)).digest()
for number, picture in enumerate((path for path in photos[:8] if path.stat().st_size < 16384)):
    content = n(96, 72) + n(picture.stat().st_size) + picture.read_bytes() + (n(0) if number else n(1) + mark)
    (target / "store" / f"f{number}").write_bytes(b"frigdeed's store\n" + key + hashlib.sha256(content).digest() + content)
(target / "store/s").write_bytes(b"s" + n(2) + text("M1 up") + text("M1 down") + struct.pack("<d", 0.25))
for number, edge in enumerate((3.5, -1, float("nan"))):
    (target / "store" / f"e{number}").write_bytes(b"e" + n(1) + struct.pack("<d", edge))
concluded = n(1, 1) + text("sound") + n(0, 1, 2, 3, 4, 5)
(target / "store/r0").write_bytes(b"r" + n(*[0] * 16))
(target / "store/r1").write_bytes(
    b"r" + n(1, 1) + text("F-1") + text("Seed") + text("") + text("A. Seed") + date + concluded + concluded + text("no") + n(1) + text("tables/a.xml")
    + n(1) + text("f1") + n(1, 0, 1) + n(1) + text("F-0") + date + sha256 + text("so") + n(1, 1, 4, 1) + text("Renew") + text("rust") + n(1) + date
    + n(1) + text("F-0") + date + sha256 + text("B. Seed") + sha256 + n(1, 1) + n(1) + text("a.jpg") + n(1) + sha256 + n(1)
    + n(1) + text("a") + sha256 * 3 + n(640, 1) + mark + n(320) + n(1))

# Reports that rest on others, and a follow-up: what each carries.
before, report, follow_up, folder = target / "before.pdf", target / "since.pdf", target / "follow-up.pdf", target / "folder"
shutil.copytree(repository / "fixtures/complete", target / "rig")
complete = (target / "rig/survey.xml").read_text()
past, now = target / "rig/past.xml", target / "rig/now.xml"
past.write_text(complete.replace('number="F-1"', 'number="F-0"').replace('on="2026-10-03"', 'on="2025-10-03"').replace('folder="photos"', 'folder="photos" dated="2026-10-03" because="the camera counts ahead"'))
now.write_text(complete.replace('close="C1"/>', 'close="C1"><sign code="crack" where="pin hole">A line.</sign></seen>').replace('<seen pass="down" at="11:40"/>', '<seen pass="down" at="11:40"/><climbed despite="crack" because="the pole stands by itself"/>'))
run("issue", past, "-o", before, "--on-behalf", "--signer", signer, "--issued-on", "2025-10-05")
run("issue", now, "-o", report, "--on-behalf", "--signer", signer, "--issued-on", "2026-10-05", "--since", before, "--templates", own)
run("start", "--works", report, "-o", folder)
form = (folder / "works.xml").read_text()
form = form.replace('number="?">', 'number="W-1">', 1).replace('<rigger name="?" firm="?" qualification="?" contact="?"/>', '<rigger name="A. Seed"/>')
form = re.sub(r'done="\?".*?</item>', 'done="no" on="2026-11-04">No time yet.</item>', form, flags=re.S)
(folder / "works.xml").write_text(form)
run("issue", folder / "works.xml", "-o", follow_up, "--signer", signer, "--issued-on", "2026-11-05")
for paper in before, report, follow_up:
    run("unpack", paper, "-o", target / "unpacked")
    parts = [target / "unpacked" / file for file in ("survey.xml", "issue.xml", "before.xml", "works.xml", "templates.xml")]
    (target / "before" / paper.stem).write_bytes(b"".join((part.read_bytes() if part.exists() else b"") + b"\f" for part in parts))
    shutil.rmtree(target / "unpacked")
    paper.unlink()
for left in kept, folder, target / "rig":
    shutil.rmtree(left)
for left in own, target / "authority":
    shutil.rmtree(left)
for left in signer, target / "own.pdf", target / "kept.pdf":
    left.unlink()
