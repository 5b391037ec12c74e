#!/usr/bin/python3
"""How soon the check page in Chromium tells what a report is, beside `verify --seal-only`.

usage: check_page.py RUNS RIGDEED REPORT
"""
import os, statistics, subprocess, sys, tempfile, time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from browser import Browser

runs, rigdeed, report = int(sys.argv[1]), sys.argv[2], os.path.abspath(sys.argv[3])
page = tempfile.mkdtemp() + "/check.html"
subprocess.run([rigdeed, "--quiet", "verify", "--page", "-o", page], check=True, stdout=subprocess.DEVNULL)
taken = {"page": [], "verify --seal-only": []}
browser = Browser(1280, 900, os.path.dirname(page))
try:
    for number in range(runs + 1):
        browser.open(page)
        browser.js("""
            const input = document.querySelector("#file");
            input.addEventListener("change", () => { window.from = performance.now(); }, {capture: true, once: true});
            new MutationObserver(() => { if (document.querySelector(".told")) window.took ??= performance.now() - window.from; }).observe(document.querySelector("#verdict"), {childList: true});""")
        browser.find("#file").send_keys(report)
        took = browser.wait("return window.took", 60)
        if not browser.js("return document.querySelector('.told.open') !== null"):
            sys.exit("the page does not say that the report is unchanged")
        started = time.monotonic()
        subprocess.run([rigdeed, "verify", report, "--seal-only"], stdout=subprocess.DEVNULL)
        if number > 0:  # the first run warms the caches
            taken["page"].append(took)
            taken["verify --seal-only"].append((time.monotonic() - started) * 1000)
finally:
    browser.close()
for name, times in taken.items():
    print(f"{name}: {statistics.median(times):.0f} ms ({min(times):.0f} to {max(times):.0f})")
print(f"report {os.path.getsize(report) / 1e6:.1f} MB, page {os.path.getsize(page) / 1e3:.0f} kB")
