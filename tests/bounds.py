#!/usr/bin/env python3
"""Hostile and enormous input: answered, or refused with its limit, in bounded time and memory.

usage: bounds.py PROGRAM REPOSITORY
Processor time and memory are the kernel's counts of each run: 3 s and 500 MB are the most. Prints "N passed, N failed".
"""
import os, shutil, subprocess, sys, tempfile

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-bounds-")
passed, failed = 0, 0
MOST_SECONDS, MOST_KILOBYTES = 3.0, 500_000


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def measured(*words):
    """Exit code, output, processor seconds and kilobytes at most, of the run and what it starts."""
    script = ("import os, resource, subprocess, sys; done = subprocess.run(sys.argv[1:], capture_output=True, text=True);"
              "used = resource.getrusage(resource.RUSAGE_CHILDREN); sys.stdout.write(done.stdout + done.stderr);"
              "sys.stderr.write(f'{used.ru_utime + used.ru_stime} {used.ru_maxrss}'); sys.exit(done.returncode)")
    run = subprocess.run([sys.executable, "-c", script, program, *words], capture_output=True, text=True)
    seconds, kilobytes = run.stderr.split()[-2:]
    return run.returncode, run.stdout, float(seconds), int(kilobytes)


def bounded(what, code, says, *words):
    got, said, seconds, kilobytes = measured(*words)
    print(f"  {what}: exit {got}, {seconds:.2f} s, {kilobytes // 1000} MB")
    expect(got == code and says in said, f"{what}: exit {got}, not {code} with {says!r}: {said[:400]}")
    expect(seconds < MOST_SECONDS and kilobytes < MOST_KILOBYTES, f"{what}: {seconds:.2f} s, {kilobytes} kB")
    return seconds


def survey_with(fitting_lines="", root_attributes="", tail=""):
    text = open(repository + "/fixtures/complete/survey.xml", encoding="utf-8").read()
    text = text.replace("<rig-survey ", f"<rig-survey {root_attributes} ", 1) if root_attributes else text
    text = text.replace("</fittings>", fitting_lines + "</fittings>", 1)
    return text.replace("</rig-survey>", tail + "</rig-survey>", 1)


def written(name, text, mode="w"):
    path = f"{work}/{name}"
    with open(path, mode, **({} if "b" in mode else {"encoding": "utf-8"})) as file:
        file.write(text)
    return path


os.symlink(repository + "/fixtures/complete/photos", work + "/photos")


def many_fittings(count):
    return survey_with("".join(
        f'<fitting id="x{i}" kind="shackle" station="deck" height="1 m"><not-seen reason="behind the panel"/></fitting>\n' for i in range(count)))


bounded("20 000 fittings", 2, "5000", "check", written("fittings.xml", many_fittings(20_000)))
attributes = " ".join(f'a{i}=""' for i in range(300_000))
bounded("300 000 attributes", 2, "attributes", "check", written("attributes.xml", survey_with(root_attributes=attributes)))
bounded("300 000 elements", 2, "elements", "check", written("elements.xml", survey_with(tail="<other/>" * 300_000)))
bounded("elements nested 100 000 deep behind a comment", 2, "nested", "check",
        written("deep.xml", "<!-->" + "<a>" * 100_000 + "-->" + "<a>" * 100_000))

bounded("as many fittings as a survey may have", 0, "5000 fittings", "check", written("most.xml", many_fittings(4_993)))

start = measured("--version")[2]


def doubled(what, code, says, make):
    """Work grows as input does: twice as much takes at most 2.3 times as long, beyond what starting takes."""
    small, large = (bounded(f"{what}, {size}", code, says, *make(size)) for size in (1, 2))
    expect(large - start < 2.3 * (small - start) + 0.03, f"twice {what}: {small:.2f} s, then {large:.2f} s")


def photos_named(size):
    others = "".join(f'<other name="P{i}" shows="the mast"/>' for i in range(5_000 * size))
    text = survey_with().replace('<photos folder="photos"/>', f'<photos folder="photos">{others}</photos>', 1)
    return "check", written(f"others{size}.xml", text)


def elements(size):
    return "check", written(f"elements{size}.xml", survey_with(tail="<other/>" * 90_000 * size))


# A PDF of 100 MB of dictionaries with 1000 keys each, in the form of a report.
def objects(size):
    report = open(repository + "/fixtures/issued/0.1.0-rsa.pdf", "rb").read()
    head = report[: report.index(b"1 0 obj\n")]
    body, offsets, at = [head], [], len(head)
    while at < 50_000_000 * size:
        piece = b"%d 0 obj\n<<\n" % (len(offsets) + 1) + b"".join(b"/K%d 1\n" % i for i in range(999)) + b">>\nendobj\n"
        offsets.append(at)
        body.append(piece)
        at += len(piece)
    table = b"xref\n0 %d\n0000000000 65535 f\r\n" % (len(offsets) + 1) + b"".join(b"%010d 00000 n\r\n" % one for one in offsets)
    trailer = (b"trailer\n<<\n/Root 1 0 R\n/Info 2 0 R\n/ID [ <" + b"0" * 32 + b"> <" + b"0" * 32 + b"> ]\n/Size %d\n>>\nstartxref\n%d\n%%%%EOF\n"
               % (len(offsets) + 1, at))
    return "verify", written(f"objects{size}.pdf", b"".join(body) + table + trailer, "wb")


def fittings(size):
    return "check", written(f"fittings{size}.xml", many_fittings(2_490 * size))


doubled("2490 fittings", 0, "fittings", fittings)
doubled("photos named", 3, "P1", photos_named)
doubled("elements", 2, "problem", elements)
doubled("50 MB of dictionaries", 4, "NOT AS ISSUED", objects)

# Four JPEGs of many scans over many pixels, on four threads.
shutil.copytree(repository + "/fixtures/complete", work + "/bombs")
picture = work + "/picture.jpg"
subprocess.run(["convert", "-size", "8000x8000", "xc:gray", "-colorspace", "sRGB", "-type", "TrueColor", "-interlace", "JPEG", picture], check=True)
data = open(picture, "rb").read()
first = data.index(b"\xff\xda")
bomb = data[:first] + b"\xff\xda\x00\x08\x01\x01\x00\x00\x00\x00" * 60 + data[first:]
photos = sorted(os.listdir(work + "/bombs/photos"))[:4]
for number, name in enumerate(photos):
    os.remove(f"{work}/bombs/photos/{name}")
    written(f"bombs/photos/{name}", bomb + bytes([number]), "wb")
expect(len(photos) == 4, "there are four photos to replace")
bounded("four scan bombs on four threads", 3, "scans", "check", "--jobs", "4", work + "/bombs/survey.xml")

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
