#!/usr/bin/env python3
"""Writes ../started.xml, the demo as it stood before anybody looked at a photo, and ../marks.xml, what the marking page
saves when all that ../survey.xml says of photos has been said on it."""
import hashlib
import os
import re
import xml.etree.ElementTree as ElementTree
from xml.sax.saxutils import quoteattr, escape

DEMO = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
NS = "{urn:rigdeed:survey:1}"
ATTRIBUTES = {"look": ("at", "far", "on-far", "close", "because"), "sign": ("code", "where", "count", "length", "mark"), "not-seen": ("reason",), "other": ("shows", "is")}


def statement(name, where, element):
    cell = "".join(" %s=%s" % (one, quoteattr(element.get(one))) for one in ATTRIBUTES[name] if element.get(one))
    words = " ".join((element.text or "").split()) if name == "sign" else ""
    place = "".join(" %s=%s" % pair for pair in ((one, quoteattr(value)) for one, value in where.items()))
    return "  <%s%s>\n    <is%s%s\n  </%s>\n" % (name, place, cell, ">%s</is>" % escape(words) if words else "/>", name)


def main():
    survey = open(DEMO + "/survey.xml", encoding="utf-8").read()
    started = re.sub(r"\n *<(seen|not-seen|other)\b[^>]*/>", "", survey)
    started = re.sub(r"\n *<seen\b.*?</seen>", "", started, flags=re.S)
    started = re.sub(r"<(fitting|photos)\b([^>]*[^/])>\s*</\1>", r"<\1\2/>", started)
    root = ElementTree.fromstring(survey)
    body = ""
    for other in root.iter(NS + "other"):
        body += statement("other", {"name": other.get("name")}, other)
    for fitting in root.iter(NS + "fitting"):
        for seen in fitting.findall(NS + "seen"):
            where = {"fitting": fitting.get("id"), "pass": seen.get("pass")}
            body += statement("look", where, seen)
            for sign in seen.findall(NS + "sign"):
                body += statement("sign", where, sign)
        for unseen in fitting.findall(NS + "not-seen"):
            where = {"fitting": fitting.get("id")}
            if unseen.get("pass"):
                where["pass"] = unseen.get("pass")
            body += statement("not-seen", where, unseen)
    digest = hashlib.sha256(started.encode()).hexdigest()
    open(DEMO + "/started.xml", "w", encoding="utf-8").write(started)
    open(DEMO + "/marks.xml", "w", encoding="utf-8").write(
        '<?xml version="1.0" encoding="UTF-8"?>\n<rig-marks xmlns="urn:rigdeed:marks:1" number="%s" survey-sha256="%s">\n%s</rig-marks>\n' % (root.get("number"), digest, body))


if __name__ == "__main__":
    main()
