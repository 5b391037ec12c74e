#!/usr/bin/env python3
"""Reads veraPDF's XML report: did every file named conform to the flavour?

usage: verapdf_says.py XML FLAVOUR REPORT…
A REPORT is a file's path without ".pdf". Prints "N passed, N failed".
"""
import sys
import xml.etree.ElementTree as ElementTree

xml, flavour, *reports = sys.argv[1:]
PROFILES = {"3b": "PDF/A-3B", "3u": "PDF/A-3U", "ua1": "PDF/UA-1"}
passed = failed = 0
try:
    jobs = {job.findtext("item/name"): job for job in ElementTree.parse(xml).getroot().iter("job")}
except (ElementTree.ParseError, FileNotFoundError) as error:
    print("FAILED: veraPDF gave no report:", error)
    jobs = {}

for report in reports:
    job = jobs.get(report + ".pdf")
    verdict = None if job is None else job.find("validationReport")
    rules = 0 if verdict is None else int(verdict.find("details").get("passedRules"))
    profile = "" if verdict is None else verdict.get("profileName", "")
    if verdict is not None and verdict.get("isCompliant") == "true" and rules > 100 and profile.startswith(PROFILES[flavour]):
        passed += 1
        continue
    failed += 1
    print(f"FAILED: {report}.pdf follows {PROFILES[flavour]} ({profile or 'not judged'}, {rules} rules passed)")
    for rule in [] if verdict is None else verdict.iter("rule"):
        if rule.get("status") == "failed":
            print(f"    {rule.get('specification')} {rule.get('clause')}: {rule.findtext('description')}")
            print(f"    {rule.findtext('check/context')}")

print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
