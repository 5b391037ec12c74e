#!/usr/bin/env python3
"""What the package holds besides the program and files of the repository.

usage: prepare.py PROGRAM REPOSITORY FOLDER VERSION
The day of all of it is that of SOURCE_DATE_EPOCH, else of the commit, else of the newest heading in docs/changes.md.
"""
import email.utils, gzip, os, shutil, subprocess, sys, time
from pathlib import Path

program, repository, folder, version = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3]), sys.argv[4]
scripts = repository / "docs/package"


def moment():
    if os.environ.get("SOURCE_DATE_EPOCH"):
        return int(os.environ["SOURCE_DATE_EPOCH"])
    said = subprocess.run(["git", "-C", repository, "log", "-1", "--format=%ct"], capture_output=True, text=True).stdout.strip()
    return int(said) if said else 1767225600  # 1 January 2026


def packed(path, content):
    with open(path, "wb") as file, gzip.GzipFile(filename="", mode="wb", compresslevel=9, mtime=0, fileobj=file) as out:
        out.write(content)


at = moment()
date = time.strftime("%Y-%m-%d", time.gmtime(at))
shutil.rmtree(folder, ignore_errors=True)
folder.mkdir(parents=True)
made = folder / "made"
subprocess.run([sys.executable, scripts / "make_manual.py", program, repository / "templates", made, date], check=True)
for page in sorted((made / "man").iterdir()):
    section = folder / "man" / ("man" + page.suffix[1:])
    section.mkdir(parents=True, exist_ok=True)
    packed(section / (page.name + ".gz"), page.read_bytes())
shutil.move(made / "completions", folder / "completions")
shutil.rmtree(made)
subprocess.run([program, "--quiet", "verify", "--page", "-o", folder / "check.html"], check=True, stdout=subprocess.DEVNULL)
subprocess.run([sys.executable, scripts / "make_sbom.py", program, version, date, folder / "rigdeed.spdx.json"], check=True)
shutil.copyfile(scripts / "copyright.in", folder / "copyright")
shutil.copyfile(scripts / "lintian-overrides", folder / "lintian-overrides")
packed(folder / "changelog.gz", (f"rigdeed ({version}) stable; urgency=medium\n\n  * What is new stands in changes.md beside this file.\n\n"
                                 f" -- rigdeed developers <rigdeed@localhost.localdomain>  {email.utils.formatdate(at)}\n").encode())
(folder / "done").write_text(date + "\n")
