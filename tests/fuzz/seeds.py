#!/usr/bin/env python3
"""Seeds for the fuzz targets, made from the fixtures: TARGET_FOLDER/{survey,photo,structure,cms,verify}/.

usage: seeds.py PROGRAM REPOSITORY TARGET_FOLDER
"""
import hashlib, os, re, shutil, subprocess, sys
from pathlib import Path

program, repository, target = os.path.abspath(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]).resolve()
environment = dict(os.environ, RIGDEED_PASSPHRASE="seeds")
for name in ("survey", "photo", "structure", "cms", "verify"):
    (target / name).mkdir(parents=True, exist_ok=True)


def run(*words):
    subprocess.run([program, "--quiet", *map(str, words)], env=environment, check=True, stdout=subprocess.DEVNULL)


for path in sorted(repository.glob("fixtures/*/survey.xml")) + sorted(repository.glob("fixtures/invalid/*")):
    if path.is_file() and 0 < path.stat().st_size < 65536:
        shutil.copy(path, target / "survey" / f"{path.parent.name}-{path.name}")
photos = [path for path in sorted(repository.glob("fixtures/*/photos/*.jpg")) if path.stat().st_size < 65536]
for path in photos[:20]:
    shutil.copy(path, target / "photo" / f"{path.parent.parent.name}-{path.name}")
for kind, more in (("rsa", ()), ("p256", ("--curve", "p256"))):
    signer, report = target / f"{kind}.p12", target / "verify" / f"{kind}.pdf"
    run("signer", "new", signer, "--name", "A. Seed", *more)
    run("issue", repository / "fixtures/complete/survey.xml", "-o", report, "--signer", signer, "--issued-on", "2026-10-05")
    signer.unlink()
    shutil.copy(report, target / "structure" / f"{kind}.pdf")
    sealed = report.read_bytes()
    before, after = (int(n) for n in re.search(rb"/ByteRange \[0 (\d{10}) (\d{10})", sealed).groups())
    der = bytes.fromhex(sealed[before + 1:after - 1].decode())
    der = der[:4 + int.from_bytes(der[2:4], "big")]
    (target / "cms" / kind).write_bytes(hashlib.sha256(sealed[:before] + sealed[after:]).digest() + der)
