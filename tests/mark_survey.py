#!/usr/bin/env python3
"""A started survey with photos that no one has paired yet, for the marking page.

usage: mark_survey.py PROGRAM REPOSITORY FOLDER PHOTOS [--hostile]
"""
import datetime, os, re, struct, subprocess, sys

HOSTILE_NAME = "<img src=x onerror=document.title='hit'>&amp;\"'"
HOSTILE_YACHT = "</script><script>document.title='hit'</script><img src=x onerror=document.title='hit'>"


def with_time(jpeg, when):
    """The picture with no other Exif than its time."""
    at = 2
    while jpeg[at + 1] in (0xE0, 0xE1, 0xFE):
        at += 2 + struct.unpack(">H", jpeg[at + 2:at + 4])[0]
    text = when.strftime("%Y:%m:%d %H:%M:%S").encode() + b"\0"
    tiff = b"II*\0" + struct.pack("<I", 8)
    tiff += struct.pack("<HHHIII", 1, 0x8769, 4, 1, 26, 0)
    tiff += struct.pack("<HHHIII", 1, 0x9003, 2, len(text), 44, 0) + text
    exif = b"Exif\0\0" + tiff
    return jpeg[:2] + b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif + jpeg[at:]


def make(program, repository, folder, count, hostile=False):
    subprocess.run([program, "--quiet", "start", "ketch", "-o", folder], check=True, stdout=subprocess.DEVNULL)
    path = folder + "/survey.xml"
    text = open(path).read()
    day = datetime.date.fromisoformat(re.search(r'<attendance on="([0-9-]+)', text).group(1))
    text = text.replace("  <fittings>\n", "  <fittings>\n    <!-- she lay port side to -->\n", 1)
    if hostile:
        text = re.sub(r'<yacht name="[^"]*"', '<yacht name="%s"' % HOSTILE_YACHT.replace("&", "&amp;").replace("<", "&lt;"), text)
    open(path, "w").write(text)
    pictures = sorted(name for name in os.listdir(repository + "/demo/photos") if name.endswith(".jpg"))
    names = []
    for i in range(count):
        jpeg = open(f"{repository}/demo/photos/{pictures[i % len(pictures)]}", "rb").read()
        when = datetime.datetime.combine(day, datetime.time(9)) + datetime.timedelta(seconds=40 * i)
        name = HOSTILE_NAME if hostile and i == 2 else f"P{i + 1:04}"
        names.append(name)
        open(f"{folder}/photos/{name}.jpg", "wb").write(with_time(jpeg, when))
    return path, names


if __name__ == "__main__":
    make(*sys.argv[1:4], int(sys.argv[4]), "--hostile" in sys.argv)
