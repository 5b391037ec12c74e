#!/usr/bin/env python3
"""A survey of a thousand fittings and four thousand photos, and one of half of each: processor time and most memory of
`check`, `issue` and `verify`, pages and size of the report; how much more the whole takes than the half (2: in
proportion). Prints figures, judges nothing.

usage: large.py RIGDEED REPOSITORY FOLDER [FITTINGS]
The surveys are made once, in FOLDER (about 200 MB).
"""
import os, re, resource, shutil, subprocess, sys, time
from pathlib import Path

rigdeed, repository, folder = os.path.abspath(sys.argv[1]), Path(sys.argv[2]).resolve(), Path(sys.argv[3]).resolve()
fittings = int(sys.argv[4]) if len(sys.argv) > 4 else 1000
environment = dict(os.environ, RIGDEED_PASSPHRASE="a test phrase", XDG_CACHE_HOME=str(folder / "cache"))
folder.mkdir(parents=True, exist_ok=True)


def run(words, codes=(0,)):
    """Seconds by the clock, seconds of processor time, kB of memory at most."""
    started = time.monotonic()
    child = subprocess.Popen([rigdeed, "--quiet", *map(str, words)], stdout=subprocess.DEVNULL, env=environment)
    _, status, used = os.wait4(child.pid, 0)
    if os.waitstatus_to_exitcode(status) not in codes:
        sys.exit(f"{words[0]}: exit {os.waitstatus_to_exitcode(status)}")
    return time.monotonic() - started, used.ru_utime + used.ru_stime, used.ru_maxrss


signer = folder / "signer.p12"
if not signer.exists():
    run(["signer", "new", signer, "--name", "A. Surveyor"])
spent = {}
for count in (fittings // 2, fittings):
    place = folder / str(count)
    if not (place / "survey.xml").exists():
        shutil.rmtree(place, ignore_errors=True)
        subprocess.run([sys.executable, repository / "tests/bench/large_survey.py", repository / "demo/photos", place, str(count)], check=True)
    report = place / "report.pdf"
    report.unlink(missing_ok=True)
    shutil.rmtree(folder / "cache", ignore_errors=True)
    print(f"{count} fittings, {4 * count} photos")
    for name, words, codes in (("check", ["check", "--no-store", place / "survey.xml"], (0,)),
                               ("issue", ["issue", place / "survey.xml", "-o", report, "--signer", signer, "--issued-on", "2026-10-05"], (0,)),
                               ("verify", ["verify", report], (5,)),
                               ("verify --seal-only", ["verify", report, "--seal-only"], (5,))):
        wall, processor, memory = run(words, codes)
        more = f", {processor / spent[name]:.2f} times the half's" if name in spent else ""
        spent[name] = processor
        print(f"  {name}: {wall:.1f} s by the clock, {processor:.2f} s of processor time{more}, {memory / 1024:.0f} MB of memory")
    pages = re.search(r"Pages: +(\d+)", subprocess.run(["pdfinfo", report], capture_output=True, text=True, check=True).stdout)[1]
    print(f"  report: {pages} pages, {report.stat().st_size / 1e6:.1f} MB")
