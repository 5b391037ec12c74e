#!/usr/bin/env python3
"""A survey larger than any rig: N fittings, four photos each, every fifth with a finding. The photos are small copies of
a few, a square in each in another place, so that no two are the same picture.

usage: large_survey.py PHOTO_FOLDER TARGET_FOLDER FITTINGS
Needs ImageMagick.
"""
import subprocess, sys
from pathlib import Path

source, target, count = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3])
(target / "photos").mkdir(parents=True)
pictures = sorted(source.glob("*.jpg"))[:25]
WIDE, HIGH, STEP = 640, 480, 16
for number, path in enumerate(pictures):
    words = ["convert", path, "-auto-orient", "-resize", f"{WIDE}x{HIGH}!", "-quality", "80", "-fill", "black"]
    for turn, i in enumerate(range(number, 4 * count, len(pictures))):
        x, y = turn * STEP % WIDE, turn * STEP // WIDE * STEP
        words += ["(", "+clone", "-draw", f"rectangle {x},{y} {x + 9},{y + 9}", "-write", target / "photos" / f"P{i + 1:05d}.jpg", "+delete", ")"]
    subprocess.run([*words, "null:"], check=True)

fittings = []
for i in range(count):
    up, back = 540 + i // 4, 1200 - i // 4
    names = [f"P{4 * i + k + 1:05d}" for k in range(4)]
    sign = '><sign code="does-not-burn" where="lens" count="1" mark="0.5 0.4 0.1">Dark when switched on.</sign></seen>' if i % 5 == 4 else "/>"
    fittings.append(f"""    <fitting id="light-{i + 1}" kind="light" station="mast" height="{5 + i * 6 / count:.3f} m">
      <seen pass="up" at="{up // 60:02d}:{up % 60:02d}" far="{names[0]}" close="{names[1]}" because="any two photos"{sign}
      <seen pass="down" at="{back // 60:02d}:{back % 60:02d}" far="{names[2]}" close="{names[3]}" because="any two photos"/>
    </fitting>""")
for number, (kind, station, height) in enumerate([("chainplate", "deck", 1), ("turnbuckle", "deck", 1), ("toggle", "deck", 1),
                                                  ("clevis-pin", "deck", 1), ("rod-head", "deck", 1.2), ("rod-head", "masthead", 11.8), ("rod", "mast", 9), ("tang", "masthead", 12)]):
    fittings.append(f"""    <fitting id="forestay-{number + 1}" kind="{kind}" stay="forestay" station="{station}" height="{height} m">
      <not-seen reason="under a cover"/>
    </fitting>""")
(target / "survey.xml").write_text(f"""<?xml version="1.0" encoding="UTF-8"?>
<rig-survey xmlns="urn:rigdeed:survey:1" number="L-1" purpose="periodic">
  <surveyor name="A. Surveyor"/>
  <client name="An Owner" role="owner"/>
  <yacht name="Test Yacht" rig="cat" mast="aluminium" loa="10 m"/>
  <attendance on="2026-09-15" place="a harbour" climbed="yes"/>
  <photos folder="photos"/>
  <rig choices="shrouds=0">
    <stay id="forestay" role="forestay" side="centre" make="rod" alloy="316" diameter="8 mm"/>
{chr(10).join(f'    <absent kind="{kind}" because="left out of the test"/>' for kind in ("masthead", "mast-wall", "mast-step", "gooseneck", "sheave-box"))}
  </rig>
  <fittings>
{chr(10).join(fittings)}
  </fittings>
</rig-survey>
""", encoding="utf-8")
