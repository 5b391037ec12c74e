#!/usr/bin/python3
"""What axe-core has against the marking page and the check page (WCAG 2.2 A and AA, and its best practices), on every view of them.

usage: axe_says.py PROGRAM REPOSITORY AXE_SCRIPT
Needs chromium, chromium-driver, python3-selenium. Prints "N passed, N failed".
"""
import os, re, shutil, subprocess, sys, tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from browser import Browser, Keys

program, repository, axe = map(os.path.abspath, sys.argv[1:4])
work = tempfile.mkdtemp(prefix="rigdeed-axe-")
passed = failed = 0
os.makedirs(work + "/demo/photos")
for name in ("A0012", "A0013", "A0065", "A0066", "A0111", "A0112"):
    shutil.copy(f"{repository}/demo/photos/{name}.jpg", work + "/demo/photos")
shutil.copy(repository + "/demo/survey.xml", work + "/demo")
subprocess.run([program, "mark", work + "/demo/survey.xml"], check=True, capture_output=True)
subprocess.run([program, "verify", "--page", "-o", work + "/check.html"], check=True, capture_output=True)
script = open(axe, encoding="utf-8").read()

# What to type or press before looking, from the page as it opens.
VIEWS = {
    "a fitting": [],
    "a sign": [("click", "[data-fitting=spreader-tip-port]")],
    "the list of signs": [("keys", "i")],
    "circling": [("click", "[data-fitting=spreader-tip-port]"), ("keys", "m")],
    "giving the scale": [("click", "[data-fitting=spreader-tip-port]"), ("keys", "s", Keys.ENTER, Keys.ARROW_RIGHT * 10, Keys.ENTER)],
    "measured": [("click", "[data-fitting=spreader-tip-port]"), ("keys", "g", Keys.ENTER, Keys.ARROW_RIGHT * 10, Keys.ENTER, Keys.ARROW_LEFT * 10, Keys.ENTER, Keys.ARROW_UP * 10, Keys.ENTER)],
    "the other pass": [("keys", "p")],
    "another photo": [("keys", "o")],
    "saved": [("keys", "w")],
    "keys": [("click", "#help")],
}
# The check page: what is given to it, and which result it then shows.
ISSUED = repository + "/fixtures/issued/0.1.0-"
PRINT = re.search(r"`0\.1\.0-rsa\.pdf`.* ([0-9a-f]{64}) ", open(repository + "/fixtures/issued/README.md", encoding="utf-8").read()).group(1)
CHECKS = {
    "as it opens": (None, "", ""), "good": (ISSUED + "rsa.pdf", PRINT, "good"), "open": (ISSUED + "chain-timestamp-es.pdf", "", "open"),
    "another key": (ISSUED + "rsa.pdf", "0" * 64, "bad"), "not as sealed": (repository + "/demo/photos/A0012.jpg", "no fingerprint", "bad"),
}


def look(browser, view, width, dark):
    """What axe-core finds in what is shown now."""
    global passed, failed
    browser.js(script + "; window.axe = axe;")
    found = browser.driver.execute_async_script("axe.run(document).then(arguments[0])")
    bad = [f"{one['id']}: {one['help']}: {one['nodes'][0]['html'][:160]}" for one in found["violations"]]
    if bad or len(found["passes"]) < 15:
        failed += 1
        print(f"FAILED: {view}, {width} px, {'dark' if dark else 'light'}: {len(found['passes'])} rules held; " + "; ".join(bad))
    else:
        passed += 1


for width, dark in ((1280, False), (1280, True), (390, True)):
    browser = Browser(width, 900, work + "/saved", touch=width == 390, dark=dark)
    try:
        for view, steps in {**VIEWS, **({"the drawer": [("click", "#open-list")]} if width == 390 else {})}.items():
            browser.open(work + "/demo/marking.html")
            for act, *words in steps:
                if width == 390 and words[0].startswith("[data-fitting"):
                    browser.click("#open-list")
                getattr(browser, act)(*words)
            look(browser, view, width, dark)
        for view, (file, fingerprint, result) in CHECKS.items():
            browser.open(work + "/check.html")
            browser.js("document.querySelector('#print').focus()")
            if fingerprint:
                browser.keys(fingerprint)
            if file:
                browser.js("document.querySelector('#file').removeAttribute('accept')")
                browser.find("#file").send_keys(file)
                browser.wait(f"return document.querySelector('.told.{result}') !== null")
            look(browser, "the check page, " + view, width, dark)
        if width == 1280 and not dark:
            # That it can say no: a button without a name.
            browser.open(work + "/demo/marking.html")
            browser.js(script + "; window.axe = axe;")
            browser.js("document.querySelector('#previous').removeAttribute('aria-label'); document.querySelector('#previous').textContent = ''")
            found = browser.driver.execute_async_script("axe.run(document).then(arguments[0])")
            said = [one["id"] for one in found["violations"]]
            if "button-name" in said:
                passed += 1
            else:
                failed += 1
                print(f"FAILED: a button without a name passes: {said}")
    finally:
        browser.close()
shutil.rmtree(work)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
