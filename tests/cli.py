#!/usr/bin/env python3
"""The program as its users meet it: commands, exit codes, messages, files.

usage: cli.py PROGRAM REPOSITORY
Needs pdftotext and xmllint. Prints "N passed, N failed".
"""
import hashlib, json, os, re, shutil, signal, subprocess, sys, tempfile
from keep import keep

for number in signal.SIGINT, signal.SIGQUIT, signal.SIGHUP:  # a shell leaves them ignored in what it starts in the background, nohup as well
    signal.signal(number, signal.SIG_DFL)
program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
fixtures = repository + "/fixtures"
work = tempfile.mkdtemp(prefix="rigdeed-cli-")
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, **more):
    more.setdefault("env", dict(os.environ, RIGDEED_PASSPHRASE="a test phrase"))
    said = subprocess.run([program, *words], capture_output=True, text=True, **more)
    keep(program, words, said.returncode)
    return said


def pages(pdf):
    text = subprocess.run(["pdftotext", pdf, "-"], capture_output=True, text=True).stdout
    return text.split("\f")[:-1]


signer = work + "/signer.p12"
made = run("signer", "new", signer, "--name", "Ada Sorrel", "--firm", "Sorrel Rigging", "--certificate", work + "/signer.pem", "--json")
fingerprint = json.loads(made.stdout)["fingerprint"]
expect(made.returncode == 0 and len(fingerprint) == 64, "signer new: " + made.stderr)
expect(os.stat(signer).st_mode & 0o077 == 0, "the identity is readable by its owner only")
again = run("signer", "new", signer, "--name", "Ada Sorrel")
expect(again.returncode == 2 and "there already" in again.stderr, "a signing identity is never overwritten")
shown = run("signer", "show", signer, "--json")
expect(json.loads(shown.stdout)["fingerprint"] == fingerprint, "signer show gives the same fingerprint")
wrong = run("signer", "show", signer, env=dict(os.environ, RIGDEED_PASSPHRASE="wrong"))
expect(wrong.returncode == 2 and "passphrase" in wrong.stderr and "wrong" not in wrong.stderr.replace("wrong passphrase", "").replace("passphrase is wrong", ""), "wrong passphrase: exit 2, and the phrase is not shown: " + wrong.stderr)
bare = {key: value for key, value in os.environ.items() if key != "RIGDEED_PASSPHRASE"}
silent = run("signer", "show", signer, env=bare, stdin=subprocess.DEVNULL, start_new_session=True)
expect(silent.returncode == 2 and "--passphrase-file" in silent.stderr, "without a terminal the way to give the passphrase is named: " + silent.stderr)
open(work + "/phrase", "w").write("a test phrase\n")


def typed(words, lines):
    """Runs the program on a terminal of its own and types lines when it asks."""
    import pty, select
    pid, master = pty.fork()
    if pid == 0:
        os.execve(program, [program, *words], bare)
    shown = b""
    while select.select([master], [], [], 20)[0]:
        try:
            piece = os.read(master, 1000)
        except OSError:
            break
        if not piece:
            break
        shown += piece
        if piece.rstrip(b" ").endswith(b":") and lines:
            os.write(master, lines.pop(0).encode() + b"\n")
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), shown.decode(errors="replace")


code, screen = typed(["signer", "new", work + "/typed.p12", "--name", "Ada Sorrel"], ["quiet words", "quiet words"])
expect(code == 0 and "quiet words" not in screen and "passphrase" in screen, "the passphrase is asked for twice and not shown: " + screen)
code, screen = typed(["signer", "show", work + "/typed.p12"], ["quiet words"])
expect(code == 0 and "quiet words" not in screen, "the passphrase is asked for: " + screen)
code, screen = typed(["signer", "new", work + "/typed-2.p12", "--name", "Ada Sorrel"], ["quiet words", "other words"])
expect(code == 2 and not os.path.exists(work + "/typed-2.p12"), "two different passphrases make nothing: " + screen)


def interrupted(number, key=None):
    """What the terminal's echo is after a signal ended, or stopped, the program at its prompt; key: typed, else sent."""
    import pty, select, signal, termios, time
    pid, master = pty.fork()
    if pid == 0:  # as a shell does: the program in a group of its own, in the foreground
        signal.signal(signal.SIGTTOU, signal.SIG_IGN)
        echoes = lambda: bool(termios.tcgetattr(0)[3] & termios.ECHO)
        job = os.fork()
        if job == 0:
            os.setpgid(0, 0)
            os.tcsetpgrp(0, os.getpid())
            signal.signal(signal.SIGTTOU, signal.SIG_DFL)
            os.execve(program, [program, "signer", "show", signer], bare)

        def silent():
            until = time.time() + 20
            while echoes() and time.time() < until:
                time.sleep(0.01)
            return not echoes()

        outcome = "never silent" if not silent() else ""
        os.write(1, b"<ready>") if key else os.kill(job, number)
        _, status = os.waitpid(job, os.WUNTRACED)
        stopped = os.WIFSTOPPED(status)
        by = os.WSTOPSIG(status) if stopped else os.WTERMSIG(status) if os.WIFSIGNALED(status) else 0
        outcome += f"by {by}, echo {echoes()}"
        if stopped:
            os.tcsetpgrp(0, job)
            os.kill(job, signal.SIGCONT)
            outcome += f", silent again {silent()}"
            os.kill(job, signal.SIGKILL)
            os.waitpid(job, 0)
        os.write(1, f"<<{outcome}>>".encode())
        os._exit(0)
    screen = b""
    while b">>" not in screen and select.select([master], [], [], 30)[0]:
        screen += os.read(master, 1000)
        if key and b"<ready>" in screen:
            os.write(master, key)
            key = None
    os.waitpid(pid, 0)
    return screen.decode(errors="replace").partition("<<")[2].partition(">>")[0]


for number, key in ((signal.SIGINT, b"\x03"), (signal.SIGQUIT, b"\x1c"), (signal.SIGTERM, None), (signal.SIGHUP, None), (signal.SIGINT, None)):
    expect(interrupted(number, key) == f"by {int(number)}, echo True", f"the terminal echoes again after {number.name}, key {key}: {interrupted(number, key)}")
for key in (b"\x1a", None):
    expect(interrupted(signal.SIGTSTP, key) == f"by {int(signal.SIGTSTP)}, echo True, silent again True", f"stopped at the prompt, the terminal echoes; continued, it is silent again: {interrupted(signal.SIGTSTP, key)}")

# What is written never costs an identity, a passphrase, a certificate.
kept = {name: open(f"{work}/{name}", "rb").read() for name in ("signer.p12", "signer.pem", "phrase")}
for words, said in ((["show", signer, "--certificate", signer], "place of its own source"), (["show", signer, "--certificate", work + "/signer.pem"], "is there already"),
                    (["show", signer, "--passphrase-file", work + "/phrase", "--certificate", work + "/phrase"], "place of its own source"),
                    (["new", work + "/fresh.p12", "--name", "Ada Sorrel", "--certificate", work + "/fresh.p12"], "place of its own source"),
                    (["new", work + "/fresh.p12", "--name", "Ada Sorrel", "--certificate", work + "/./signer.p12"], "is there already"),
                    (["new", work + "/fresh.p12", "--name", "Ada Sorrel", "--passphrase-file", work + "/phrase", "--certificate", work + "/phrase"], "place of its own source"),
                    (["new", work + "/phrase", "--name", "Ada Sorrel", "--passphrase-file", work + "/phrase"], "place of its own source")):
    refused = run("signer", *words)
    expect(refused.returncode == 2 and said in refused.stderr and "hint:" in refused.stderr and not os.path.exists(work + "/fresh.p12"), f"signer {words}: {refused.returncode} {refused.stderr}")
expect(kept == {name: open(f"{work}/{name}", "rb").read() for name in kept}, "and all of them are whole")
brief = run("signer", "new", work + "/brief.p12", "--name", "Ada Sorrel", env=dict(bare, RIGDEED_PASSPHRASE="seven77"))
expect(brief.returncode == 2 and "shorter than 8 characters" in brief.stderr and "hint:" in brief.stderr and "seven77" not in brief.stderr and not os.path.exists(work + "/brief.p12"), "a short passphrase: 2: " + brief.stderr)

filed = run("signer", "show", signer, "--passphrase-file", work + "/phrase", env=bare)
expect(filed.returncode == 0, "passphrase from a file")


def issue(survey, output, *more):
    return run("issue", survey, "-o", output, "--signer", signer, "--issued-on", "2026-10-05", *more)


# The complete ones, in the three ways an inspection can go.
for name, words in {"complete": "No sign found that keeps this rig from service", "unstepped": "No sign found that keeps this rig from service",
                    "stopped": "Inspection stopped at deck level", "spellings": "Serviceable once the listed work is done"}.items():
    survey = f"{fixtures}/{name}/survey.xml"
    checked = run("check", survey)
    expect(checked.returncode == 0 and "complete" in checked.stdout, f"{name}: check exits 0: {checked.stderr}")
    output = f"{work}/{name}.pdf"
    issued = issue(survey, output)
    expect(issued.returncode == 0 and issued.stdout.strip() == output, f"{name}: issue prints the path: {issued.stderr}")
    cover = " ".join(pages(output)[0].split())
    expect(words in cover, f"{name}: the cover says {words!r}: {cover[:400]}")
    verified = run("verify", output, "--fingerprint", fingerprint)
    expect(verified.returncode == 0 and "as issued by Ada Sorrel" in verified.stdout, f"{name}: verify: {verified.stdout}")
text = " ".join("".join(pages(work + "/stopped.pdf")).split())
expect("everything aloft: not seen" in text and "seen once" in text and "thunder" in text, "stopped: the cover says what was not seen and why")
expect("Плавник, Ώρα, Überlingen" in "".join(pages(work + "/spellings.pdf")), "Greek and Cyrillic letters are printed")

# What is there already stays; a sealed report whatever is said.
sealed = open(work + "/complete.pdf", "rb").read()
for more in (), ("--force",):
    refused = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/complete.pdf", "--preview", *more)
    expect(refused.returncode == 2 and "a sealed report, and is not overwritten" in refused.stderr and "--replaces" in refused.stderr, f"over a sealed report, {more}: {refused.stderr}")
    refused = run("climb", fixtures + "/complete/survey.xml", "-o", work + "/complete.pdf", *more)
    expect(refused.returncode == 2 and "a sealed report, and is not overwritten" in refused.stderr, f"a climb sheet over a sealed report, {more}: {refused.stderr}")
expect(open(work + "/complete.pdf", "rb").read() == sealed, "and it is whole")
for command in (["issue", fixtures + "/complete/survey.xml", "--preview"], ["climb", fixtures + "/complete/survey.xml"]):
    open(work + "/notes.pdf", "w").write("notes")
    os.chmod(work + "/notes.pdf", 0o600)
    refused = run(*command, "-o", work + "/notes.pdf")
    expect(refused.returncode == 2 and "is there already" in refused.stderr and "--force" in refused.stderr and open(work + "/notes.pdf").read() == "notes", f"{command[0]} over another file: {refused.stderr}")
    done = run(*command, "-o", work + "/notes.pdf", "--force")
    expect(done.returncode == 0 and open(work + "/notes.pdf", "rb").read(4) == b"%PDF" and os.stat(work + "/notes.pdf").st_mode & 0o777 == 0o600, f"{command[0]} --force, and the mode stays: {done.stderr}")

# Who stands on the cover seals, or it is said that another does.
run("signer", "new", work + "/other.p12", "--name", "Bo Teak", "--curve", "p256")
run("signer", "new", work + "/spaced.p12", "--name", "ada  SORREL", "--curve", "p256")
refused = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/by-other.pdf", "--signer", work + "/other.p12")
expect(refused.returncode == 2 and '"Ada Sorrel", the certificate is of "Bo Teak"' in refused.stderr and "--on-behalf" in refused.stderr and not os.path.exists(work + "/by-other.pdf"), "another name in the certificate: 2: " + refused.stderr)
allowed = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/by-other.pdf", "--signer", work + "/other.p12", "--on-behalf")
expect(allowed.returncode == 0 and os.path.exists(work + "/by-other.pdf"), "on behalf of the surveyor: " + allowed.stderr)
allowed = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/by-spaced.pdf", "--signer", work + "/spaced.p12")
expect(allowed.returncode == 0, "blanks and capitals make no other name: " + allowed.stderr)

# Each gap.
of_the_whole = ("photo-unused", "stay-missing", "fitting-missing", "absent-though-there", "left-open", "undated")
for name in sorted(os.listdir(fixtures + "/gaps")):
    survey = f"{fixtures}/gaps/{name}/survey.xml"
    checked = run("check", survey, "--json")
    found = json.loads(checked.stdout)[0]
    expect(checked.returncode == 3 and {gap["code"] for gap in found["gaps"]} == {name}, f"{name}: exactly that gap, exit 3")
    gap = found["gaps"][0]
    expect(gap["what"] and (gap["fitting"] or name in of_the_whole) and gap["hint"], f"{name}: names the fitting, what and a hint: {gap}")
    plain = run("check", survey)
    expect(plain.returncode == 3 and gap["what"] in plain.stdout and gap["fitting"] in plain.stdout and "incomplete" in plain.stdout, f"{name}: check says it")
    output = f"{work}/gap.pdf"
    refused = issue(survey, output)
    expect(refused.returncode == 3 and not os.path.exists(output) and gap["what"] in refused.stderr and refused.stdout == "", f"{name}: issue writes nothing: {refused.stderr}")
    forced = issue(survey, output, "--with-gaps")
    expect(forced.returncode == 0, f"{name}: --with-gaps issues: {forced.stderr}")
    all_pages = pages(output)
    expect(len(all_pages) > 3 and all("INCOMPLETE SURVEY" in page for page in all_pages), f"{name}: every page is marked")
    whole = " ".join("".join(all_pages).split())
    expect(" ".join(gap["what"].split()) in whole, f"{name}: the gap is printed: {gap['what']}")
    cover = " ".join(all_pages[0].split())
    expect("no answer yet" in cover and " ".join(gap["what"].split()[:3]) in cover, f"{name}: the gap stands on the cover: {cover[:400]}")
    expect("No answer: the survey is incomplete" in cover or "Not to be sailed" in cover or "stopped at deck level" in cover, f"{name}: no good answer: {cover[:300]}")
    expect("No sign found" not in cover and "Serviceable" not in cover, f"{name}: nothing good is said on the cover")
    expect(run("verify", output, "--fingerprint", fingerprint).returncode == 0, f"{name}: sealed all the same")
    os.remove(output)

# What check --json says has the form that its schema says, in whatever units it prints.
sys.path.insert(0, repository + "/tests")
from schema_check import breaches
schema_of_check = json.load(open(repository + "/docs/check.schema.json", encoding="utf-8"))
surveys = [f"{fixtures}/{name}/survey.xml" for name in ("complete", "stopped", "unstepped", "spellings", "worked")] + [repository + "/demo/survey.xml"]
for survey in surveys:
    plain = {}
    for units in ("metric", "us", "both"):
        output = json.loads(run("check", survey, "--json", "--units", units).stdout)
        expect(breaches(output, schema_of_check) == [], f"{survey}, {units}: {breaches(output, schema_of_check)[:3]}")
        plain[units] = output[0]["calculations"]
        for one in plain[units]:
            for figure in one["inputs"] + one["results"]:
                expect(figure["known"] == (figure["text"] != "not measured"), f"{survey}: {one['id']}: {figure}")
                expect(figure["value"] is not None or not any(c.isdigit() for c in figure["text"]) or not figure["unit"], f"{survey}: no number without a value: {figure}")
    values = [[[figure["value"] for figure in one["results"]] for one in plain[units]] for units in plain]
    expect(values[0] == values[1] == values[2], f"{survey}: the values do not depend on the units printed")
texts = {units: json.dumps(json.loads(run("check", f"{fixtures}/worked/survey.xml", "--json", "--units", units).stdout), ensure_ascii=False) for units in ("metric", "us", "both")}
expect("50.43 kN" in texts["metric"] and "lbf" not in texts["metric"].replace("6900 against 8200 lbf", ""), "metric units by default of the file")
expect('"11337 lbf"' in texts["us"] and "50.43 kN (11337 lbf)" in texts["both"], "US units, and both")
expect("50.43 kN (" not in run("check", f"{fixtures}/worked/survey.xml", "--json").stdout and "kN (" in run("check", f"{fixtures}/spellings/survey.xml", "--json").stdout, "the survey file says its units")
expect(run("check", f"{fixtures}/worked/survey.xml", "--units", "imperial").returncode == 2, "unknown units: 2")
forced = issue(f"{fixtures}/worked/survey.xml", work + "/worked.pdf", "--with-gaps", "--units", "both")
words = " ".join("".join(pages(work + "/worked.pdf")).split())
expect("Calculations, with their working" in words and "50.43 kN (11337 lbf)" in words and "printed table" in words and "certificate" in words, "the report prints the calculations, and where a strength is from: " + forced.stderr)
expect("What would be known with what else" in words and "not measured" in words, "the report says what is missing")
odd = open(fixtures + "/worked/survey.xml").read()
for old, new, said in (('gz30="0.5 m"', 'rm30="40000 kN m"', "out of sense"), ('what="pin-diameter" value="12 mm"', 'what="pin-diameter" value="40 mm"', "A pin of 40.0 mm"),
                       ('what="tension" value="6.5 kN"', 'what="tension" value="45 kN"', "89 % of the breaking load is out of sense"), ('value="10.35 mm"', 'value="50 mm"', "wider than both legs")):
    assert old in odd
    open(fixtures + "/worked/odd.xml", "w").write(odd.replace(old, new))
    told = run("check", fixtures + "/worked/odd.xml")
    expect(said in told.stdout and told.returncode == 3, f"{new}: {told.stdout[-400:]}")
    os.remove(fixtures + "/worked/odd.xml")
measures = open(fixtures + "/complete/survey.xml").read()
for wrong, said in (('<measured what="leg-angel" value="20°"/>', "leg-angle"), ('<measured what="plate-thickness" value="20°"/>', "is not a length"),
                    ('<measured what="plate-thickness" value="8 m"/>', "outside of what it can be"), ('<measured what="leg-angle" value="20°"/>', "is not measured on a chainplate")):
    open(work + "/measure.xml", "w").write(measures.replace('<seen pass="down" at="11:40"/>', '<seen pass="down" at="11:40"/>' + wrong))
    told = run("check", work + "/measure.xml")
    expect(told.returncode == 2 and said in told.stderr and ":21:" in told.stderr and "hint:" in told.stderr, f"{wrong}: {told.stderr}")

# What cannot be read, and the schema's opinion of it.
schema = repository + "/templates/survey.xsd"


def schema_accepts(path):
    return subprocess.run(["xmllint", "--noout", "--schema", schema, path], capture_output=True).returncode == 0


for name in sorted(os.listdir(fixtures + "/invalid")):
    path = f"{fixtures}/invalid/{name}"
    checked = run("check", path)
    lines = checked.stderr.splitlines()
    expect(checked.returncode == 2 and checked.stdout == "", f"{name}: check exits 2")
    expect(f"{path}:" in lines[0] and any("hint:" in line for line in lines), f"{name}: file, line and hint: {lines[:2]}")
    expect(not schema_accepts(path), f"{name}: xmllint refuses it, too")
    refused = issue(path, work + "/invalid.pdf", "--with-gaps")
    expect(refused.returncode == 2 and not os.path.exists(work + "/invalid.pdf"), f"{name}: nothing is issued")
valid = [os.path.join(folder, "survey.xml") for folder, _, files in os.walk(fixtures) if "survey.xml" in files] + [repository + "/demo/survey.xml"]
for path in valid:
    expect(schema_accepts(path), f"{path}: xmllint accepts it")
    expect(run("check", path).returncode in (0, 3), f"{path}: the reader accepts it")

# All problems of a file in one run.
broken = open(fixtures + "/complete/survey.xml").read().replace('loa="6.2 m"', 'loa="6,2 m"').replace('at="09:04"', 'at="9:04"').replace('diameter="7 mm"', 'diameter="7"')
open(work + "/broken.xml", "w").write(broken)
several = run("check", work + "/broken.xml").stderr
expect(several.count("error:") == 3 and 'write "6.2 m"' in several, "three problems in one run: " + several)
names = open(fixtures + "/complete/survey.xml").read().replace('kind="thimble"', 'kind="thimbel"').replace('role="lower-shroud"', 'role="lower-shrod"')
open(work + "/names.xml", "w").write(names)
unknown = run("check", work + "/names.xml")
expect(unknown.returncode == 2 and "thimble" in unknown.stderr and "lower-shroud" in unknown.stderr, "unknown names get the nearest: " + unknown.stderr)
open(work + "/glyph.xml", "w").write(open(fixtures + "/complete/survey.xml").read().replace("Inner Basin", "内港"))
glyph = run("check", work + "/glyph.xml")
expect(glyph.returncode == 2 and ":6:" in glyph.stderr and "cannot print" in glyph.stderr, "what no font can print is said at once: " + glyph.stderr)
open(work + "/glyph.xml", "w").write(open(fixtures + "/complete/survey.xml").read().replace("Inner Basin", "&#x6F22;"))
glyph = run("check", work + "/glyph.xml")
expect(glyph.returncode == 2 and ":6:" in glyph.stderr and "cannot print" in glyph.stderr, "the same for one written as a reference: " + glyph.stderr)
# Whoever reads the result may go: quietly, but not as done.
gone = subprocess.Popen([program, "plans"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
gone.stdout.close()
silent = gone.stderr.read()
expect(gone.wait() == 2 and silent == "", "a result that nobody reads any more ends quietly: " + silent)

# Exit codes of verify.
report = work + "/complete.pdf"
expect(run("verify", report).returncode == 5, "no signer named: 5")
expect(run("verify", report, "--fingerprint", "0" * 64).returncode == 5, "another signer: 5")
expect(run("verify", report, "--signer-cert", work + "/signer.pem").returncode == 0, "the signer's certificate: 0")
expect(run("verify", report, "--fingerprint", "12").returncode == 2, "two digits of a fingerprint: 2")
expect(run("verify", report, "--fingerprint", fingerprint[:31]).returncode == 2, "31 digits of a fingerprint: 2")
expect(run("verify", report, "--fingerprint", fingerprint[:32]).returncode == 0, "32 digits of it: 0")
expect(run("verify", report, "--fingerprint", fingerprint[:40] + "0" * 8).returncode == 5, "48 digits, some of them wrong: 5")
other_signer = run("verify", report, "--fingerprint", "0" * 64).stdout.splitlines()[0]
expect("NOT by the signer you named" in other_signer, "the first line says that it is another's: " + other_signer)
printed = re.search(r"rigdeed verify report.pdf --fingerprint ([0-9a-f]+)", "".join(pages(report)).replace("\n", " "))
expect(printed is not None and run("verify", report, "--fingerprint", printed.group(1)).returncode == 0, "the command printed in the report works as printed")
expect(run("verify", work + "/not-there.pdf").returncode == 2, "no such file: 2")
altered = bytearray(open(report, "rb").read())
altered[len(altered) // 2] ^= 1
open(work + "/altered.pdf", "wb").write(altered)
bad = run("verify", work + "/altered.pdf", "--fingerprint", fingerprint)
expect(bad.returncode == 4 and "NOT AS ISSUED" in bad.stdout, "one bit changed: 4")
expect(run("verify", report, work + "/altered.pdf", "--fingerprint", fingerprint).returncode == 4, "of several the worst counts")
expect(run("verify", fixtures + "/complete/survey.xml").returncode == 4, "not a PDF: 4")
told = json.loads(run("verify", report, "--fingerprint", fingerprint, "--json").stdout)[0]
expect(told["content"]["state"] == "agrees" and told["checks"][-1]["name"] == "the pages say what the survey says", "verify makes the pages anew from the survey in the report")
expect(told["as-issued"] and told["signer"]["name"] == "Ada Sorrel" and all(check["passed"] for check in told["checks"]), "verify --json")

# Signers of other kinds, and authorities that vouch for one.
def openssl(*words):
    done = subprocess.run(["openssl", *words], capture_output=True, text=True, cwd=work)
    expect(done.returncode == 0, f"openssl {words[0]}: {done.stderr}")


curve = run("signer", "new", work + "/curve.p12", "--name", "Ida Curve", "--curve", "p256", "--json")
sealed = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/curve.pdf", "--signer", work + "/curve.p12", "--on-behalf")
expect(run("verify", work + "/curve.pdf", "--fingerprint", json.loads(curve.stdout)["fingerprint"]).returncode == 0, "a P-256 signer: " + sealed.stderr)
expect(run("signer", "new", work + "/curve-2.p12", "--name", "Ida Curve", "--curve", "p521").returncode == 2, "another curve: 2")
openssl("req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "ca.key", "-out", "ca.pem", "-days", "3650", "-subj", "/CN=Harbour Authority", "-addext", "keyUsage=critical,keyCertSign,cRLSign", "-addext", "basicConstraints=critical,CA:TRUE")
openssl("req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "other.key", "-out", "other.pem", "-days", "3650", "-subj", "/CN=Harbour Authority")
for name, usage, days in (("good", "digitalSignature", "3650"), ("short", "digitalSignature", "1"), ("crypt", "keyEncipherment", "3650")):
    open(f"{work}/{name}.cnf", "w").write(f"keyUsage=critical,{usage}\nbasicConstraints=critical,CA:FALSE\nsubjectKeyIdentifier=hash\nauthorityKeyIdentifier=keyid\n")
    openssl("req", "-newkey", "rsa:2048", "-passout", "pass:a test phrase", "-keyout", name + ".key", "-out", name + ".csr", "-subj", "/CN=Ada Vouched")
    openssl("x509", "-req", "-in", name + ".csr", "-CA", "ca.pem", "-CAkey", "ca.key", "-CAcreateserial", "-days", days, "-out", name + ".crt", "-extfile", name + ".cnf")
    open(f"{work}/{name}.both", "w").write(open(work + "/ca.pem").read() + open(f"{work}/{name}.crt").read() + open(f"{work}/{name}.key").read())


def vouched(name, *more):
    if os.path.exists(f"{work}/{name}-vouched.pdf"):
        os.remove(f"{work}/{name}-vouched.pdf")
    done = run("issue", fixtures + "/complete/survey.xml", "-o", f"{work}/{name}-vouched.pdf", "--signer", f"{work}/{name}.both", "--on-behalf", *more)
    expect(done.returncode == 0, f"{name}: a PEM pair seals: {done.stderr}")
    return f"{work}/{name}-vouched.pdf"


trusted = run("verify", vouched("good"), "--trust", work + "/ca.pem")
expect(trusted.returncode == 0 and "as issued by Ada Vouched" in trusted.stdout and "vouches" in trusted.stdout, "an authority vouches: " + trusted.stdout)
expect(run("verify", work + "/good-vouched.pdf", "--trust", work + "/ca.pem", "--fingerprint", "0" * 64).returncode == 5, "of fingerprint and authority both must hold")
foreign = run("verify", work + "/good-vouched.pdf", "--trust", work + "/other.pem")
expect(foreign.returncode == 5 and "not by one of the authorities" in foreign.stdout, "the same name, another authority: 5: " + foreign.stdout)
expect(run("verify", report, "--trust", work + "/ca.pem").returncode == 5, "a self-made certificate: 5")
none = run("verify", report, "--trust", work + "/good.key")
expect(none.returncode == 2 and "holds no certificate" in none.stderr, "no authority in the file: 2: " + none.stderr)
late = vouched("short", "--issued-on", "2040-01-01")
expired = run("verify", late, "--trust", work + "/ca.pem")
expect(expired.returncode == 5 and "expired" in expired.stdout, "expired when sealed: 5: " + expired.stdout)
early = run("verify", vouched("good", "--issued-on", "2001-01-01", "--with-gaps"), "--trust", work + "/ca.pem")
expect(early.returncode == 5 and "not valid yet" in early.stdout, "not yet valid when sealed: 5: " + early.stdout)
useless = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/useless.pdf", "--signer", work + "/crypt.both")
expect(useless.returncode == 2 and "not for signatures" in useless.stderr and not os.path.exists(work + "/useless.pdf"), "a certificate for another use: 2: " + useless.stderr)
locked = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/useless.pdf", "--signer", work + "/good.both", env=dict(os.environ, RIGDEED_PASSPHRASE="wrong"))
expect(locked.returncode == 2 and "passphrase does not open" in locked.stderr, "a PEM key's wrong passphrase: 2: " + locked.stderr)
expect(run("issue", fixtures + "/complete/survey.xml", "-o", work + "/useless.pdf", "--signer", work + "/ca.pem").returncode == 2, "PEM without a key: 2")

# A report that takes the place of another.
shutil.copytree(fixtures + "/complete", work + "/corrected")
corrected = open(fixtures + "/complete/survey.xml").read().replace('number="F-1"', 'number="F-2" replaces="F-1"')
open(work + "/corrected/survey.xml", "w").write(corrected)
why = "the mast's built year was wrong"
replacing = issue(work + "/corrected/survey.xml", work + "/corrected.pdf", "--replaces", report, "--because", why)
expect(replacing.returncode == 0, "--replaces: " + replacing.stderr)
import hashlib
digest = hashlib.sha256(open(report, "rb").read()).hexdigest()
text = pages(work + "/corrected.pdf")
expect("replaces survey F-1 of 5 October 2026" in " ".join(text[0].split()) and digest[:16] in text[0], "the cover names number, date and digest: " + text[0][:600])
expect(why in " ".join("".join(text).split()), "the report says why")
chain = run("verify", work + "/corrected.pdf", report, "--fingerprint", fingerprint)
expect(chain.returncode == 0 and f"replaces survey F-1, issued on 5 October 2026, SHA-256 {digest}" in chain.stdout and f"that is {report}, byte for byte" in chain.stdout and "pages say what the survey" in chain.stdout, "verify shows the chain: " + chain.stdout)
alone = run("verify", work + "/corrected.pdf", work + "/stopped.pdf", "--json", "--fingerprint", fingerprint)
told = json.loads(alone.stdout)
expect(told[0]["replaces"]["sha256"] == digest and told[0]["replaces"]["because"] == why and told[0]["replaces"]["file"] == "" and told[1]["replaces"] is None, "another report is not the one replaced")
for survey, old, more, code, said in ((work + "/corrected/survey.xml", work + "/altered.pdf", ["--because", why], 4, "not as issued"), (work + "/corrected/survey.xml", report, [], 2, "go together"),
                                      (fixtures + "/complete/survey.xml", report, ["--because", why], 2, 'replaces="F-1"'), (work + "/corrected/survey.xml", report, ["--because", "内港"], 2, "can be printed")):
    refused = issue(survey, work + "/refused.pdf", "--replaces", old, *more)
    expect(refused.returncode == code and said in refused.stderr and not os.path.exists(work + "/refused.pdf"), f"--replaces {old} {more}: {refused.returncode} {refused.stderr}")
expect(issue(work + "/corrected/survey.xml", report, "--replaces", report, "--because", why).returncode == 2, "the old report is not overwritten")
good = open(report, "rb").read()
for what, bad in (("a byte more", good + b"\n"), ("cut short", good[:-9]), ("a bit flipped", good[:9999] + bytes([good[9999] ^ 1]) + good[10000:]), ("no PDF", b"x")):
    altered = work + "/altered-old.pdf"
    open(altered, "wb").write(bad)
    codes = [run("verify", altered).returncode, run("unpack", altered, "-o", work + "/never").returncode, issue(work + "/corrected/survey.xml", work + "/never.pdf", "--replaces", altered, "--because", why).returncode]
    expect(codes == [4, 4, 4] and not os.path.exists(work + "/never") and not os.path.exists(work + "/never.pdf"), f"{what}: verify, unpack and --replaces refuse the same: {codes}")

# unpack gives back what went in.
expect(run("unpack", report, "-o", work + "/unpacked").returncode == 0, "unpack")
expect(open(work + "/unpacked/survey.xml", "rb").read() == open(fixtures + "/complete/survey.xml", "rb").read(), "the survey comes out byte for byte")
expect(run("unpack", report, "-o", work + "/unpacked").returncode == 2, "unpack does not overwrite")

altered_unpacked = run("unpack", work + "/altered.pdf", "-o", work + "/refused")
expect(altered_unpacked.returncode == 4 and not os.path.exists(work + "/refused") and "--unverified" in altered_unpacked.stderr, "an altered report is not unpacked: " + altered_unpacked.stderr)
late = bytearray(open(report, "rb").read())
place = late.rindex(b"/Contents <") + 2000
late[place] = ord("1" if late[place] == ord("0") else "0")  # still a digit, so that only the signature is wrong
open(work + "/late.pdf", "wb").write(late)
expect(run("unpack", work + "/late.pdf", "-o", work + "/refused").returncode == 4 and not os.path.exists(work + "/refused"), "nor is one whose signature alone is altered")
forced = run("unpack", work + "/late.pdf", "-o", work + "/forced", "--unverified")
expect(forced.returncode == 4 and "do not rely" in forced.stderr and open(work + "/forced/survey.xml", "rb").read() == open(fixtures + "/complete/survey.xml", "rb").read(), "--unverified unpacks it and still says 4: " + forced.stderr)

# Are these the originals?
photos = fixtures + "/complete/photos"
named = sorted(os.listdir(photos))


def with_photos(folder, *more):
    told = run("verify", report, "--fingerprint", fingerprint, "--photos", folder, *more)
    return told.returncode, told.stdout + told.stderr


code, said = with_photos(photos)
expect(code == 0 and f"photos: {len(named)} of {len(named)} are the originals" in said, "the originals: " + said)
expect(f"pictures: {len(named)} of {len(named)} show what their originals show" in said, "and the pictures are what they show: " + said)
expect(with_photos(work + "/nowhere")[0] == 2, "a photo folder that is not there: 2")
shutil.copytree(photos, work + "/originals")
os.mkdir(work + "/originals/deeper")
os.rename(f"{work}/originals/{named[0]}", f"{work}/originals/deeper/other name.jpg")
open(work + "/originals/notes.txt", "w").write("notes")
code, said = with_photos(work + "/originals")
expect(code == 0 and f"{named[0]}: found as deeper/other name.jpg" in said and "notes.txt: not in the report's register" in said, "another name, and a file of no concern: " + said)
content = bytearray(open(f"{work}/originals/{named[1]}", "rb").read())
content[-10] ^= 1
open(f"{work}/originals/{named[1]}", "wb").write(content)
code, said = with_photos(work + "/originals")
expect(code == 4 and f"{named[1]}: ALTERED" in said and "1 altered" in said, "one bit of a photo: 4: " + said)
os.remove(f"{work}/originals/{named[2]}")
code, said = with_photos(work + "/originals", "--json")
told = json.loads(said)[0]
states = {photo["file"]: photo["state"] for photo in told["photos"]["photos"]}
expect(code == 4 and told["exit-code"] == 4 and told["as-issued"] and not told["photos"]["all-found"], "photos in --json: " + said[:300])
expect(states[named[0]] == "found" and states[named[1]] == "altered" and states[named[2]] == "missing" and told["photos"]["unknown"] == ["notes.txt"], f"the state of each photo: {states}")
expect([one["state"] for one in told["pictures"]] == ["same"] * (len(named) - 2), f"pictures are compared where the original is there: {told['pictures']}")
expect(json.loads(run("verify", report, "--json").stdout)[0]["photos"] is None, "without --photos nothing is said of them")
code = run("verify", work + "/altered.pdf", "--photos", photos, "--json")
expect(code.returncode == 4 and json.loads(code.stdout)[0]["photos"] is None, "the register of an altered report is not relied on")

# A name of two hundred letters is cut with a mark.
shutil.copytree(fixtures + "/complete", work + "/long-name")
named = open(work + "/long-name/survey.xml", encoding="utf-8").read()
open(work + "/long-name/survey.xml", "w", encoding="utf-8").write(re.sub(r'(<yacht name=")[^"]*', lambda found: found.group(1) + ("Plover of the Northern Harbour " * 7)[:200].strip(), named))
run("issue", work + "/long-name/survey.xml", "-o", work + "/long-name.pdf", "--preview")
expect(re.search(r"Plover of .* …$", pages(work + "/long-name.pdf")[0], re.M) is not None, "a long name is cut with a mark on the cover: " + pages(work + "/long-name.pdf")[0][:300])

# Preview, several surveys, usage.
preview = run("issue", fixtures + "/complete/survey.xml", "-o", work + "/preview.pdf", "--preview")
expect(preview.returncode == 0 and all("PREVIEW" in page for page in pages(work + "/preview.pdf")), "a preview is marked on every page")
expect(run("verify", work + "/preview.pdf").returncode == 4, "a preview is not as issued")
expect(run("unpack", work + "/preview.pdf", "-o", work + "/from-preview").returncode == 4 and run("unpack", work + "/preview.pdf", "-o", work + "/from-preview", "--unverified").returncode == 4 and os.path.exists(work + "/from-preview/survey.xml"), "a preview is unpacked with --unverified")
os.mkdir(work + "/reports")
both = issue(fixtures + "/complete/survey.xml", work + "/reports", fixtures + "/spellings/survey.xml")
expect(both.returncode == 0 and sorted(os.listdir(work + "/reports")) == ["F-1.b.pdf", "F-1.pdf"], "several surveys into a folder: " + both.stderr)
os.mkdir(work + "/mixed")
mixed = issue(fixtures + "/complete/survey.xml", work + "/mixed", fixtures + "/gaps/photo-unused/survey.xml")
expect(mixed.returncode == 3, "of several surveys the worst counts")
for words in ([], ["nonsense"], ["check"], ["issue", fixtures + "/complete/survey.xml"], ["verify"], ["check", "--jobs", "0", report]):
    used = run(*words)
    expect(used.returncode == 2 and "error:" in used.stderr, f"usage {words}: exit 2: {used.stderr}")
expect(run("issue", fixtures + "/complete/survey.xml", "-o", work + "/x.pdf").returncode == 2, "no signer: 2")
for words in (["--help"], ["check", "--help"], ["--version"]):
    expect(run(*words).returncode == 0, f"{words}: exit 0")
expect("\x1b[" not in run("check", fixtures + "/gaps/photo-unused/survey.xml").stdout, "no colour into a pipe")

# A sign at the deck that bars climbing stands first.
barred = run("check", fixtures + "/gaps/climbed-despite-bar/survey.xml").stdout
expect(barred.startswith("do not climb"), "check says first that nobody climbs: " + barred[:80])

# The surveyor's own templates.
os.makedirs(work + "/templates/kinds")
own = open(repository + "/templates/kinds/terminals.xml").read()
open(work + "/templates/kinds/terminals.xml", "w").write(own.replace("<name>crushed or opened</name>", "<name>squashed flat</name>"))
crushed = open(fixtures + "/complete/survey.xml").read().replace('far="F1" close="C3"/>', 'far="F1" close="C3"><sign code="crushed"/></seen>')
shutil.copytree(fixtures + "/complete", work + "/own")
open(work + "/own/survey.xml", "w").write(crushed)
sealed_with_own = run("verify", report, "--fingerprint", fingerprint, "--templates", work + "/templates")
expect(sealed_with_own.returncode == 0 and "its pages say what the survey in it says" in sealed_with_own.stdout, "a report is held against the templates it was made with, not the reader's: " + sealed_with_own.stdout)
told = run("check", work + "/own/survey.xml", "--templates", work + "/templates")
expect("squashed flat" in told.stdout, "a template of one's own takes the place of ours: " + told.stderr)
open(work + "/templates/kinds/terminals.xml", "w").write(own.replace('verdict="renew"', 'verdict="renw"', 1))
told = run("check", work + "/own/survey.xml", "--templates", work + "/templates")
expect(told.returncode == 2 and "terminals.xml:" in told.stderr and "renew" in told.stderr, "a broken template: file, line and hint: " + told.stderr)


# A letterhead and paper of one's own.
own = work + "/own-look"
os.makedirs(own + "/look")
open(own + "/look/letterhead.xml", "w").write('<letterhead xmlns="urn:rigdeed:letterhead:1" firm="Quay Rigging" accent="#336699"><line>Quay 1</line></letterhead>')
for words, size in ((("--paper", "letter"), "612 x 792"), ((), "595.28 x 841.89")):
    made = run("--templates", own, "issue", fixtures + "/complete/survey.xml", "-o", work + "/own.pdf", "--preview", "--force", *words)
    info = subprocess.run(["pdfinfo", work + "/own.pdf"], capture_output=True, text=True).stdout
    expect(made.returncode == 0 and size in info, f"paper {words}: {made.stderr} {info}")
    expect("Quay Rigging" in pages(work + "/own.pdf")[0] and "Quay 1" in pages(work + "/own.pdf")[0], "the letterhead stands on the cover")
expect(run("issue", fixtures + "/complete/survey.xml", "-o", work + "/own.pdf", "--preview", "--paper", "a5").returncode == 2, "unknown paper")

# In another language: by the option, or as the letterhead says; the terminal speaks English.
for language, title, decimal in (("de", "Riggutachten", "1,0"), ("fr", "Expertise de gréement", "1,0"), ("es", "Peritaje de jarcia", "1,0")):
    made = run("issue", fixtures + "/worked/survey.xml", "-o", f"{work}/speaks-{language}.pdf", "--signer", signer, "--with-gaps", "--language", language)
    words = "\n".join(pages(f"{work}/speaks-{language}.pdf"))
    expect(made.returncode == 0 and title in words, f"issue --language {language}: {made.stderr} {words[:80]}")
    expect(not re.search(r"surveyed for|page \d+ of|not measured|breaking load", words), f"English on the cover in {language}: {words[:1500]}")
    expect(re.search(r"\d,\d+ kN", words) and not re.search(r"\d\.\d+ kN", words), f"numbers in {language}")
    again = run("verify", f"{work}/speaks-{language}.pdf", "--signer-cert", work + "/signer.pem")
    expect(again.returncode == 0 and "as issued" in again.stdout, f"verify in {language}: {again.stdout}{again.stderr}")
    expect(f"/Lang ({language})".encode() in open(f"{work}/speaks-{language}.pdf", "rb").read(), f"/Lang in {language}")
expect(run("issue", fixtures + "/worked/survey.xml", "-o", work + "/speaks.pdf", "--preview", "--language", "xx").returncode == 2, "unknown language")
refused = run("issue", fixtures + "/gaps/photo-unused/survey.xml", "-o", work + "/speaks.pdf", "--preview", "--language", "de")
expect(refused.returncode == 3 and "belongs to no fitting" in refused.stderr, f"gaps are told in English: {refused.stderr}")

# True inspections reach a report without bending, and it says how they went.
def survey_of(name, *changes):
    """The complete fixture with changes, beside its photos."""
    text = open(fixtures + "/complete/survey.xml").read()
    for old, new in changes:
        expect(text.count(old) == 1, f"{name}: {old} stands once")
        text = text.replace(old, new)
    os.makedirs(f"{work}/{name}", exist_ok=True)
    if not os.path.exists(f"{work}/{name}/photos"):
        shutil.copytree(fixtures + "/complete/photos", f"{work}/{name}/photos")
    open(f"{work}/{name}/survey.xml", "w").write(text)
    return f"{work}/{name}/survey.xml"


cracked = ('<seen pass="up" at="09:00" far="F1" close="C1"/>', '<seen pass="up" at="09:00" far="F1" close="C1"><sign code="crack" where="pin hole">a line</sign></seen><climbed despite="crack" because="two halyards to the bow held the pole"/>')
true = survey_of("true", cracked, ('<seen pass="down" at="11:36"/>', '<not-seen pass="down" reason="it had begun to rain"/>'),
                 ('climbed="yes"', 'climbed="yes" because="the head first, before the wind rose"'), ('station="mast" height="6.4 m" metal="bronze">\n      <seen pass="up" at="09:30"', 'station="mast" height="6.4 m" metal="bronze">\n      <seen pass="up" at="08:56"'))
made = issue(true, work + "/true.pdf")
said = " ".join("".join(pages(work + "/true.pdf")).split()) if made.returncode == 0 else ""
expect(made.returncode == 0, "a true inspection is issued: " + made.stderr)
for words in ("Declared by the surveyor", "two halyards to the bow held the pole", "it had begun to rain", "the head first, before the wind rose", "the boom has jaws"):
    expect(words in said, f"the report says: {words}")
later = survey_of("later", ('<photos folder="photos"/>', '<photos folder="photos" dated="2025-10-03" because="the eye was served over since"/>'))
shutil.copy(fixtures + "/gaps/other-day/photos/C3.jpg", work + "/later/photos/C3.jpg")
made = issue(later, work + "/later.pdf")
expect(made.returncode == 0 and "photos of 3 October 2025" in " ".join("".join(pages(work + "/later.pdf")).split()).replace("Photos", "photos"), "photos of another day are said to be: " + made.stderr)

# What is typed wrongly is told with what to write.
for name, change, wanted in (
        ("folder", ('folder="photos"', 'folder="Photos"'), 'there is no photo folder "Photos"'), ("folder-line", ('folder="photos"', 'folder="Photos"'), "survey.xml:7"),
        ("folder-hint", ('folder="photos"', 'folder="Photos"'), '"photos"'), ("word", ('kind="tang"', 'kind="bottlescrew"'), 'it is called "turnbuckle" here'),
        ("quote", ('diameter="7 mm"', 'diameter="5/16""'), "a stray quote"), ("words", ('weather="dry"/>', 'weather="dry"> gap <1 mm</attendance>'), "&lt;"),
        ("end", ('      <seen pass="down" at="11:36"/>\n    </fitting>', '      <seen pass="down" at="11:36"/>'), "is not closed")):
    told = run("check", survey_of("typed-" + name, change))
    expect(told.returncode == 2 and wanted in told.stderr, f"{name}: {wanted}: {told.stderr}")
moved = survey_of("moved")
os.makedirs(work + "/moved/photos/100CARD", exist_ok=True)
shutil.move(work + "/moved/photos/C3.jpg", work + "/moved/photos/100CARD/C3.jpg")
expect("100CARD/C3.jpg" in run("check", moved).stdout, "a photo in a folder of its own is offered")
open(work + "/letter.xml", "wb").write(b"PK\x03\x04rest")
expect("not a text file but a zip archive" in run("check", work + "/letter.xml").stderr, "a word processor's file is called one")

# In a run over several surveys nothing is written before what can be refused is.
os.makedirs(work + "/run", exist_ok=True)
foreign = survey_of("foreign", ('name="Ada Sorrel"', 'name="Ida Else"'), ('number="F-1"', 'number="F-9"'))
refused = issue(fixtures + "/complete/survey.xml", work + "/run", foreign)
expect(refused.returncode == 2 and os.listdir(work + "/run") == [], f"another's name is refused before the first report: {refused.stderr}{os.listdir(work + '/run')}")
twice = issue(fixtures + "/complete/survey.xml", work + "/run", survey_of("twice"))
expect(twice.returncode == 2 and "two papers have the number" in twice.stderr and os.listdir(work + "/run") == [], "two of one number: " + twice.stderr)

# The signs of a kind, by its name or another word.
chainplate = run("signs", "chainplate").stdout
expect("hole-oval" in chainplate and "bars climbing" in chainplate, "signs of a kind: " + chainplate[:200])
expect(json.loads(run("signs", "bottlescrew", "--json").stdout)[0]["verdict"] in ("watch", "rectify", "renew"), "signs by another word, as JSON")
expect("chainplate" in run("signs").stdout and run("signs", "no-such-kind").returncode == 2, "all kinds; no such kind")
old_file = run("check", fixtures + "/before/survey.xml")
expect(old_file.returncode == 3 and 'write in <rig>: <absent kind="gooseneck" because="…"/>' in old_file.stdout, "a survey file of before is told what to write now: " + old_file.stdout[:300])

# A report small enough to be mailed: findings keep their pixels.
big = run("issue", repository + "/demo/survey.xml", "-o", work + "/whole.pdf", "--preview")
limit = os.path.getsize(work + "/whole.pdf") - 300_000
mailed = run("issue", repository + "/demo/survey.xml", "-o", work + "/mail.pdf", "--preview", "--mail-size", f"{limit // 1000}kB")
expect(mailed.returncode == 0 and 0.97 * limit <= os.path.getsize(work + "/mail.pdf") <= limit and "of no sign" in mailed.stderr, "--mail-size: " + mailed.stderr)


def printed_sizes(pdf):
    """Each photo's size in print, by its name, out of the record that the report carries."""
    subprocess.run(["pdfdetach", "-savefile", "issue.xml", "-o", work + "/issue.xml", pdf], check=True)
    return {name: tuple(map(int, size.split()[:2])) for name, size in re.findall(r'<photo name="([^"]+)".*? print="([^"]+)"', open(work + "/issue.xml").read())}


whole, small = printed_sizes(work + "/whole.pdf"), printed_sizes(work + "/mail.pdf")
of_signs = set()
for fitting in re.findall(r"<fitting .*?</fitting>", open(repository + "/demo/survey.xml").read(), re.S):
    if "<sign " in fitting or "<verdict " in fitting:
        of_signs |= set(re.findall(r' (?:far|close)="([^"]+)"', fitting))
expect(whole.keys() == small.keys() and len(of_signs) > 30 and all(whole[name] == small[name] for name in of_signs), "photos of signs keep their pixels")
expect(all(small[name] <= whole[name] for name in whole) and sum(small[name] < whole[name] for name in whole) > 20, "the others give way")
for megabytes in (5.1, 5.3, 5.6):
    made = run("issue", repository + "/demo/survey.xml", "-o", work + "/mail.pdf", "--preview", "--force", "--mail-size", f"{round(megabytes * 1000)}kB")
    reached = os.path.getsize(work + "/mail.pdf") / 1e6
    expect(made.returncode != 0 or 0.97 * megabytes <= reached <= megabytes, f"{megabytes} MB wanted, {reached} reached")
tiny = run("issue", repository + "/demo/survey.xml", "-o", work + "/tiny.pdf", "--preview", "--mail-size", "200kB")
expect(tiny.returncode == 2 and "smaller" in tiny.stderr and not os.path.exists(work + "/tiny.pdf"), "what cannot be that small is refused: " + tiny.stderr)
expect(run("issue", repository + "/demo/survey.xml", "-o", work + "/tiny.pdf", "--preview", "--mail-size", "15").returncode == 2, "a size without a unit")

# What the marking page saved is taken in: told, whole or not at all, and never over what somebody wrote meanwhile.
marked = work + "/marked"
run("start", "ketch", "-o", marked)
survey_file = marked + "/survey.xml"
commented = open(survey_file).read().replace("  <fittings>\n", "  <fittings>\n    <!-- the starboard side first, she lay port side to -->\n")
first, second = re.findall(r'<fitting id="([^"]+)"', commented)[:2]


def saved(name, statements, text=None):
    """A file as the page saves it."""
    text = text if text is not None else open(survey_file).read()
    with open(f"{work}/{name}", "w") as file:
        file.write('<rig-marks xmlns="urn:rigdeed:marks:1" number="2026-001" survey-sha256="%s">%s</rig-marks>' % (hashlib.sha256(text.encode()).hexdigest(), statements))
    expect(subprocess.run(["xmllint", "--noout", "--schema", repository + "/templates/marks.xsd", f"{work}/{name}"], capture_output=True).returncode == 0, name + ": the schema takes it")
    return f"{work}/{name}"


open(survey_file, "w").write(commented)
looks = saved("looks.xml", f'<look fitting="{first}" pass="up"><is at="09:05" far="F1" close="C1"/></look><sign fitting="{first}" pass="up"><is code="crack" mark="0.4 0.3 0.1">&lt;/script&gt; &amp; "so"</is></sign>')
more = saved("more.xml", f'<look fitting="{first}" pass="up"><was at="09:05" far="F1" close="C1"/><is at="09:06" far="F1" close="C2"/></look><not-seen fitting="{second}"><is reason="under the carpet"/></not-seen>', commented)
dry = run("mark", survey_file, "--take", looks, more, "--dry-run")
expect(dry.returncode == 0 and len(dry.stdout.splitlines()) == 4 and f"{first}, up: at 09:06 (was 09:05), close C2 (was C1)" in dry.stdout, "a dry run tells all: " + dry.stdout + dry.stderr)
expect(open(survey_file).read() == commented, "and writes nothing")
expect(run("mark", survey_file, "--take", looks, more).returncode == 0, "two files are taken one after the other")
after = open(survey_file).read()
expect("she lay port side to" in after and 'at="09:06" far="F1" close="C2"' in after and "under the carpet" in after and "&lt;/script&gt; &amp;" in after, "they stand in the survey, its comments too")
expect(re.sub(r'<fitting id="(%s|%s)".*?</fitting>' % (first, second), "", after, flags=re.S) == re.sub(r'<fitting id="(%s|%s)"[^>]*/>' % (first, second), "", commented), "and nothing else has changed")
again = run("mark", survey_file, "--take", more)
expect(again.returncode == 0 and again.stdout == "" and "says all of it already" in again.stderr and open(survey_file).read() == after, "taken again it is there already: " + again.stderr)
stale = run("mark", survey_file, "--take", looks)
line = after[:after.index('<seen pass="up" at="09:06"')].count("\n") + 1
expect(stale.returncode == 2 and f"survey.xml:{line}: " in stale.stderr and "C2" in stale.stderr and "the page knew nothing" in stale.stderr, "what was overtaken is told with line and both values: " + stale.stderr)
expect(open(survey_file).read() == after, "and nothing is taken")
other = saved("other.xml", f'<look fitting="{first}" pass="up"><was at="08:00"/><is at="08:01"/></look><look fitting="{second}" pass="down"><is at="11:00"/></look>')
expect(run("mark", survey_file, "--take", other, "--part").returncode == 2, "a look at what was not seen is no survey, in part neither")
expect(open(survey_file).read() == after, "and nothing is written")
third = re.findall(r'<fitting id="([^"]+)"', after)[2]
part = saved("part.xml", f'<look fitting="{first}" pass="up"><was at="08:00"/><is at="08:01"/></look><look fitting="{third}" pass="down"><is at="11:00"/></look>')
expect(run("mark", survey_file, "--take", part).returncode == 2 and open(survey_file).read() == after, "all or nothing")
taken = run("mark", survey_file, "--take", part, "--part")
expect(taken.returncode == 0 and 'at="11:00"' in open(survey_file).read() and 'at="08:01"' not in open(survey_file).read(), "or what nothing has overtaken: " + taken.stderr)
unknown = run("mark", survey_file, "--take", saved("unknown.xml", f'<sign fitting="{first}" pass="up"><is code="bewitched"/></sign>'))
expect(unknown.returncode == 2 and "bewitched" in unknown.stderr, "a sign that the trade does not know")
for name, text in {"no-xml": "", "entity": '<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]><rig-marks/>', "survey": after, "deep": "<a>" * 5000, "other-survey": open(looks).read().replace("2026-001", "2025-001"), "bytes": "\0\1"}.items():
    open(f"{work}/bad.xml", "w").write(text)
    bad = run("mark", survey_file, "--take", f"{work}/bad.xml")
    expect(bad.returncode == 2 and bad.stdout == "" and "rigdeed: error: " in bad.stderr and "bad.xml" in bad.stderr, f"{name} is no file of the page: {bad.stderr}")

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
