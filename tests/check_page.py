#!/usr/bin/python3
"""The check page: a second verifier, held against the first, and looked at in a real Chromium.

usage: check_page.py PROGRAM REPOSITORY [PART…]
Needs nodejs, chromium, chromium-driver, python3-selenium (Debian's, so Debian's python3), build/tests/unit_tests.
Prints "N passed, N failed".
"""
import hashlib, http.server, json, os, re, shutil, subprocess, sys, tempfile, time, traceback

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from authority import serve
from browser import Browser, Keys

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-check-")
page = work + "/check.html"
issued = repository + "/fixtures/issued"
passed, failed = 0, 0

# What the program refuses for its contents alone, by the test that has it: reports that their own signer sealed, whose
# pages or pictures are not those that their survey and record make. The page does not make pages anew, and says so.
CONTENTS_ALONE = {
    "a letterhead travels in the report and is no rule",
    "a printed photo replaced by another picture, or by bytes that are none, differs",
    "a record that leaves out what its version writes, or says more, is none of ours",
    "a report whose signer changed what it says is found by its own survey",
    "a survey that is none makes a report that differs, or cannot be judged",
    "an item left out, a milder answer, a claim of another report: its signer cannot bring them through",
    "hostile records, registers and surveys do no harm outside the child",
    "last time's picture exchanged for another is told",
    "the report of before exchanged, changed or left out is told",
    "the survey of before exchanged: the pages show it, and with pages made to match the old report does",
    "who signs cannot switch the comparison off: a record that rigdeed does not write differs",
}
OF_SCRIPTS = {"cli"}  # which has such a report, too; only tests/run.sh keeps its reports


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words, **more):
    return subprocess.run([program, *words], capture_output=True, text=True, **more)


def core(*words, text=None):
    told = subprocess.run(["node", repository + "/tests/page/core.js", page, *words], input=text, capture_output=True, text=True)
    if told.returncode != 0:
        raise RuntimeError(told.stderr[-2000:])
    return told.stdout


def counted(text, what):
    """Takes over "N passed, N failed" of another script, and what it says of failures."""
    global passed, failed
    counts = re.search(r"(\d+) passed, (\d+) failed\s*$", text)
    expect(counts is not None, what)
    passed += int(counts.group(1))
    failed += int(counts.group(2))
    print("".join(line + "\n" for line in text.splitlines() if line.startswith("FAILED")), end="")


def verdicts(files):
    """Of the page's own functions: "good" or what is wrong, by file."""
    told = [line.split(" ", 1) for line in core("verdicts", text="".join(file + "\n" for file in files)).splitlines()]
    expect([file for _, file in told] == list(files), "each file is told of")
    return {file: code for code, file in told}


def listed():
    """Reports that were issued -> the fingerprint of their signer."""
    rows = re.findall(r"^\| `([^`]+\.pdf)`.*\| ([0-9a-f]{64}) \|$", open(issued + "/README.md", encoding="utf-8").read(), re.M)
    return {f"{issued}/{name}": print_ for name, print_ in rows}


def the_page():
    made = run("verify", "--page", "-o", page)
    expect(made.returncode == 0 and made.stdout == page + "\n", "the page is written: " + made.stderr)
    size = os.path.getsize(page)
    expect(size < 300_000, f"it is small: {size} bytes")
    first = open(page, "rb").read()
    expect(run("verify", "--page", "-o", page).returncode == 0 and open(page, "rb").read() == first, "it may be made again, and is the same")
    other = work + "/mine.txt"
    open(other, "w").write("mine")
    refused = run("verify", "--page", "-o", other)
    expect(refused.returncode == 2 and "--force" in refused.stderr and open(other).read() == "mine", "another file is not overwritten: " + refused.stderr)
    expect(run("verify", "--page", "-o", other, "--force").returncode == 0 and open(other, "rb").read() == first, "but it is by --force")
    expect(run("verify", "--page", issued + "/0.1.0-rsa.pdf").returncode == 2, "it verifies no report meanwhile")
    expect(run("verify", "-o", work + "/x.html", issued + "/0.1.0-rsa.pdf").returncode == 2, "-o is for the page alone")
    expect(run("verify").returncode == 2, "without a page a report is wanted")
    policy = re.search(rb'Content-Security-Policy" content="([^"]*)"', first).group(1).decode()
    expect("default-src 'none'" in policy and "connect-src" not in policy and "http" not in policy and "unsafe" not in policy, "nothing is allowed to it: " + policy)


def the_same_as_the_program():
    """Both read what reports hold from tables of their own; both judge the same files."""
    counted(core("digests"), "SHA-256")
    table = open(repository + "/src/verify/schema_table.hpp", encoding="utf-8").read()
    rows = {" ".join(one) for one in re.findall(r'Row\{Role::(\w+), "([^"]+)", Is::', table)}
    allowed = set(core("allowed").split("\n")) - {""}
    expect(len(rows) > 150 and rows == allowed, f"both tables have the same rows: {sorted(rows ^ allowed)}")
    good = verdicts(listed())
    expect(len(good) >= 4 and set(good.values()) == {"good"}, f"reports that were issued are good: {good}")


def attacks():
    """Each report that the other tests verify, tampered or not, before the page: it says the same."""
    kept = os.environ.get("RIGDEED_KEEP_EXAMINED")
    if not kept:  # by itself: those of the attacks alone
        kept = work + "/kept"
        os.mkdir(kept)
        environment = dict(os.environ, RIGDEED_KEEP_EXAMINED=kept)
        ran = subprocess.run([repository + "/build/tests/unit_tests", "-sf=*attack_test*,*forgery_test*,*value_test*,*difference_test*,*/reopen/*,*/works/*"], env=environment, capture_output=True, text=True)
        expect(ran.returncode == 0, "the program's own tests run: " + ran.stdout[-500:])
        ran = subprocess.run([sys.executable, repository + "/tests/chain.py", program, repository], env=environment, capture_output=True, text=True)
        expect(ran.returncode == 0, "those of chains, too: " + ran.stdout[-500:])
    files = {}  # path -> verdict of the program, and whose test it is
    for name in sorted(os.listdir(kept)):
        _, verdict, test = name.removesuffix(".pdf").split("-", 2)
        files[f"{kept}/{name}"] = verdict, test.replace("_", " ")
    count = {one: sum(verdict == one for verdict, _ in files.values()) for one in ("intact", "refused", "contents")}
    expect(count["intact"] > 100 and count["refused"] > 3000 and sum(count.values()) == len(files), f"they keep what they examine: {count}")
    expect({test for verdict, test in files.values() if verdict == "contents"} - OF_SCRIPTS == CONTENTS_ALONE, "what is refused for its contents alone is listed here")
    told = verdicts(files)
    for file, (verdict, test) in files.items():
        expect(verdict == "contents" or (told[file] == "good") == (verdict == "intact"), f"{file}, {test}: {verdict}, the page says {told[file]}")
    # Of the smallest report, bits flipped one at a time; all of them with a large RIGDEED_FLIPS.
    smallest = min((file for file, (verdict, _) in files.items() if verdict == "intact"), key=os.path.getsize)
    said = core("flips", smallest, os.environ.get("RIGDEED_FLIPS", "5000"), "20261003")
    refused = re.search(r"^(\d+) of (\d+) refused$", said, re.M)
    expect(refused and refused.group(1) == refused.group(2) and int(refused.group(2)) >= 5000, f"{os.path.getsize(smallest)} bytes, bits flipped: {said[-300:]}")


class Listener:
    """A server on loopback that hands out the page and hears of everything else that is asked for."""

    def __init__(self):
        self.heard = heard = []

        class Handler(http.server.BaseHTTPRequestHandler):
            def do_GET(self):
                heard.append(self.path)
                there = self.path == "/check.html"
                self.send_response(200 if there else 404)
                self.send_header("Content-Type", "text/html")
                self.end_headers()
                if there:
                    self.wfile.write(open(page, "rb").read())

            do_POST = do_HEAD = do_OPTIONS = do_GET

            def log_message(self, *_):
                pass

        self.address = serve(Handler)


def hostile(text):
    return text.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")


class Reports:
    """Sealed reports of every kind -> their signer's fingerprint."""

    def __init__(self, listener):
        self.environment = dict(os.environ, RIGDEED_PASSPHRASE="a test phrase")
        self.bad = f"<img src={listener.address}/x onerror=document.title='hit'>"
        self.fingerprints = {}
        self.folder = work + "/authority"
        os.mkdir(self.folder)
        self.clock = subprocess.Popen([sys.executable, repository + "/tests/authority.py", self.folder], stderr=subprocess.DEVNULL)
        while not os.path.exists(self.folder + "/address") or not open(self.folder + "/address").read():
            time.sleep(0.1)
        run("signer", "new", self.folder + "/bad.p12", "--name", self.bad, "--firm", self.bad, env=self.environment)

    def issue(self, survey, name, signer, *more):
        report = f"{work}/{name}.pdf"
        said = run("--quiet", "issue", survey, "-o", report, "--on-behalf", "--signer", f"{self.folder}/{signer}.p12", *more, env=self.environment)
        expect(said.returncode == 0, f"{name} is issued: {said.stderr}")
        shown = run("signer", "show", f"{self.folder}/{signer}.p12", "--json", env=self.environment)
        self.fingerprints[report] = json.loads(shown.stdout)["fingerprint"]
        return report

    def all(self):
        small = work + "/small"
        subprocess.run([sys.executable, repository + "/tests/outside/small_survey.py", repository + "/demo/photos", small, "1"], check=True)
        stamp = ["--timestamp", open(self.folder + "/address").read()]
        made = [self.issue(small + "/survey.xml", f"{signer}-{language}", signer, "--language", language, *(stamp if language in ("de", "fr") else []))
                for signer, language in zip(("rsa-alone", "p256-alone", "rsa-chain", "p256-chain", "p256-alone", "rsa-chain"), ("en", "de", "es", "fr", "en", "de"))]
        spelled = f"{repository}/fixtures/spellings/survey.xml"
        return made + [self.issue(spelled, "works", "rsa-alone"), self.issue(small + "/survey.xml", "gaps", "p256-alone", "--force")]

    def hostile(self):
        """A survey whose every name is markup."""
        folder = work + "/hostile"
        shutil.copytree(f"{repository}/fixtures/spellings", folder)
        text = open(folder + "/survey.xml", encoding="utf-8").read()
        for tag in ("surveyor", "client", "yacht"):
            text = re.sub(rf'(<{tag}\b[^>]*?name=)"[^"]*"', lambda found: found.group(1) + '"' + hostile(self.bad) + '"', text, count=1)
        open(folder + "/survey.xml", "w", encoding="utf-8").write(text)
        made = self.issue(folder + "/survey.xml", "hostile", "bad")
        os.rename(made, named := f"{work}/<img src=x onerror=document.title='hit'>&amp;.pdf")
        self.fingerprints[named] = self.fingerprints.pop(made)
        return named


def give(browser, report, print_=None):
    """What the page says of it: good, open or bad; and all its words."""
    if print_ is not None:
        browser.js("const field = document.querySelector('#print'); field.value = arguments[0]; field.dispatchEvent(new Event('input'))", print_)
    browser.js("document.querySelector('#verdict').replaceChildren(); document.querySelector('#file').value = ''")
    browser.find("#file").send_keys(report)
    browser.wait("return document.querySelector('.told') !== null", 30)
    return browser.js("return document.querySelector('.told').classList[1]"), browser.text("#result")


def in_chromium():
    """Reports of every kind; whose key; tampered copies; hostile names; and nothing is asked for from anywhere."""
    listener = Listener()
    reports = Reports(listener)
    browser = Browser(1280, 900, work + "/saved")
    try:
        browser.open(page)
        every = reports.all()
        prints = {**listed(), **{report: reports.fingerprints[report] for report in every}}
        expect(len(prints) >= 12, f"reports of every kind: {len(prints)}")
        for report, print_ in prints.items():
            name = os.path.basename(report)
            kind, words = give(browser, report, "")
            signer = json.loads(run("verify", report, "--json", "--seal-only").stdout)[0]
            expect(kind == "open" and "Unchanged since it was sealed, by somebody who goes by the name " + signer["signer"]["name"] in words and "is not shown" in words, f"{name}: without a fingerprint it stays open: {kind} {words[:200]}")
            kind, words = give(browser, report, print_)
            expect(kind == "good" and "As sealed by " + signer["signer"]["name"] in words, f"{name}: with the fingerprint it is good: {kind} {words[:200]}")
            for said in ("survey", "reported"):
                expect(signer[said] is None or all(value in words for key, value in signer[said].items() if key in ("number", "yacht", "hin", "surveyor")), f"{name}: says what its survey says: {signer[said]}")
            expect((signer["timestamp"] is None) == ("timestamp, not judged here" not in words), f"{name}: a timestamp is shown where there is one")
            kind, words = give(browser, report, "0" * 64)
            expect(kind == "bad" and "another key" in words, f"{name}: with another's it is not: {kind}")
        report = every[0]
        print_ = prints[report]
        grouped = ":".join(print_[i:i + 2] for i in range(0, 64, 2)).upper()
        for typed, wanted in ((grouped, "good"), (" " + " ".join(print_[i:i + 4] for i in range(0, 64, 4)) + "\n", "good"), (print_[:32], "good"), (print_[:31], "open"), (print_ + "0", "open"), ("g" * 64, "open"), (print_[:40] + "0", "good" if print_[40] == "0" else "bad")):
            kind, words = give(browser, report, typed)
            expect(kind == wanted and ("no fingerprint" in browser.text("#print-says")) == (wanted == "open"), f"typed as {typed!r}: {kind}")
        # By its own date before or after the certificate's time.
        small = work + "/small/survey.xml"
        for name, start, years, day, wanted in (("early", 1893456000, "5", "2026-10-05", "not yet valid"), ("late", 1577836800, "2", "2026-10-05", "had expired"), ("past", 1577836800, "9", "2026-10-05", "The certificate expired on")):
            run("signer", "new", f"{reports.folder}/{name}.p12", "--name", name, "--years", years, env=dict(reports.environment, SOURCE_DATE_EPOCH=str(start)))
            made = reports.issue(small, name, name, "--issued-on", day)
            browser.js("Date.now = () => 1.9e12")  # 2030
            kind, words = give(browser, made, reports.fingerprints[made])
            told = json.loads(run("verify", made, "--json", "--seal-only", "--fingerprint", reports.fingerprints[made]).stdout)[0]
            expect(wanted in words and kind == ("good" if told["exit-code"] == 0 else "open") and told["exit-code"] == (5 if name == "late" else 0), f"{name}: {kind} {words[:200]} {told['exit-code']}")
        # Its works, in the order of the list, as the record has them and as they are printed.
        works = next(one for one in every if one.endswith("/works.pdf"))
        run("unpack", works, "-o", work + "/works")
        listed_works = re.findall(r'<work item="(\d+)" verdict="(\w+)" first="\w+" words="([^"]*)"', open(work + "/works/issue.xml", encoding="utf-8").read())
        give(browser, works, "")
        shown = browser.js("return [...document.querySelectorAll('#works .work strong')].map(one => one.textContent)")
        expect(len(listed_works) > 1 and shown == [f"{item}. {words.replace('&apos;', chr(39)).replace('&quot;', chr(34)).replace('&amp;', '&')}" for item, _, words in listed_works], f"the works in their order: {shown} {listed_works}")
        printed = re.sub(r"\s+", " ", subprocess.run(["pdftotext", "-layout", works, "-"], capture_output=True, text=True).stdout)
        expect(all(words.split("'")[0].split(" ")[0] in printed for words in shown), "they stand in its pages")
        expect("Serviceable once the listed work is done" in browser.text("#result"), "and its answer")
        # The code in its pages: number, data digest and fingerprint, and no address.
        last = int(re.search(r"Pages:\s+(\d+)", subprocess.run(["pdfinfo", works], capture_output=True, text=True).stdout).group(1))
        subprocess.run(["pdftoppm", "-r", "150", "-f", str(last - 4), "-gray", works, work + "/code"], check=True)
        read = [subprocess.run(["zbarimg", "--quiet", "--raw", f"{work}/{name}"], capture_output=True, text=True).stdout for name in sorted(os.listdir(work)) if name.startswith("code-")]
        carried = "".join(hashlib.sha256(open(f"{work}/works/{name}", "rb").read()).hexdigest() + "\n" for name in ("survey.xml", "photos.xml"))
        number = re.search(r'<rig-survey [^>]*number="([^"]+)"', open(work + "/works/survey.xml", encoding="utf-8").read()).group(1)
        expect("".join(read).strip() == f"rigdeed {number}\ndata {hashlib.sha256(carried.encode()).hexdigest()}\nsigner {prints[works]}", f"the code in its pages: {read}")
        # Tampered copies.
        whole = open(works, "rb").read()
        for name, bytes_, words in (
                ("one bit", whole[:len(whole) // 2] + bytes([whole[len(whole) // 2] ^ 1]) + whole[len(whole) // 2 + 1:], "Not as sealed"),
                ("cut short", whole[:-2000], "cut short"), ("appended", whole + b"\n", "added behind its end"), ("before", b"\n" + whole, "before the report"),
                ("line ends", whole.replace(b"\n", b"\r\n"), "line ends"), ("text", whole.decode("latin-1").encode("utf-8"), "as if it were text"),
                ("a word", whole.replace(b"OutputIntents", b"OutputIntentz"), "not built as sealed reports"), ("twice", whole + whole, "Not as sealed")):
            open(work + "/tampered.pdf", "wb").write(bytes_)
            kind, told = give(browser, work + "/tampered.pdf", prints[works])
            expect(kind == "bad" and words in told and "What it says" not in told, f"{name}: {kind} {told[:200]}")
        preview = work + "/preview.pdf"
        run("--quiet", "issue", repository + "/fixtures/complete/survey.xml", "--preview", "-o", preview)
        kind, told = give(browser, preview, prints[works])
        expect(kind == "bad" and "never sealed" in told, f"a preview: {told[:200]}")
        # Hostile names in certificate, survey and file name.
        named = reports.hostile()
        for print_ in ("", reports.fingerprints[named], "<script>document.title='hit'</script>"):
            kind, told = give(browser, named, print_)
            expect(told.count(reports.bad) >= 3 and os.path.basename(named) in told, "hostile names are shown as they are")
        expect(browser.js("return document.querySelectorAll('main img, main script, main iframe').length") == 0, "and are no elements")
        requests, complaints = browser.log()
        expect([url for url in requests if not url.startswith("file://" + page)] == [] and requests, f"nothing is asked for but the page: {requests[:3]}")
        expect(complaints == [] and "hit" not in browser.driver.title, f"the browser complains of nothing: {complaints[:3]}")
        # The same from a site: the fingerprint of the link stays in the browser.
        browser.driver.get(listener.address + "/check.html#fp=" + prints[works][:40] + "%20" + prints[works][40:])
        kind, told = give(browser, works)
        expect(kind == "good" and "came with the link" in browser.text("#print-says"), f"the fingerprint of the link: {kind}")
        give(browser, named)
        time.sleep(0.3)
        expect(listener.heard == ["/check.html"], f"the site hears of nothing but the page: {listener.heard}")
    finally:
        browser.close()
        reports.clock.terminate()
        reports.clock.wait(10)


def odd_files():
    """What is no report gets a sentence each."""
    browser = Browser(1280, 900, work + "/saved")
    try:
        browser.open(page)
        odd = {"empty.pdf": (b"", "The file is empty"), "words.pdf": (b"no PDF at all" * 500, "is not a PDF"), "other.pdf": (b"%PDF-1.7\n%\xe2\xe3\n1 0 obj\nendobj\n", "not a report of the program"),
               "zeros.pdf": (bytes(100), "is not a PDF"), "picture.jpg": (open(repository + "/demo/photos/A0012.jpg", "rb").read(), "is not a PDF")}
        browser.js("document.querySelector('#file').removeAttribute('accept')")
        for name, (bytes_, words) in odd.items():
            open(f"{work}/{name}", "wb").write(bytes_)
            kind, told = give(browser, f"{work}/{name}", "0" * 64)
            expect(kind == "bad" and words in told, f"{name}: {told[:200]}")
        for name, start, words in (("huge.pdf", b"", "is not a PDF"), ("huge-report.pdf", b"%PDF-1.7\n", "larger than 200 MB")):
            with open(f"{work}/{name}", "wb") as file:
                file.write(start)
                file.truncate(2 << 30)
            began = time.time()
            kind, told = give(browser, f"{work}/{name}")
            expect(kind == "bad" and words in told and time.time() - began < 10, f"{name}, 2 GB: {told[:200]}")
        changing = work + "/changing.pdf"
        shutil.copy(issued + "/0.1.0-rsa.pdf", changing)
        expect(give(browser, changing, "")[0] == "open", "a report")
        time.sleep(1.1)  # a file's time has whole seconds to a browser
        open(changing, "ab").write(b"more")
        browser.js("document.querySelector('#verdict').replaceChildren(); document.querySelector('#file').dispatchEvent(new Event('change'))")
        browser.wait("return document.querySelector('.told') !== null")
        expect("could not be read to its end" in browser.text("#result"), "one that changed meanwhile: " + browser.text("#result")[:200])
    finally:
        browser.close()


def originals():
    """Original photos beside a report: found by content, whatever their names."""
    browser = Browser(1280, 900, work + "/saved")
    try:
        folder = work + "/originals"
        survey = f"{repository}/fixtures/spellings"
        os.mkdir(folder)
        report = next((one for one in (work + "/works.pdf",) if os.path.exists(one)), None)
        if report is None:
            run("signer", "new", work + "/own.p12", "--name", "Ada", env=dict(os.environ, RIGDEED_PASSPHRASE="a test phrase"))
            run("--quiet", "issue", survey + "/survey.xml", "-o", report := work + "/works.pdf", "--signer", work + "/own.p12", "--on-behalf", env=dict(os.environ, RIGDEED_PASSPHRASE="a test phrase"))
        browser.open(page)
        # Dropped on the page before there is a report.
        browser.js("""const files = new DataTransfer();
            for (const name of ["one.jpg", "two.jpg"]) files.items.add(new File([name], name, {type: "image/jpeg"}));
            document.dispatchEvent(new DragEvent("drop", {dataTransfer: files, cancelable: true}))""")
        expect(browser.wait("return document.querySelector('#verdict').textContent").startswith("Photos read: "), "photos alone wait for their report")
        browser.open(page)
        give(browser, report, "")
        rows = "return [...document.querySelectorAll('.photos tbody tr')].map(one => [...one.children].map(cell => cell.textContent))"
        register = [(name, digest) for name, digest, _ in browser.js(rows)]
        for name, digest in register:
            expect(hashlib.sha256(open(f"{survey}/photos/{name}", "rb").read()).hexdigest() == digest, f"{name} stands there with its digest")
        (first, _), (second, _), (third, _), *_ = register
        shutil.copy(f"{survey}/photos/{first}", folder + "/renamed.jpg")
        open(f"{folder}/{os.path.basename(second)}", "wb").write(open(f"{survey}/photos/{second}", "rb").read() + b"x")
        open(folder + "/stranger.jpg", "wb").write(b"a stranger")
        browser.find("#originals").send_keys("\n".join(f"{folder}/{name}" for name in os.listdir(folder)))
        browser.wait("return /originals are there/.test(document.querySelector('#photos-say').textContent)")
        state = {name: words for name, _, words in browser.js(rows)}
        expect((state[first], state[second], state[third]) == ("found, unchanged", "a file of this name, but other content", "not among those given"), f"each is told of: {state}")
        expect("Not of this report: stranger.jpg" in browser.text("#result"), "and the stranger: " + browser.text("#result")[-900:])
        expect(f"1 of {len(register)} originals" in browser.text("#photos-say"), browser.text("#photos-say"))
    finally:
        browser.close()


def for_everybody():
    """In the language of the browser, 390 pixels wide, by keys alone."""
    for language, title in (("de-AT", "Ist dieser Rigg-Bericht"), ("es-MX", "¿Está este informe"), ("fr", "Ce rapport de gréement"), ("nl", "Is this rig report")):
        browser = Browser(390, 844, work + "/saved", touch=True, dark=language == "fr")
        try:
            browser.cdp("Emulation.setUserAgentOverride", userAgent=browser.js("return navigator.userAgent"), acceptLanguage=language)
            browser.open(page)
            expect(browser.text("h1").startswith(title) and browser.driver.title.startswith(title), f"{language}: {browser.text('h1')}")
            kind, words = give(browser, issued + "/0.1.0-chain-timestamp-es.pdf", listed()[issued + "/0.1.0-chain-timestamp-es.pdf"])
            expect(kind == "good" and "undefined" not in words and "fault." not in words, f"{language}: {kind}")
            expect(browser.js("return document.documentElement.scrollWidth <= 390"), f"{language}: nothing is wider than the screen")
            expect(browser.js("return getComputedStyle(document.querySelector('.told h2')).color") == ("rgb(95, 214, 176)" if language == "fr" else "rgb(0, 102, 77)"), f"{language}: by day and by night")
        finally:
            browser.close()
    browser = Browser(1280, 900, work + "/saved")
    try:
        browser.open(page)
        give(browser, issued + "/0.1.0-rsa.pdf")
        reached = []
        browser.js("document.activeElement.blur()")
        for _ in range(30):
            browser.keys(Keys.TAB)
            reached.append(browser.focused())
        expect({"file", "print", "in-de", "originals", "SUMMARY"} <= set(reached), f"all is reached by keys: {reached}")
        browser.js("document.querySelector('#print').focus()")
        browser.keys(listed()[issued + "/0.1.0-rsa.pdf"])
        expect(browser.js("return document.querySelector('.told').classList[1]") == "good", "a fingerprint typed makes it good")
        expect(browser.js("return document.querySelector('#verdict').getAttribute('role')") == "status", "the result is read aloud")
        browser.click("#in-de")
        expect(browser.text(".told h2").startswith("Wie von ") and browser.js("return document.documentElement.lang") == "de", "another language says the same: " + browser.text(".told h2"))
    finally:
        browser.close()


PARTS = [the_same_as_the_program, attacks, in_chromium, originals, odd_files, for_everybody]

try:
    the_page()
    wanted = sys.argv[3:]
    for part in PARTS:
        if wanted and part.__name__ not in wanted:
            continue
        try:
            part()
        except Exception:
            expect(False, f"{part.__name__} came to its end: {traceback.format_exc()}")
finally:
    shutil.rmtree(work, ignore_errors=True)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
