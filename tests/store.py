#!/usr/bin/env python3
"""What a second run saves, and that nothing else hangs on it: the same reports and words with a store of copies, without
one, with a damaged one, and after runs that were killed while they wrote it; blurred photos told.

usage: store.py PROGRAM REPOSITORY
RIGDEED_KILLS=N kills N runs instead of 24. Needs ImageMagick and exiftool. Prints "N passed, N failed".
"""
import os, random, re, resource, shutil, signal, subprocess, sys, tempfile, time

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-store-")
cache = work + "/cache"
store = cache + "/rigdeed"
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, **how):
    environment = dict(os.environ, XDG_CACHE_HOME=cache)
    return subprocess.run([program, "--quiet", *words], capture_output=True, env=environment, **how)


def report(name, *words):
    made = run("issue", survey, "--preview", "--issued-on", "2026-10-05", "--force", "-o", f"{work}/{name}.pdf", *words)
    expect(made.returncode == 0, f"{name}: exit {made.returncode} {made.stderr.decode()}")
    with open(f"{work}/{name}.pdf", "rb") as file:
        return file.read()


def everything(*words):
    return [run(command, survey, "--json", *words).stdout for command in ("check", "pair")]


def entries():
    return sorted(os.listdir(store)) if os.path.isdir(store) else []


# A third of the demo's photos is enough: the survey is complete of them, and one is a telephone's HEIC if there is one.
shutil.copytree(repository + "/demo/photos", work + "/yacht/photos")
shutil.copy(repository + "/demo/survey.xml", work + "/yacht/survey.xml")
survey = work + "/yacht/survey.xml"

said, made = everything("--no-store"), report("without", "--no-store")
expect(not os.path.exists(store), "--no-store leaves no folder behind")
expect(everything() == said and report("first") == made, "the first run with a store says and makes the same")
count = len(entries())
expect(count > 300, f"the store holds what was found out and made: {count} entries")
expect(everything() == said and report("second") == made, "so does the second")
expect(len(entries()) == count, "which keeps nothing twice")

# What is kept is of this file: another picture under the name is looked at anew.
first, other = f"{work}/yacht/photos/A0001.jpg", f"{work}/yacht/photos/A0002.jpg"
shutil.copy(first, work + "/first.jpg")
shutil.copy(other, first)
expect(everything()[0] != said[0], "two photos of the same content are noticed though both are known")
shutil.copy(work + "/first.jpg", first)

# That somebody looked at a photo does not say that it can be printed: cut short, it is refused after `pair`, too.
with open(first, "rb") as file:
    whole = file.read()
with open(first, "wb") as file:
    file.write(whole[: len(whole) * 9 // 10])
cut_short = run("check", survey, "--json", "--no-store").stdout
run("pair", survey)
expect(run("check", survey, "--json").stdout == cut_short != said[0], "a photo cut short is refused though `pair` looked at it")
shutil.copy(work + "/first.jpg", first)

# That somebody looked at a photo does not say that it can be printed: cut short, it is refused after `pair`, too.
with open(first, "rb") as file:
    whole = file.read()
with open(first, "wb") as file:
    file.write(whole[: len(whole) * 9 // 10])
cut_short = run("check", survey, "--json", "--no-store").stdout
run("pair", survey)
expect(run("check", survey, "--json").stdout == cut_short != said[0], "a photo cut short is refused though `pair` looked at it")
shutil.copy(work + "/first.jpg", first)
shutil.rmtree(store)
everything(), report("again")

# Damage of every sort, to all entries at once.
pristine = work + "/pristine"
shutil.copytree(store, pristine)


def damage(how):
    shutil.rmtree(store)
    shutil.copytree(pristine, store)
    names = entries()
    for number, name in enumerate(names):
        path = f"{store}/{name}"
        with open(path, "rb") as file:
            content = file.read()
        with open(path, "wb") as file:
            file.write(how(content, number, names))


seed = random.Random(1)
flip = lambda content: content[:(at := seed.randrange(len(content)))] + bytes([content[at] ^ 1 << seed.randrange(8)]) + content[at + 1:]
read = lambda name: open(f"{pristine}/{name}", "rb").read()
for what, how in {
    "cut short": lambda content, number, names: content[:seed.randrange(len(content))],
    "one bit changed": lambda content, number, names: flip(content),
    "empty": lambda content, number, names: b"",
    "grown": lambda content, number, names: content + b"\0",
    "each another's": lambda content, number, names: read(names[(number + 1) % len(names)]),
}.items():
    damage(how)
    expect(everything() == said and report("damaged") == made, f"entries {what} are made anew")

# No room: what cannot be kept is made anew each time.
shutil.rmtree(store)
limit = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))
expect(run("check", survey, "--json", preexec_fn=limit).stdout == said[0], "a disk that takes no more changes nothing")
expect(not [name for name in entries() if name.startswith(".")], "and nothing half written is left")
shutil.rmtree(store, ignore_errors=True)
with open(store, "w") as file:
    file.write("not a folder")
expect(everything() == said, "a file in the folder's place changes nothing")
os.remove(store)

# Killed while the store is written, again and again; what is printed afterwards is what is printed without one.
kills = int(os.environ.get("RIGDEED_KILLS", "24"))
killed = wrong = 0
for number in range(kills):
    if number % 20 == 0:
        shutil.rmtree(store, ignore_errors=True)
    process = subprocess.Popen([program, "--quiet", "issue", survey, "--preview", "--force", "-o", work + "/killed.pdf", "--issued-on", "2026-10-05"],
                               env=dict(os.environ, XDG_CACHE_HOME=cache), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
    time.sleep(seed.uniform(0.01, 0.5))
    os.killpg(process.pid, signal.SIGKILL)
    killed += process.wait() == -signal.SIGKILL
    if number % 20 == 19 or number == kills - 1:
        wrong += everything() != said
        wrong += report("after") != made
expect(killed > kills / 3, f"{killed} of {kills} runs were killed before their end")
expect(wrong == 0, "nothing that is printed afterwards is wrong")
half = [name for name in entries() if name.startswith(".")]
print(f"  {killed} runs killed; {len(half)} entries left half written, which go after an hour")
for name in half:
    os.utime(f"{store}/{name}", (0, 0))
shutil.copy(repository + "/fixtures/complete/survey.xml", work + "/other.xml")
for name in entries()[:50]:
    os.remove(f"{store}/{name}")
everything()
expect(not [name for name in entries() if name.startswith(".")], "they do")

# Two runs at once.
shutil.rmtree(store)
both = [subprocess.Popen([program, "--quiet", "check", survey, "--json"], env=dict(os.environ, XDG_CACHE_HOME=cache), stdout=subprocess.PIPE) for _ in range(2)]
expect([process.communicate()[0] for process in both] == [said[0]] * 2, "two runs at once say the same")

# Blurred close photos: named in one line at check, and nowhere in the report.
expect(b'"blurred"' not in said[0], "no photo of the demo is called blurred")
with open(survey) as file:
    closes = re.findall(r'close="(A\d+)"', file.read())
for name in closes[3], closes[40]:
    path = f"{work}/yacht/photos/{name}.jpg"
    subprocess.run(["convert", path, "-blur", "0x6", work + "/blurred.jpg"], check=True)
    subprocess.run(["exiftool", "-q", "-overwrite_original", "-TagsFromFile", path, work + "/blurred.jpg"], check=True)
    shutil.move(work + "/blurred.jpg", path)
told = run("check", survey).stdout.decode()
expect(re.search(rf"blurred, .*: {closes[3]}, {closes[40]};", " ".join(told.split())), "two that are out of focus are told in one line")
again = run("check", survey, "--no-store").stdout.decode()
expect(again == told, "with a store or without")

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
