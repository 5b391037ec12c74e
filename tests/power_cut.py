#!/usr/bin/env python3
"""What a power cut leaves, by the order of a run's calls to the system (strace): the data of a file is written and synced
under a neighbour's name, renamed, and its folder synced, before anything is said and before the next file appears; a new
folder is synced into the one that holds it. The store alone syncs nothing: a half entry is as if it were not there.
Then each trace is spoilt, a call taken out or put behind the next, and the judge of traces must notice.

usage: power_cut.py PROGRAM REPOSITORY
Needs strace. Prints "N passed, N failed".
"""
import os, re, shutil, subprocess, sys, tempfile
from pathlib import Path

program, repository = os.path.abspath(sys.argv[1]), Path(sys.argv[2]).resolve()
work = Path(os.path.realpath(tempfile.mkdtemp(prefix="rigdeed-power-")))
passed, failed = 0, 0
CALLS = "open,openat,creat,write,pwrite64,writev,pwritev,sendfile,copy_file_range,splice,ftruncate,truncate,fallocate,fsync,fdatasync,rename,renameat,renameat2,link,linkat,symlink,symlinkat,unlink,unlinkat,rmdir,mkdir,mkdirat,chmod,fchmod,fchmodat,utimensat"


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def environment(cache):
    return dict(os.environ, XDG_CACHE_HOME=str(cache), RIGDEED_PASSPHRASE="a test phrase", SOURCE_DATE_EPOCH="1791158400", LC_ALL="C.UTF-8")


def events(trace, folder):
    """The calls that change something, in the order in which they ended: (what, path, more). Paths are whole."""
    found, begun = [], {}
    for line in trace.splitlines():
        process, rest = line.split(None, 1)
        if rest.endswith("<unfinished ...>"):
            begun[process] = rest[:-len("<unfinished ...>")].rstrip()
            continue
        if resumed := re.match(r"<\.\.\. \w+ resumed>", rest):
            rest = begun.pop(process, "") + rest[resumed.end():]
        call = re.match(r"(\w+)\((.*)\)\s+= (-?\d+)(<[^>]*>)?", rest)
        if not call or int(call[3]) < 0:
            continue
        name, words = call[1], call[2]
        at = lambda path, base=None: os.path.normpath(os.path.join(base or folder, path))
        strings = re.findall(r'"((?:[^"\\]|\\.)*)"', words)
        bases = re.findall(r"(?:AT_FDCWD|\d+)<([^>]*)>", words)
        if name in ("open", "openat", "creat"):
            if name == "creat" or re.search(r"O_WRONLY|O_RDWR|O_CREAT|O_TRUNC", words):
                kind = "make" if "O_CREAT" in words and "O_EXCL" in words else "overwrite"
                found.append((kind, at(call[4][1:-1] if call[4] else strings[0]), None))
        elif re.match(r"p?writev?(64)?$", name):
            descriptor = re.match(r"(\d+)<([^>]*)>", words)
            if descriptor and descriptor[1] in "12":
                found.append(("say", descriptor[2], None))
            elif descriptor and descriptor[2].startswith("/"):
                found.append(("write", descriptor[2], None))
        elif name in ("fsync", "fdatasync"):
            found.append(("sync", bases[0], None))
        elif name.startswith("rename"):
            old, new = strings[:2]
            both = (bases + [None, None])[:2]
            found.append(("rename", at(new, both[1]), at(old, both[0])))
        elif name.startswith("mkdir"):
            found.append(("folder", at(strings[0], bases[0] if bases else None), None))
        elif name in ("unlink", "unlinkat", "rmdir"):
            found.append(("remove", at(strings[0], bases[0] if bases else None), None))
        else:  # no other way to change a file is known to the rules below
            found.append((name, bases[0] if bases else at(strings[0]), None))
    return found


def judge(found, folder, cache):
    """What is wrong with such a list; empty if nothing is."""
    wrong = []
    unsynced = {}  # a neighbour being written: whether it has data that is not synced
    pending = {}   # what became visible, by the folder that is to be synced for it
    inside = lambda path, where: path == str(where) or path.startswith(str(where) + "/")
    written_entries = set()
    for what, path, old in found:
        if what == "say":
            if pending:
                wrong.append(f"something is said before {sorted(pending)} is synced")
            continue
        if inside(path, cache):  # the store
            entry = os.path.basename(path)
            if what in ("make", "write") and not entry.startswith(".new-"):
                wrong.append(f"the store writes into {entry}")
            if what == "rename" and (os.path.dirname(path) != os.path.dirname(old) or not os.path.basename(old).startswith(".new-") or old not in written_entries):
                wrong.append(f"the store renames {old}")
            if what == "write":
                written_entries.add(path)
            if what not in ("make", "write", "rename", "folder", "remove"):
                wrong.append(f"the store: {what} {entry}")
            continue
        if not inside(path, folder):
            if not path.startswith(("/dev/", "/proc/", "pipe:")):
                wrong.append(f"{what} {path}: outside")
            continue
        name, place = os.path.basename(path), os.path.dirname(path)
        hidden = name.startswith(".") and name.endswith(".part")
        if what == "make":
            if not hidden:
                wrong.append(f"{name} is made under its own name")
            unsynced[path] = True
        elif what == "write":
            if path not in unsynced:
                wrong.append(f"written into {name}")
            unsynced[path] = True
        elif what == "sync":
            if path in unsynced:
                unsynced[path] = False
            pending.pop(path, None)
        elif what == "rename":
            if unsynced.pop(old, True):
                wrong.append(f"{name} gets its name before its data is synced")
            if os.path.dirname(old) != place:
                wrong.append(f"{name} comes from another folder")
            if pending:
                wrong.append(f"{name} appears before {sorted(pending)} is synced")
            pending[place] = True
        elif what == "folder":
            pending[place] = True
        elif what == "fchmod" and path in unsynced:
            pass
        else:
            wrong.append(f"{what} {name}")
    wrong += [f"{path} is not synced" for path in pending]
    wrong += [f"{path} is left" for path in unsynced]
    return wrong


def swapped(found, i, j):
    again = list(found)
    again[i], again[j] = again[j], again[i]
    return again


def spoilt(found, folder):
    """The same calls with one of those that count left out, or two that must not change places changed."""
    own = [i for i, (what, path, _) in enumerate(found) if what != "say" and path.startswith(str(folder)) and "/cache" not in path]
    last = {}  # the last write of a file: earlier ones may change places with each other
    for i in own:
        if found[i][0] == "write":
            last[found[i][1]] = i
    for i in own:
        if found[i][0] == "sync":
            yield f"without {found[i][:2]}", found[:i] + found[i + 1:]
    for i, j in zip(own, own[1:]):
        kinds = (found[i][0], found[j][0])
        if kinds in (("write", "sync"), ("sync", "rename"), ("rename", "sync"), ("folder", "sync"), ("make", "write")) and (kinds[0] != "write" or last[found[i][1]] == i):
            yield f"{kinds[1]} before {kinds[0]} of {found[i][1]}", swapped(found, i, j)
    for i in own:
        if found[i][0] == "make":
            bare = re.sub(r"/\.([^/]*?)\.\d+-\d+\.part$", r"/\1", found[i][1])
            yield f"under its own name: {bare}", [(what, bare if path == found[i][1] else path, bare if old == found[i][1] else old) for what, path, old in found]


def run(label, files, words, makes, codes=(0,)):
    """Runs it under strace in a folder of its own; `makes`: files that must have appeared, and no others."""
    folder = work / re.sub(r"\W", "-", label)
    folder.mkdir()
    cache = folder / "cache"
    for name, source in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        if isinstance(source, bytes):
            (folder / name).write_bytes(source)
        elif source.is_dir():
            shutil.copytree(source, folder / name)
        else:
            shutil.copyfile(source, folder / name)
    trace = work / "trace"
    said = subprocess.run(["strace", "-f", "-y", "-qq", "--seccomp-bpf", "-s", "4096", "-o", trace, "-e", "trace=" + CALLS, program, *words], cwd=folder, capture_output=True, text=True, env=environment(cache))
    expect(said.returncode in codes, f"{label}: exit {said.returncode} {said.stderr[-300:]}")
    found = events(trace.read_text(errors="replace"), str(folder))
    wrong = judge(found, folder, cache)
    expect(not wrong, f"{label}: {wrong[:4]}")
    appeared = {os.path.relpath(path, folder) for what, path, _ in found if what == "rename" and not path.startswith(str(cache))}
    expect(all(one in appeared for one in makes) and (len(appeared) == len(makes) or "…" in makes), f"{label}: {sorted(appeared)} appeared")
    tried = 0
    for how, again in spoilt(found, folder):
        tried += 1
        expect(judge(again, folder, cache), f"{label}: nobody notices a run {how}")
    expect(tried >= 5 * max(1, len(makes)), f"{label}: spoilt {tried} ways only")
    return folder, found


def sealed():
    """A report with works to be answered."""
    shutil.copytree(complete, work / "s")
    (work / "s/survey.xml").write_bytes(survey.replace(b'close="C1"/>', b'close="C1"><sign code="rust-weep">A brown run.</sign></seen>'))
    made = subprocess.run([program, "issue", "s/survey.xml", "-o", "report.pdf", "--signer", "s.p12"], cwd=work, env=environment(work / "c"), capture_output=True, text=True)
    expect(made.returncode == 0, "a report: " + made.stderr)
    return work / "report.pdf"


complete = repository / "fixtures/complete"
survey = (complete / "survey.xml").read_bytes()
subprocess.run([program, "--quiet", "signer", "new", work / "s.p12", "--name", "Ada Sorrel"], check=True, env=environment(work / "c"), stdout=subprocess.DEVNULL)
report = sealed()
preview = b"%PDF-1.7 a preview of before\n"
open_times = re.sub(rb' at="[0-9:]+"( far="\w+")?( close="\w+")?', b' at="?"', survey)
demo = repository / "demo"

issued, _ = run("issue", {"s": complete, "s.p12": work / "s.p12"}, ["issue", "s/survey.xml", "-o", "out.pdf", "--signer", "s.p12"], ["out.pdf"])
run("issue in another's place", {"s": complete, "s.p12": work / "s.p12", "out.pdf": preview}, ["issue", "s/survey.xml", "-o", "out.pdf", "--signer", "s.p12", "--force", "--no-store"], ["out.pdf"])
run("signer new", {}, ["signer", "new", "s.p12", "--name", "Ada Sorrel", "--certificate", "s.pem"], ["s.p12", "s.pem"])
run("pair --write", {"photos": complete / "photos", "survey.xml": open_times}, ["pair", "survey.xml", "--write"], ["survey.xml"])
run("mark", {"s": complete}, ["mark", "s/survey.xml"], ["s/marking.html"])
run("mark --take", {"survey.xml": demo / "started.xml", "marks.xml": demo / "marks.xml"}, ["mark", "survey.xml", "--take", "marks.xml"], ["survey.xml"])
run("start", {}, ["start", "cutter", "-o", "years/new"], ["years/new/survey.xml"])
run("start --from", {"report.pdf": report}, ["start", "--from", "report.pdf", "-o", "next"], ["next/survey.xml"])
run("start --works", {"report.pdf": report}, ["start", "--works", "report.pdf", "-o", "works"], ["works/report.pdf", "works/works.xml"])
run("unpack", {"report.pdf": report}, ["unpack", "report.pdf", "-o", "parts"], ["parts/survey.xml", "parts/issue.xml", "parts/photos.xml"])

# What a power cut makes of the store: entries without an end, without anything in them, of zeros.
good = (issued / "out.pdf").read_bytes()
entries = sorted((issued / "cache/rigdeed").iterdir())
expect(len(entries) > 10, f"the store holds {len(entries)} entries")
for number, entry in enumerate(entries):
    whole = entry.read_bytes()
    entry.write_bytes([b"", whole[:len(whole) // 2], bytes(len(whole)), whole[:-1]][number % 4])
said = subprocess.run([program, "issue", "s/survey.xml", "-o", "again.pdf", "--signer", "s.p12", "--quiet"], cwd=issued, capture_output=True, text=True, env=environment(issued / "cache"))
expect(said.returncode == 0 and (issued / "again.pdf").read_bytes() == good, f"out of a store of half entries comes the same report: {said.stderr[-200:]}")
shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
