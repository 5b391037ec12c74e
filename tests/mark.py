#!/usr/bin/python3
"""The marking page in a real Chromium: pairing by keys, circling, measuring, closing and going on, saving, taking in.

usage: mark.py PROGRAM REPOSITORY
Needs chromium, chromium-driver, python3-selenium (Debian's, so Debian's python3). Prints "N passed, N failed".
"""
import hashlib, json, os, re, shutil, subprocess, sys, tempfile, traceback

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from browser import Browser, Keys
from mark_survey import HOSTILE_NAME, make
from scene import STAYS, Photo, add, degrees_between, dot, length, mul, sub, unit

program, repository = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
work = tempfile.mkdtemp(prefix="rigdeed-mark-")
passed, failed = 0, 0


def expect(truth, what):
    global passed, failed
    if truth:
        passed += 1
    else:
        failed += 1
        print("FAILED:", what)


def run(*words):
    return subprocess.run([program, *words], capture_output=True, text=True)


def schema_accepts(path):
    return subprocess.run(["xmllint", "--noout", "--schema", repository + "/templates/marks.xsd", path], capture_output=True).returncode == 0


def clean(browser, folder, what):
    """Nothing was asked for but files of the folder, and nothing was refused by the page's policy."""
    requests, complaints = browser.log()
    foreign = [url for url in requests if not url.startswith(("data:", "blob:", "file://" + folder + "/"))]
    expect(requests and not foreign, f"{what}: no request leaves the page: {foreign[:3]}")
    expect(not complaints, f"{what}: the browser complains of nothing: {complaints[:3]}")
    expect("hit" not in browser.driver.title, f"{what}: nothing of others ran")


def by_keys():
    """A started ketch and 300 photos: ten fittings paired by keys alone, a sign, an angle, a length."""
    folder = work + "/ketch"
    survey, names = make(program, repository, folder, 300, hostile=True)
    before = open(survey, encoding="utf-8").read()
    made = run("mark", survey)
    expect(made.returncode == 0 and "300 photos" in made.stderr, "the page is made: " + made.stderr)
    page = folder + "/marking.html"
    expect(os.path.getsize(page) < 8_000_000, f"it is small: {os.path.getsize(page)} bytes")
    expect(run("mark", survey).returncode == 0, "and may be made again")
    ids = re.findall(r'<fitting id="([^"]+)" kind="([^"]+)"', before)
    browser = Browser(1280, 900, work + "/saved")
    try:
        browser.open(page)
        expect(browser.text("#name") != "" and browser.text("#amount").startswith("0 of"), "it opens at the first fitting, none complete")
        browser.js("window.shown = document.querySelectorAll('#roll .shot').length")
        expect(browser.js("return window.shown") == 300, "with all photos")
        # By what `check` misses: every fitting, both passes, a pair.
        gaps = {}
        for gap in json.loads(run("check", survey, "--json").stdout)[0]["gaps"]:
            if gap["code"] in ("not-seen-up", "not-seen-down", "no-photo-pair"):
                gaps[gap["fitting"]] = gaps.get(gap["fitting"], 0) + 1
        missing = browser.js("return [...document.querySelectorAll('#fittings button')].map(one => [one.dataset.fitting, one.querySelector('.gap').textContent])")
        told = {one: 1 + int((re.search(r"\+(\d+)", text) or [0, 0])[1]) for one, text in missing if text != "complete"}
        expect(told == gaps, "it misses what check misses")
        for number in range(10):
            browser.keys("f") if number % 3 == 0 else browser.keys("d")
            browser.keys("c")
            if number < 9:
                browser.keys("j")
        expect(browser.text("#facts").endswith(ids[9][0]), "ten fittings on: " + browser.text("#facts"))
        browser.keys("k" * 5)  # the fifth is a swaged terminal
        expect(ids[4][1] == "swaged-terminal" and browser.text("#facts").endswith(ids[4][0]), "back to the fifth")
        browser.keys("i")
        expect(browser.focused() == "add-0", "the list of signs opens: " + str(browser.focused()))
        code = browser.js("return document.activeElement.dataset.code")
        browser.keys(Keys.ENTER)
        expect(browser.focused() == "sign-words-0", "then the words are asked for: " + str(browser.focused()))
        browser.keys("</sign> & \"so\" <img src=x onerror=document.title='hit'>", Keys.ESCAPE)
        browser.keys("m", Keys.ARROW_LEFT, Keys.ARROW_LEFT, Keys.ARROW_UP, "+", "+", Keys.ENTER)
        browser.keys("s", Keys.ENTER, Keys.ARROW_RIGHT * 10, Keys.ENTER)  # a scale: 0.05 of the width are 8 mm
        expect(browser.focused() == "known-0", "what is known is offered: " + browser.text("#tool-form"))
        browser.keys(Keys.ENTER)
        browser.keys("l", Keys.ENTER, Keys.ARROW_RIGHT * 20, Keys.ENTER)
        expect("16 mm" in browser.text("#measured-value"), "twice as long is 16 mm: " + browser.text("#measured-value"))
        browser.keys(Keys.ENTER)
        browser.keys("k")  # the fourth is a clevis pin
        expect(ids[3][1] == "clevis-pin", "back to a pin")
        browser.keys("g", Keys.ENTER, Keys.ARROW_RIGHT * 10, Keys.ENTER, Keys.ARROW_LEFT * 10, Keys.ENTER, Keys.ARROW_UP * 10, Keys.ENTER)
        expect("90°" in browser.text("#measured-value"), f"a right angle is one: {browser.text(chr(35) + 'pair')} {browser.focused()}")
        browser.keys(Keys.ENTER)
        first = open(browser.saved(lambda: browser.keys("w")), encoding="utf-8").read()
        browser.keys("u" * 4)
        expect(browser.saved(lambda: browser.keys("w")) and "90°" not in newest(browser), "undone, it is not there")
        browser.keys("r" * 4)
        expect(open(browser.saved(lambda: browser.keys("w")), encoding="utf-8").read() == first, "redone, all is there again")
        # Close the tab, open the page again in another.
        old = browser.driver.current_window_handle
        browser.driver.switch_to.new_window("tab")
        fresh = browser.driver.current_window_handle
        browser.driver.switch_to.window(old)
        browser.driver.close()
        browser.driver.switch_to.window(fresh)
        browser.cdp("Browser.setDownloadBehavior", behavior="allow", downloadPath=browser.downloads)
        browser.open(page)
        expect("Going on where you were" in browser.text("#notice"), "what was typed is there again: " + browser.text("#notice"))
        browser.keys("p", "b", "rain came on", Keys.ENTER, Keys.ESCAPE)
        file = browser.saved(lambda: browser.keys("w"))
        expect("Take them in with" in browser.text("#notice"), "it says how to go on: " + browser.text("#notice"))
        clean(browser, folder, "by keys")
    finally:
        browser.close()
    expect(schema_accepts(file), "what is saved is as the schema says")
    taken = run("mark", survey, "--take", file)
    expect(taken.returncode == 0, "it is taken in: " + taken.stderr)
    after = open(survey, encoding="utf-8").read()
    expect("<!-- she lay port side to -->" in after, "comments stay")
    looks = re.findall(r'<fitting id="([^"]+)"[^>]*>\s*<seen pass="up" at="([^"]+)" far="([^"]+)" close="([^"]+)"', after)
    expect([one[0] for one in looks] == [one[0] for one in ids[:10]], "ten fittings have their pair, in their order")
    escaped = HOSTILE_NAME.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")
    shown = [one[3] for one in looks]
    expect(names[1] == shown[0] and escaped in [photo.replace("&apos;", "'") for photo in shown], "their photos are those in turn: " + str(shown[:3]))
    report = json.loads(run("check", survey, "--json").stdout)[0]
    open_pairs = {gap["fitting"] for gap in report["gaps"] if gap["code"] == "no-photo-pair"}
    expect(not open_pairs & {one[0] for one in ids[:10]} and open_pairs >= {one[0] for one in ids[10:]}, "check misses the pairs of the others alone")
    expect(f'code="{code}"' in after and 'mark="0.4' in after and "onerror=document.title=" in after, "the sign with circle and words")
    found = json.dumps(report)
    expect(code in found, "check tells the sign")
    expect(re.search(r'<measured what="leg-angle" value="90°" from="P\d+" along="', after) is not None, "the angle")
    expect(re.search(r'<measured what="[a-z-]+" value="16 mm" from="P\d+" along="', after) is not None and re.search(r'<scale photo="P\d+" length="8 mm" of="[^"]+" along="', after) is not None, "the length and its scale")
    expect(f'<not-seen pass="down" reason="rain came on"/>' in after, "what was not seen")
    expect(not any("scale" in one.get("what", "") and ids[4][0] == one.get("fitting") and "not recorded" in one.get("what", "") for one in report["remarks"]), "the scale drawn serves the hairline's remark")
    again = run("mark", survey, "--take", file)
    expect(again.returncode == 0 and open(survey, encoding="utf-8").read() == after, "taken twice it is there once")


def newest(browser):
    files = [f"{browser.downloads}/{name}" for name in os.listdir(browser.downloads)]
    return open(max(files, key=os.path.getmtime), encoding="utf-8").read()


def small_demo():
    """The demo with a few of its pictures, no look at the tip of the port spreader on the way up."""
    folder = work + "/demo"
    os.makedirs(folder + "/photos")
    for name in ("A0065", "A0066", "A0067", "A0068", "A0069", "A0099", "A0098"):
        shutil.copy(f"{repository}/demo/photos/{name}.jpg", folder + "/photos")
    shutil.copy(repository + "/demo/survey.xml", folder)
    run("mark", folder + "/survey.xml")
    return folder


def measured(folder):
    """Against the scene: points of it projected by the camera that took the picture, drawn on it by pointer."""
    photo, stay, tip = Photo("A0066"), STAYS["cap-port"], STAYS["cap-port"].via
    up, inward = unit(sub(stay.high, tip)), (1, 0, 0)
    expect(photo.facing(up, inward) > 0.98, "spreader and shroud lie square to the camera")
    # A point of the shroud and one of the spreader that are equally far along the camera's axis: in one plane of it.
    down = unit(sub(stay.low, tip))
    low = add(tip, mul(down, 25))
    inner = add(tip, mul(inward, 25 * dot(down, photo.axis) / dot(inward, photo.axis)))
    apart = length(sub(low, inner))
    expect(20 < apart < 40 and photo.facing(sub(low, inner)) > 0.9999, "they lie in a plane of the picture")
    browser = Browser(1280, 1000, work + "/saved")
    try:
        browser.open(folder + "/marking.html")
        browser.click("[data-fitting=spreader-tip-port]")
        browser.js("document.querySelector('#view-close').scrollIntoView({block: 'center'})")

        def line(start, end, by=-600):
            """Enlarged first, about its middle."""
            browser.wheel("close", ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), by)
            browser.drag(browser.on_photo("close", start), browser.on_photo("close", end))

        def fitted():
            browser.click("#view-close")
            browser.keys("z")

        browser.click("#view-close")
        browser.keys("s")
        line(*photo.across(low, down, stay.d), by=-950)
        browser.wait("return document.querySelector('#scale-of')")
        known = browser.js("return [...document.querySelectorAll('#tool-form .choices button')].map(one => one.textContent)")
        browser.find("#scale-of").send_keys("shroud")
        browser.find("#scale-length").send_keys("8 mm", Keys.ENTER)
        expect("A0066" in browser.text("#measures"), f"the photo has its scale: {browser.text('#measures')} {known}")
        fitted()
        browser.keys("l")
        line(photo.at(low), photo.at(inner))
        value = float(re.match(r"([0-9.]+) mm", browser.wait("return document.querySelector('#measured-value')?.textContent")).group(1))
        lengths = [value]
        within = float(re.search(r"within ([0-9.]+)", browser.text("#measured-value")).group(1))
        expect(abs(value / apart - 1) < 0.03, f"{apart:.2f} mm from shroud to spreader are measured as {value} mm")
        expect(0.1 < within < 2, f"within {within} mm")
        browser.keys(Keys.ESCAPE)
        fitted()
        browser.keys("g")
        line(photo.at(add(tip, mul(up, 2))), photo.at(add(tip, mul(up, 22))))
        line(photo.at(add(tip, (2, 0, 0))), photo.at(add(tip, (22, 0, 0))))
        value = float(re.match(r"([0-9.]+)°", browser.wait("return document.querySelector('#measured-value')?.textContent")).group(1))
        true = degrees_between(up, inward)
        expect(abs(value - true) < 2, f"{true:.1f}° between spreader and shroud are measured as {value}°")
        print(f"measured on a photo: {lengths[0]} mm of {apart:.2f} mm, {value}° of {true:.1f}°")
        clean(browser, folder, "measuring")
    finally:
        browser.close()


def by_pointer(folder):
    """Drag onto a fitting and onto a place, shift by one, circle by drag and wheel, a click on the schematic."""
    browser = Browser(1280, 1000, work + "/saved")
    try:
        browser.open(folder + "/marking.html")
        browser.click("[data-fitting=spreader-tip-port]")

        def middle(selector):
            box = browser.js("const b = document.querySelector(arguments[0]).getBoundingClientRect(); return [b.left + b.width / 2, b.top + b.height / 2]", selector)
            return box

        browser.js("document.querySelector('#roll').scrollIntoView({block: 'end'})")
        shot = browser.js("return '#' + [...document.querySelectorAll('.shot')].find(one => one.textContent.includes('A0099')).id")
        browser.click(shot)
        browser.drag(middle(shot), middle("[data-slot=far] .frame"))
        expect("A0099" in browser.text("[data-slot=far] figcaption"), "a photo dragged onto far is the far one")
        browser.keys("u")
        expect("A0065" in browser.text("[data-slot=far] figcaption"), "and undone it is not")
        browser.js("document.querySelector('#roll').scrollIntoView({block: 'end'})")
        target = browser.js("const list = [...document.querySelectorAll('#fittings button')]; const at = list.findIndex(one => one.ariaCurrent === 'true'); return list[at + 1].dataset.fitting")
        browser.drag(middle(shot), middle(f"[data-fitting='{target}']"))
        expect(browser.text("#facts").endswith(target) and "A0099" in browser.text("[data-slot=close] figcaption"), "dragged onto a fitting it is its close one")
        browser.keys("u")
        browser.click("[data-fitting=forestay-chainplate]")
        browser.keys("]")
        expect("sign" in browser.text("#notice"), "nothing is shifted past a sign: " + browser.text("#notice"))
        browser.click("[data-fitting=spreader-tip-port]")
        browser.js("document.querySelector('#view-close').scrollIntoView({block: 'center'})")
        browser.click("#view-close")
        browser.keys("m")
        browser.drag(browser.on_photo("close", (0.4, 0.3)), browser.on_photo("close", (0.5, 0.3)))
        browser.wheel("close", (0.45, 0.3), -100)
        browser.wait("return document.querySelector('.ring.chosen') && document.querySelector('#tool-circle').ariaPressed === 'true'")
        browser.keys(Keys.ESCAPE)
        radius = browser.js("return new Promise(done => setTimeout(() => done(Number(document.querySelector('.ring.chosen').getAttribute('r'))), 400))")
        expect(0.1 < radius < 0.14, f"circled by drag, sized by the wheel: {radius}")
        browser.js("document.querySelector('#schematic svg').scrollIntoView({block: 'center'})")
        spot = browser.text("#spot-0")
        browser.click("#spot-0")
        expect(browser.js("return document.querySelector('#sign-where-0').value") == spot, "the part of the schematic is where it is")
        svg = browser.find("#schematic svg")
        svg.click()
        expect(browser.js("return document.querySelector('#sign-where-0').value") != "", "a click on it picks the nearest part")
        browser.js("document.querySelector('#view-far').scrollIntoView({block: 'center'})")
        browser.click("#view-far")
        browser.keys("m")
        browser.drag(browser.on_photo("far", (0.3, 0.4)), browser.on_photo("far", (0.4, 0.4)))
        browser.keys(Keys.ESCAPE)
        on_far = r'<is [^>]*on-far="0\.(3|29)\d* 0\.\d+ 0\.(1|09)\d*"'
        ringed = browser.saved(lambda: browser.keys("w"))
        expect(re.search(on_far, open(ringed, encoding="utf-8").read()), "on the far photo the fitting is circled")
        expect(schema_accepts(ringed), "as the schema says")
        browser.drag(middle(shot), middle("[data-slot=far] .frame"))
        expect(not re.search(on_far, open(browser.saved(lambda: browser.keys("w")), encoding="utf-8").read()), "another far photo has no circle of the one before")
        browser.keys("u")
        browser.click("#no-circle-far")
        expect(not re.search(on_far, open(browser.saved(lambda: browser.keys("w")), encoding="utf-8").read()), "taken off it is not there")
        browser.keys("u")
        clean(browser, folder, "by pointer")
    finally:
        browser.close()
    survey = folder + "/survey.xml"
    before = open(survey, encoding="utf-8").read()
    taken = run("mark", survey, "--take", ringed)
    after = open(survey, encoding="utf-8").read()
    expect(taken.returncode == 0 and re.search(r'far="[^"]+" [^>]*on-far="0\.3', after), "and the survey says where: " + taken.stderr)
    open(survey, "w", encoding="utf-8").write(before)


def by_touch(folder):
    """390 pixels wide, with fingers."""
    browser = Browser(390, 844, work + "/saved", touch=True)
    try:
        browser.open(folder + "/marking.html")
        expect(browser.js("return document.documentElement.scrollWidth <= 390"), "nothing is wider than the screen")
        small = browser.js("return [...document.querySelectorAll('button')].filter(one => one.offsetParent && (one.offsetHeight < 24 || one.offsetWidth < 24)).map(one => one.textContent)")
        expect(not small, f"every button is large enough for a finger: {small}")
        browser.click("#open-list")
        browser.click("[data-fitting=spreader-tip-port]")
        expect(not browser.js("return document.querySelector('#list').classList.contains('out')"), "the list goes away again")

        def touch(kind, *points):
            browser.cdp("Input.dispatchTouchEvent", type=kind, touchPoints=[{"x": x, "y": y, "id": i} for i, (x, y) in enumerate(points)])

        def tap(selector):
            browser.js("document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", selector)
            x, y, w, h = browser.js("const b = document.querySelector(arguments[0]).getBoundingClientRect(); return [b.left, b.top, b.width, b.height]", selector)
            touch("touchStart", (x + w / 2, y + h / 2))
            touch("touchEnd")

        shot = browser.js("return '#' + [...document.querySelectorAll('.shot')].find(one => one.textContent.includes('A0098')).id")
        tap(shot)
        browser.wait("return document.querySelector('#in-hand').textContent.includes('A0098')")
        tap("#put-far")
        browser.wait("return document.querySelector('[data-slot=far] figcaption').textContent.includes('A0098')")
        expect(True, "a photo tapped, then the button: it is the far one")
        tap("#tool-circle")
        browser.js("document.querySelector('#view-close').scrollIntoView({block: 'center'})")
        a, b = browser.on_photo("close", (0.4, 0.3)), browser.on_photo("close", (0.6, 0.3))
        touch("touchStart", a)
        touch("touchMove", b)
        touch("touchEnd")
        radius = browser.wait("return Number(document.querySelector('.ring.chosen')?.getAttribute('r'))")
        expect(abs(radius - 0.2) < 0.02, f"circled by a finger: {radius}")
        c = browser.on_photo("close", (0.4, 0.5))
        touch("touchStart", a, c)
        touch("touchMove", a, browser.on_photo("close", (0.4, 0.4)))
        touch("touchEnd")
        smaller = browser.js("return new Promise(done => setTimeout(() => done(Number(document.querySelector('.ring.chosen').getAttribute('r'))), 500))")
        expect(abs(smaller - 0.1) < 0.03, f"and sized by two: {smaller}")
        clean(browser, folder, "by touch")
    finally:
        browser.close()


def in_all_languages(folder):
    for language, word in (("de", "Sichern"), ("es", "Guardar"), ("fr", "Enregistrer")):
        made = run("mark", folder + "/survey.xml", "-o", f"{folder}/{language}.html", "--language", language)
        browser = Browser(1280, 900, work + "/saved", dark=True)
        try:
            browser.open(f"{folder}/{language}.html")
            expect(made.returncode == 0 and word in browser.text("#save"), f"the page in {language}")
            clean(browser, folder, language)
        finally:
            browser.close()


def heic():
    """A telephone's picture gets a copy that a browser shows."""
    folder = work + "/heic"
    survey, _ = make(program, repository, folder, 2)
    subprocess.run(["heif-enc", "-q", "50", "-o", folder + "/photos/T1.heic", folder + "/photos/P0002.jpg"], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    made = run("mark", survey, "-o", folder + "/pages/look.html")
    expect(made.returncode != 0, "a folder that is not there is no place for a page")
    os.mkdir(folder + "/pages")
    made = run("mark", survey, "-o", folder + "/pages/look.html")
    expect(made.returncode == 0 and os.path.getsize(folder + "/pages/look-photos/T1.jpg") > 10000, "a copy lies beside the page: " + made.stderr)
    browser = Browser(1280, 900, work + "/saved")
    try:
        browser.open(folder + "/pages/look.html")
        browser.keys(Keys.ARROW_RIGHT * 2, "c")
        browser.wait("return document.querySelector('#view-close .large').naturalWidth > 1000")
        expect("T1" in browser.text("[data-slot=close] figcaption"), "and is what the page shows")
        clean(browser, folder, "HEIC")
    finally:
        browser.close()
    open(folder + "/mine.html", "w").write("<p>my own</p>")
    refused = run("mark", survey, "-o", folder + "/mine.html")
    expect(refused.returncode == 2 and "my own" in open(folder + "/mine.html").read(), "what is no such page is not overwritten")
    expect(run("mark", survey, "-o", survey, "--force").returncode == 2, "nor is the survey")


wanted = sys.argv[3:]
demo = None
for part in (by_keys, measured, by_pointer, by_touch, in_all_languages, heic):
    if wanted and part.__name__ not in wanted:
        continue
    try:
        if part in (by_keys, heic):
            part()
        else:
            demo = demo or small_demo()
            part(demo)
    except Exception:  # one part that breaks down is a failure, the others still run
        expect(False, part.__name__ + " came to no end: " + traceback.format_exc())

shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
