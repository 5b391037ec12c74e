#!/usr/bin/env python3
"""The survey over the photos of the benchmark: fittings of which every fifth has a finding, four photos each.

usage: survey.py FOLDER FITTINGS
Writes FOLDER/survey.xml, and FOLDER/sizes.txt: each photo with the longer side at which it is printed, in pixels.
"""
import sys
from pathlib import Path

folder, count = Path(sys.argv[1]), int(sys.argv[2])
ABSENT = ("masthead", "mast-wall", "mast-step", "gooseneck", "sheave-box")
SOUND, FINDING = 317, 950  # 76 pt and 228 pt at 300 dpi

fittings, sizes = [], []
for i in range(count):
    # Up takes the first half of the photos, down the second, from the top.
    up, down = 2 * i, 4 * count - 2 * (i + 1)
    names = [f"P{n + 1:04d}" for n in (up, up + 1, down, down + 1)]
    finding = i % 5 == 4
    sizes += [f"{name}.jpg {FINDING if finding else SOUND}" for name in names]

    def clock(photo):
        seconds = 9 * 3600 + (photo + 1) * 40
        return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}"

    sign = '\n        <sign code="does-not-burn" where="lens" count="1" mark="0.5 0.4 0.1">Dark when switched on.</sign>\n      ' if finding else ""
    fittings.append(f"""    <fitting id="light-{i + 1}" kind="light" station="mast" height="{3 + i * 9 / count:.2f} m">
      <seen pass="up" at="{clock(up + 1)}" far="{names[0]}" close="{names[1]}">{sign}</seen>
      <seen pass="down" at="{clock(down + 1)}" far="{names[2]}" close="{names[3]}"/>
    </fitting>""")
for number, kind in enumerate(["chainplate", "turnbuckle", "toggle", "clevis-pin", "rod-head", "rod", "rod-head", "tang"]):
    fittings.append(f"""    <fitting id="forestay-{number + 1}" kind="{kind}" stay="forestay" station="{'deck' if number < 5 else 'masthead'}" height="{1 if number < 5 else 12.5} m">
      <not-seen reason="under a cover"/>
    </fitting>""")

(folder / "sizes.txt").write_text("\n".join(sizes) + "\n")
(folder / "survey.xml").write_text(f"""<?xml version="1.0" encoding="UTF-8"?>
<rig-survey xmlns="urn:rigdeed:survey:1" number="B-1" purpose="periodic">
  <surveyor name="A. Surveyor"/>
  <client name="An Owner" role="owner"/>
  <yacht name="Test Yacht" rig="cat" mast="aluminium" loa="10 m"/>
  <attendance on="2026-10-03" place="a harbour" climbed="yes"/>
  <photos folder="photos"/>
  <rig choices="shrouds=0">
    <stay id="forestay" role="forestay" side="centre" make="rod" alloy="316" diameter="8 mm"/>
{chr(10).join(f'    <absent kind="{kind}" because="left out of the benchmark"/>' for kind in ABSENT)}
  </rig>
  <fittings>
{chr(10).join(fittings)}
  </fittings>
</rig-survey>
""", encoding="utf-8")
