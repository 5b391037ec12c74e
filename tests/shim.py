#!/usr/bin/env python3
"""Every call to the system fails once: the n-th open, read, write, fsync, rename, fork, pthread_create of a command, for
every n, by a library that is preloaded (shim/shim.cpp), and the n-th mmap, by strace. Whatever fails, the result is
right or there is none: no half file, nothing lost, no bug told, nothing left beside.

usage: shim.py PROGRAM REPOSITORY SHIM.so
Prints "N passed, N failed".
"""
import os, re, shutil, subprocess, sys, tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

program, repository, shim = os.path.abspath(sys.argv[1]), Path(sys.argv[2]).resolve(), os.path.abspath(sys.argv[3])
work = Path(tempfile.mkdtemp(prefix="rigdeed-shim-"))
CALLS = ("open", "read", "write", "fsync", "rename", "fork", "thread")
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def environment(folder, **more):
    return dict(os.environ, XDG_CACHE_HOME=str(folder / "cache"), RIGDEED_PASSPHRASE="a test phrase", SOURCE_DATE_EPOCH="1791158400", LC_ALL="C.UTF-8", **more)


def contents(folder):
    """Every file of a folder, but the store's: a store is another run's help and may hold what it likes."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file() and "cache" not in path.relative_to(folder).parts}


def bare(content):
    return content if content is None else re.sub(rb"\s*<!--.*?-->", b"", content, flags=re.S)


class Case:
    """A command in a folder of its own; what stands in it before, and after a run in which nothing fails."""

    def __init__(self, name, files, words, codes=(0,), tells_unreadable=False):
        self.name, self.files, self.words, self.codes, self.tells_unreadable = name, files, words, codes, tells_unreadable
        self.before, (self.good, self.said) = None, (None, None)
        with tempfile.TemporaryDirectory(dir=work) as place:
            folder = Path(place) / "case"
            self.prepare(folder)
            self.before = contents(folder)
            counted = Path(place) / "counts"
            run = self.run(folder, LD_PRELOAD=shim, RIGDEED_COUNT=str(counted))
            self.good, self.said = contents(folder), run.stdout
            expect(run.returncode in codes, f"{name}: without a fault: {run.returncode} {run.stderr[-300:]}")
            self.counts = dict(line.split() for line in counted.read_text().splitlines()) if counted.exists() else {}
        with tempfile.TemporaryDirectory(dir=work) as place:
            folder = Path(place) / "case"
            self.prepare(folder)
            trace = Path(place) / "trace"
            subprocess.run(["strace", "-o", trace, "-e", "trace=mmap", program, *self.words], cwd=folder, capture_output=True, env=environment(folder))
            self.maps = len(re.findall(r"^mmap\(", trace.read_text(), flags=re.M))
            # What the loader maps is not the program's: it begins with what comes after the last library.
            lines = trace.read_text().splitlines()
            self.first_map = max((i for i, line in enumerate(lines) if re.search(r", \d+, 0x?[0-9a-f]*\) =", line) and "MAP_DENYWRITE" in line), default=0) + 2

    def prepare(self, folder):
        folder.mkdir()
        for name, source in self.files.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            if isinstance(source, bytes):
                (folder / name).write_bytes(source)
            elif source.is_dir():
                shutil.copytree(source, folder / name)
            else:
                shutil.copyfile(source, folder / name)

    def run(self, folder, *before, **more):
        return subprocess.run([*before, program, *self.words], cwd=folder, capture_output=True, text=True, env=environment(folder, **more), timeout=120)

    def fault(self, what, n):
        with tempfile.TemporaryDirectory(dir=work) as place:
            folder = Path(place) / "case"
            self.prepare(folder)
            if what == "mmap":
                run = self.run(folder, "strace", "-o", "/dev/null", "-e", "trace=mmap", "-e", f"inject=mmap:error=ENOMEM:when={n}")
            else:
                run = self.run(folder, LD_PRELOAD=shim, RIGDEED_FAIL=f"{what}:{n}")
            return self.judge(f"{self.name}: {what} {n}", run, contents(folder))

    def judge(self, what, run, after):
        if run.returncode in self.codes:
            right = after == self.good and run.stdout == self.said
            if self.tells_unreadable and re.search(r"(no permission to read it|cannot be read|could not be read|could not be made anew)", run.stdout + run.stderr):
                # Told: then what is proposed in comments may be other, and nothing that counts.
                right = all(bare(content) in (bare(self.good.get(name)), bare(self.before.get(name))) for name, content in after.items())
            return right, f"{what}: it says that all went well, and what is there is not what should be: {sorted(set(after) ^ set(self.good))} {run.stdout[-200:]}"
        if run.returncode == 127 and not run.stdout:  # the loader's: the program did not begin
            return after == self.before, f"{what}: it did not begin, and something changed"
        if run.returncode == 3 and re.search(r'photo "\w+".*: (no permission|cannot be read)', run.stderr + run.stdout):
            return after == self.before, f"{what}: a photo cannot be read, and something changed: {sorted(set(after) ^ set(self.before))}"
        # A folder that was begun may stand there empty of files; a file is as it was, or as it should be.
        known = all(name in self.good and (content == self.good[name] or content == self.before.get(name)) for name, content in after.items())
        whole = all(name in after for name in self.before)
        return run.returncode == 2 and known and whole, f"{what}: {run.returncode}, {sorted(set(after) - set(self.before))} {run.stderr[-300:]}"


complete = repository / "fixtures/complete"
survey = (complete / "survey.xml").read_bytes()
subprocess.run([program, "--quiet", "signer", "new", work / "s.p12", "--name", "Ada Sorrel", "--certificate", work / "s.pem"], check=True, env=environment(work), stdout=subprocess.DEVNULL)
worn = survey.replace(b'close="C1"/>', b'close="C1"><sign code="rust-weep">A brown run.</sign></seen>')
made = subprocess.run([program, "issue", "s/survey.xml", "-o", "report.pdf", "--signer", "s.p12"], cwd=work, env=environment(work), capture_output=True) if shutil.copytree(complete, work / "s") and (work / "s/survey.xml").write_bytes(worn) else None
assert made.returncode == 0, made.stderr
open_times = re.sub(rb' at="[0-9:]+"( far="\w+")?( close="\w+")?', b' at="?"', survey)
started = (repository / "demo/started.xml").read_bytes()
cases = [
    Case("issue", {"s": complete, "s.p12": work / "s.p12"}, ["issue", "s/survey.xml", "-o", "out.pdf", "--signer", "s.p12", "--quiet"]),
    Case("issue without a store", {"s": complete, "s.p12": work / "s.p12"}, ["issue", "s/survey.xml", "-o", "out.pdf", "--signer", "s.p12", "--no-store", "--jobs", "1"]),
    Case("verify", {"report.pdf": work / "report.pdf", "s.pem": work / "s.pem", "photos": complete / "photos"}, ["verify", "report.pdf", "--signer-cert", "s.pem", "--photos", "photos"], tells_unreadable=True),
    Case("check", {"s": complete}, ["check", "s/survey.xml"]),
    Case("pair --write", {"photos": complete / "photos", "survey.xml": open_times}, ["pair", "survey.xml", "--write"], tells_unreadable=True),
    Case("mark --take", {"survey.xml": started, "marks.xml": repository / "demo/marks.xml"}, ["mark", "survey.xml", "--take", "marks.xml"]),
    Case("start", {}, ["start", "cutter", "-o", "new"]),
    Case("start --works", {"report.pdf": work / "report.pdf"}, ["start", "--works", "report.pdf", "-o", "works"]),
    Case("history", {"papers/report.pdf": work / "report.pdf"}, ["history", "papers"]),
]
with ThreadPoolExecutor(2) as pool:
    tasks = []
    for case in cases:
        for what in CALLS:
            for n in range(1, int(case.counts.get(what, 0)) + 1):
                tasks.append((case, what, n))
        for n in range(case.first_map, case.maps + 1):
            tasks.append((case, "mmap", n))
    for right, what in pool.map(lambda task: task[0].fault(*task[1:]), tasks):
        expect(right, what)
told = {what: sum(1 for task in tasks if task[1] == what) for what in (*CALLS, "mmap")}
print("  " + ", ".join(f"{what} {count}" for what, count in told.items()))
expect(all(told[what] > 0 for what in CALLS), f"each kind of call failed at least once: {told}")
shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
