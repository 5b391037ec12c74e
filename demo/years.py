#!/usr/bin/env python3
"""Two earlier years of the demo's yacht, made out of demo/survey.xml: fewer signs, less wear, other days. Their photos are
this year's under another date: they show that papers follow each other, not how a rig ages.

usage: years.py survey YEAR FOLDER      writes FOLDER/survey.xml and FOLDER/photos
       years.py works FOLDER [PICTURES] fills in FOLDER/works.xml; photos of before and after are taken from PICTURES
"""
import os, re, shutil, sys
from pathlib import Path

demo = Path(__file__).resolve().parent
TODAY = "2026-09-15"
# Number, day, the signs of 2026 that were there already, what a hole measured, and what else was wrong then.
YEARS = {
    "2024": ("2024-31", "2024-08-20", {"algae", "drain-blocked", "chafed", "hidden", "legs-wide"}, "12.3 mm", {}),
    "2025": ("2025-77", "2025-09-02", {"algae", "drain-blocked", "chafed", "hidden", "legs-wide", "tea-stain", "not-seized", "pin-worn", "thread-marginal"}, "12.5 mm",
             {"backstay-pin": '<sign code="head-down">Fitted from below.</sign>'}),
}


def without_signs(text, kept):
    return re.sub(r"\s*<sign code=\"([a-z-]+)\".*?(?:</sign>|/>)", lambda sign: sign.group(0) if sign.group(1) in kept else "", text, flags=re.S)


def with_sign(text, fitting, sign):
    place = re.search(r'(<fitting id="%s".*?<seen pass="up"[^>]*?)(/>|>\s*</seen>)' % re.escape(fitting), text, flags=re.S)
    if not place:
        sys.exit(f"years.py: {fitting} is not seen on the way up in demo/survey.xml")
    return text[:place.start(2)] + ">" + sign + "</seen>" + text[place.end(2):]


def survey(year, folder):
    number, day, kept, hole, added = YEARS[year]
    (folder / "photos").mkdir(parents=True)
    for photo in sorted((demo / "photos").iterdir()):
        (folder / "photos" / photo.name).write_bytes(photo.read_bytes().replace(TODAY.replace("-", ":").encode(), day.replace("-", ":").encode()))
    text = without_signs((demo / "survey.xml").read_text(encoding="utf-8"), kept)
    for fitting, sign in added.items():
        text = with_sign(text, fitting, sign)
    for old, new in (('number="2026-118"', f'number="{number}"'), (f'on="{TODAY}"', f'on="{day}"'), ('what="hole-diameter" value="12.8 mm"', f'what="hole-diameter" value="{hole}"')):
        if text.count(old) != 1:
            sys.exit(f"years.py: {old} does not stand once in demo/survey.xml")
        text = text.replace(old, new)
    (folder / "survey.xml").write_text(text, encoding="utf-8")


def works(folder, pictures):
    path = folder / "works.xml"
    text = path.read_text(encoding="utf-8")
    text = text.replace('number="?">', 'number="W-2025-4">', 1)
    text = text.replace('<rigger name="?" firm="?" qualification="?" contact="?"/>', '<rigger name="Per Holmen" firm="Holmen Rigging" qualification="rigger" contact="Larrenholm"/>')
    taken = iter(sorted(pictures.glob("*.jpg"))) if pictures else iter(())

    def answer(item):
        words = item.group(0)
        number = re.search(r'number="(\d+)"', words).group(1)
        if "clevis pin" in item.group(1) and pictures:
            names = []
            for role in ("before", "after"):
                name = f"W{number}{role[0]}"
                shutil.copy(next(taken), folder / "photos" / (name + ".jpg"))
                names.append(name)
            words = words.replace('done="?" on="?" before="?" after="?"', f'done="yes" on="2025-10-14" before="{names[0]}" after="{names[1]}"')
            return re.sub(r"\?(\s*</item>)", r'<part what="clevis pin, 316, 12 mm" certificate="HR-2291"/>A new pin, split pin with it.\1', words)
        words = words.replace('done="?" on="?" before="?" after="?"', 'done="no" on="2025-10-14"')
        words = re.sub(r"\s*<renewed[^>]*/>", "", words)
        return re.sub(r"\?(\s*</item>)", r"Left for the winter.\1", words)

    text = re.sub(r'  <item number="\d+" asks="([^"]*)".*?</item>', answer, text, flags=re.S)
    path.write_text(text, encoding="utf-8")


if len(sys.argv) == 4 and sys.argv[1] == "survey" and sys.argv[2] in YEARS:
    survey(sys.argv[2], Path(sys.argv[3]))
elif len(sys.argv) in (3, 4) and sys.argv[1] == "works":
    works(Path(sys.argv[2]), Path(sys.argv[3]) if len(sys.argv) == 4 else None)
else:
    sys.exit(__doc__)
