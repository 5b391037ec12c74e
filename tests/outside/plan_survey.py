#!/usr/bin/env python3
"""A complete survey of any plan with findings, out of the demo's photos.

usage: plan_survey.py PROGRAM REPOSITORY PLAN FOLDER FINDINGS [LANGUAGE]
Starts the plan, photographs each fitting on the way up and sees it once more on the way down. FINDINGS fittings, spread
over the rig, bear signs of their kind one after the other, each with its place, a circle on the close photo and the ring
on the far one; every ninth fitting was not seen, with a reason. LANGUAGE is what the surveyor's words are said to be in.
"""
import json, os, re, subprocess, sys
import xml.etree.ElementTree as tree

program, repository, plan, folder, wanted = sys.argv[1:6]
language = sys.argv[6] if len(sys.argv) > 6 else ""
wanted = int(wanted)
T = "{urn:rigdeed:templates:1}"
S = "{urn:rigdeed:survey:1}"


def signs_of_kinds():
    """kind -> its signs: code, the place it shows at, whether it bars climbing."""
    kinds = {}
    for name in sorted(os.listdir(repository + "/templates/kinds")):
        for kind in tree.parse(f"{repository}/templates/kinds/{name}").getroot().iter():
            if kind.tag.endswith("kind") and kind.get("id"):
                kinds[kind.get("id")] = [(sign.get("code"), sign.get("at", ""), sign.get("bars")) for sign in kind if sign.tag.endswith("sign")]
    return kinds


def demo_photos():
    """kind -> pairs of photos of such fittings in the demo."""
    pairs = {}
    for fitting in tree.parse(repository + "/demo/survey.xml").getroot().iter(S + "fitting"):
        for seen in fitting.iter(S + "seen"):
            if seen.get("far") and seen.get("close"):
                pairs.setdefault(fitting.get("kind"), []).append((seen.get("far"), seen.get("close")))
    return pairs


subprocess.run([program, "--quiet", "start", plan, "-o", folder], check=True, stdout=subprocess.DEVNULL)
path = folder + "/survey.xml"
text = open(path).read().replace(' ?"', '"').replace('yacht name="?"', 'yacht name="Plover"').replace('"?"', '"Invented"')
text = re.sub(r'attendance on="[^"]*"', 'attendance on="2026-09-15"', text)
text = re.sub(r'(<stay [^>]*)/>', r'\1 fitted="2011-05" age-source="owner"/>', text)
text = re.sub(r'<photos folder="photos"/>', '<photos folder="photos" dated="unknown" because="the camera\'s clock had never been set"/>', text)
if language:
    text = text.replace(' number="', f' written-in="{language}" number="', 1)
kinds, pictures = signs_of_kinds(), demo_photos()
every = [pair for pairs in pictures.values() for pair in pairs]
fittings = re.findall(r'<fitting [^>]*kind="([^"]+)"[^>]*/>', text)
step = max(1, len(fittings) // max(1, wanted))
used, number, bad, turn, far, ends = {}, 0, 0, {}, "", 0


def without_exif(data):
    """The JPEG without its Exif: its time is that of another fitting."""
    at, kept = 2, data[:2]
    while data[at + 1] != 0xDA:
        end = at + 2 + int.from_bytes(data[at + 2:at + 4], "big")
        if data[at + 1] != 0xE1:
            kept += data[at:end]
        at = end
    return kept + data[at:]


def photo(name):
    """The photo without its time, under a name and, but for the first, in colours of its own: the same picture twice would be a gap."""
    used[name] = used.get(name, 0) + 1
    copy = f"{name}-{used[name]}"
    target = f"{folder}/photos/{copy}.jpg"
    if used[name] == 1:
        open(target, "wb").write(without_exif(open(f"{repository}/demo/photos/{name}.jpg", "rb").read()))
    else:
        subprocess.run(["convert", f"{repository}/demo/photos/{name}.jpg", "-strip", "-modulate", f"100,{104 - 4 * used[name]},{98 + 2 * used[name]}", target], check=True)
    return copy


def looks(match):
    global number, bad, far, ends
    number += 1
    kind = match.group(2)
    if number % 9 == 0:
        return match.group(1) + '>\n      <not-seen reason="behind the covering of the mast, which could not be taken off"/>\n    </fitting>'
    up, down = 8 * 60 + number, 23 * 60 + 59 - number
    choices = pictures.get(kind, every)
    pair = choices[number % len(choices)] if kind in pictures else every[number * 7 % len(every)]
    if number > ends:  # one photo from far for four fittings beside each other
        far, ends = photo(pair[0]), number + 3
    close = photo(pair[1])
    sign, ring, despite = "", "", ""
    if bad < wanted and number % step == 0 and kinds.get(kind):
        turn[kind] = turn.get(kind, 0) + 1
        code, where, bars = kinds[kind][(turn[kind] + bad) % len(kinds[kind])]
        place = f' where="{where}"' if where else ""
        sign = f'<sign code="{code}"{place} mark="0.{40 + bad % 20} 0.4 0.1">Seen twice, in the sun and under the lamp; the second look changed nothing.</sign>'
        ring = ' on-far="0.5 0.45 0.12"'
        if bars != "no":
            despite = f'\n      <climbed despite="{code}" because="on two halyards of the other mast and from a lift beside the mast"/>'
        bad += 1
    return (match.group(1) + ">\n"
            f'      <seen pass="up" at="{up // 60:02}:{up % 60:02}" far="{far}" close="{close}" because="any two photos"{ring}>{sign}</seen>\n'
            f'      <seen pass="down" at="{down // 60:02}:{down % 60:02}"/>{despite}\n    </fitting>')


text = re.sub(r'(<fitting [^>]*kind="([^"]+)"[^>]*[^/])/>', looks, text)
open(path, "w").write(text)
print(f"{number} fittings, {bad} of them with findings")
