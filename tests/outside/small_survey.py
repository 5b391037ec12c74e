#!/usr/bin/env python3
"""A small complete survey out of the demo's photos, for tests that need one quickly.

usage: small_survey.py PHOTO_FOLDER TARGET_FOLDER PAIRS [--gap] [--findings]
Writes TARGET_FOLDER/survey.xml and TARGET_FOLDER/photos; with --gap one fitting was not seen on the way down, with
--findings every fitting has one, so that its photos are printed large.
"""
import subprocess, sys
from pathlib import Path

source, target, pairs = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3])
gap = "--gap" in sys.argv[4:]
findings = "--findings" in sys.argv[4:]
sign = '><sign code="does-not-burn" where="lens" count="1" mark="0.5 0.4 0.1">Dark when switched on.</sign></seen>' if findings else "/>"

available = sorted(source.glob("*.jpg"))
(target / "photos").mkdir(parents=True)
photos = []
for i in range(2 * pairs):
    # More than there are: the same again, each time in other colours, so that no two pictures are the same.
    picture = available[i % len(available)]
    round_ = i // len(available)
    photo = target / "photos" / (available[i % len(available)].stem + (f"-{round_}" if round_ else "") + ".jpg")
    if round_:
        subprocess.run(["convert", str(picture), "-modulate", f"100,{100 - 9 * round_}", str(photo)], check=True)
    else:
        photo.write_bytes(picture.read_bytes())
    photos.append(photo)

fittings = []
for i in range(pairs):
    up, back = 600 + i, 1200 - i
    down = "" if gap and i == 0 else f'\n      <seen pass="down" at="{back // 60:02d}:{back % 60:02d}"/>'
    fittings.append(f"""    <fitting id="light-{i + 1}" kind="light" station="mast" height="{5 + i * 6 / pairs:.2f} m">
      <seen pass="up" at="{up // 60:02d}:{up % 60:02d}" far="{photos[2 * i].stem}" close="{photos[2 * i + 1].stem}" because="any two photos"{sign}{down}
    </fitting>""")
for number, (kind, station, height) in enumerate([("chainplate", "deck", 1), ("turnbuckle", "deck", 1), ("toggle", "deck", 1),
                                                  ("clevis-pin", "deck", 1), ("rod-head", "deck", 1.2), ("rod-head", "masthead", 11.8), ("rod", "mast", 9), ("tang", "masthead", 12)]):
    fittings.append(f"""    <fitting id="forestay-{number + 1}" kind="{kind}" stay="forestay" station="{station}" height="{height} m">
      <not-seen reason="under a cover"/>
    </fitting>""")

(target / "survey.xml").write_text(f"""<?xml version="1.0" encoding="UTF-8"?>
<rig-survey xmlns="urn:rigdeed:survey:1" number="T-1" purpose="periodic">
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
