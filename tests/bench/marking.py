#!/usr/bin/python3
"""How soon the marking page of 300 photos shows something, and the next fitting, in Chromium.

usage: marking.py RUNS PAGE
"""
import os, statistics, sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), ".."))
from browser import Browser

runs, page = int(sys.argv[1]), os.path.abspath(sys.argv[2])
first, ready, following = [], [], []
for _ in range(runs):
    browser = Browser(1280, 900, "/tmp")
    try:
        browser.open(page)
        first.append(browser.wait("return performance.getEntriesByName('first-contentful-paint')[0]?.startTime"))
        ready.append(browser.js("return performance.getEntriesByType('navigation')[0].domComplete"))
        # From the key to the frame that shows it.
        following += browser.driver.execute_async_script("""
            const done = arguments[0], times = [];
            const step = () => {
                const from = performance.now();
                document.body.dispatchEvent(new KeyboardEvent("keydown", {key: "j", bubbles: true}));
                requestAnimationFrame(() => requestAnimationFrame(() => {
                    times.push(performance.now() - from);
                    times.length < 30 ? setTimeout(step, 20) : done(times);
                }));
            };
            step();""")
    finally:
        browser.close()
print(f"page: {os.path.getsize(page) / 1e6:.1f} MB")
print(f"first view: {statistics.median(first):.0f} ms (whole page {statistics.median(ready):.0f} ms)")
print(f"next fitting: {statistics.median(following):.0f} ms, at most {max(following):.0f} ms")
