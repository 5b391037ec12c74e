#!/usr/bin/env python3
"""Renders the pictures of the demo. See ../README.md."""
import math, os, subprocess, sys, time
from world import *

HERE = os.path.dirname(os.path.abspath(__file__))
WORK = os.environ.get("RENDER_WORK", "/tmp/rigdeed-render")


def camera_basis(cam, target, roll=0.0):
    d = unit(sub(target, cam))
    up = (0, 1, 0) if abs(d[1]) < .985 else (0, 0, 1)
    r = unit(cross(up, d))
    u = cross(d, r)
    c, s = math.cos(math.radians(roll)), math.sin(math.radians(roll))
    return d, add(mul(r, c), mul(u, s)), sub(mul(u, c), mul(r, s))


def project(cam, target, hfov, aspect, p, roll=0.0):
    """Where point p falls: x and y in widths of the picture, from its top left corner."""
    d, r, u = camera_basis(cam, target, roll)
    v = sub(p, cam)
    z = dot(v, d)
    t = math.tan(math.radians(hfov / 2))
    x, y = dot(v, r) / z / t / 2, dot(v, u) / z / t / 2
    return (.5 + x, .5 / aspect - y)


WIDE = 67.3       # across the long side of a 4:3 frame at 26 mm


def hfov(portrait):
    return WIDE if not portrait else math.degrees(2 * math.atan(math.tan(math.radians(WIDE / 2)) * 3 / 4))


def world_file():
    w = World().build()
    os.makedirs(WORK, exist_ok=True)
    path = os.path.join(WORK, "world.inc")
    text = "\n".join(w.decl) + "\n#macro WorldObjects()\n" + "\n".join(w.out) + "\n#end\n"
    with open(path + ".new", "w") as f:
        f.write(text)
    os.replace(path + ".new", path)      # another run may be reading it
    return w


def scene(shot, hide, small):
    cam, tgt = shot["cam"], shot["target"]
    d, r, u = camera_basis(cam, tgt, shot.get("roll", 0))
    a = shot["aspect"]
    dist = length(sub(cam, tgt))
    off = add(mul(r, 9 if not shot.get("portrait") else 3), mul(u, 12))
    fd = shot.get("flash_at", dist)
    o = ["#version 3.7;", "global_settings { assumed_gamma 1.0 max_trace_level 3 }"]
    o.append("#declare Hide = array[%d]" % N_GROUPS)
    o += ["#declare Hide[%d] = %d;" % (i, 1 if i in hide else 0) for i in range(N_GROUPS)]
    o.append("#macro Vis(N) #if (Hide[N]) no_image #end #end")
    o.append("#declare Sun = <%g,%g,%g>;" % tuple(shot.get("sun", (-.6, .8, -.45))))
    for i in ("materials", "fittings", "boat", "gear", "sky"):
        o.append('#include "%s/%s.inc"' % (HERE, i))
    o.append('#include "%s/world.inc"' % WORK)
    t = math.tan(math.radians(shot["hfov"] / 2))
    o.append("camera { perspective location %s direction %s right %s*%g up %s*%g }" % (
        pov9(cam), pov9(d), pov9(r), 2 * t, pov9(u), 2 * t / a))
    o.append("Day(%g,%g)" % (shot.get("sky", 1), shot.get("grey", .2)))
    if shot.get("flash", 1):
        o.append("FlashLight(%s,%s,%g,%g)" % (pov9(cam), pov9(off), fd, shot.get("flash", .75)))
    o.append("Harbour(%d)" % 7)
    o.append("WorldObjects()")
    return "\n".join(o) + "\n"


def pov9(v): return "<%.9g,%.9g,%.9g>" % tuple(v)


def run_pov(text, name, w, h, alpha, aa):
    src, dst = os.path.join(WORK, name + ".pov"), os.path.join(WORK, name + ".png")
    with open(src, "w") as f:
        f.write(text)
    cmd = ["nice", "-n", "10", "povray", "+I" + src, "+O" + dst, "+W%d" % w, "+H%d" % h, "-D", "+FN", "+WT1", "-GD", "-GR", "-GS",
           "+UA" if alpha else "-UA"]
    cmd += ["+A%g" % aa, "+AM1", "+R2"] if aa else ["-A"]
    r = subprocess.run(cmd, capture_output=True, text=True)
    if r.returncode:
        sys.exit(r.stderr[-3000:])
    return dst


def render(shot, scale=1.0, aa=.3):
    w, h = (1200, 1600) if shot.get("portrait") else (1600, 1200)
    w, h = int(w * scale), int(h * scale)
    n = shot["name"]
    if shot.get("focus"):
        focus = {G[g] for g in shot["focus"]}
        others = {i for i in range(N_GROUPS) if i not in focus}
        front = run_pov(scene(shot, others, scale), n + "-f", w, h, True, aa)
        back = run_pov(scene(shot, focus, scale), n + "-b", w // 3, h // 3, False, 0)
        b = shot.get("blur", 5) * scale
        out = os.path.join(WORK, n + ".png")
        subprocess.run(["convert", "(", back, "-blur", "0x%g" % b, "-resize", "%dx%d!" % (w, h), ")", front,
                        "-composite", out], check=True)
        return out
    return run_pov(scene(shot, set(), scale), n, w, h, False, aa)


def develop(shot, png, out):
    """What the camera does with it: a little grain, contrast and fall-off to the corners, then JPEG at a fair size."""
    w, h = (1200, 1600) if shot.get("portrait") else (1600, 1200)
    seed = int(shot["name"][1:])
    warm = 100 + (seed * 7 % 9 - 4) * .5
    tmp = os.path.join(WORK, shot["name"] + "-d.png")
    turn = {6: ["-rotate", "-90"], 8: ["-rotate", "90"]}.get(shot["orientation"], [])
    subprocess.run(["convert", png, "-alpha", "off", "-filter", "Mitchell", "-resize", "%dx%d!" % (w, h),
                    "-channel", "R", "-evaluate", "multiply", "%.3f" % (warm / 100), "+channel",
                    "-evaluate", "multiply", "1.12", "-sigmoidal-contrast", "2.2x46%",
                    "(", "-size", "%dx%d" % (w, h), "radial-gradient:white-gray84", ")", "-compose", "multiply", "-composite",
                    "-seed", str(seed), "-attenuate", ".05", "+noise", "Gaussian", "-unsharp", "0x0.8+0.5+0.02"] + turn + ["-depth", "8", "-strip", tmp], check=True)
    # straw and grained metal cost most: there the lens is a little softer
    for soft in (0, .7, 1):
        if soft:
            subprocess.run(["convert", tmp, "-blur", "0x%g" % soft, tmp], check=True)
        lo, hi = 44, 86
        while True:
            q = (lo + hi) // 2
            subprocess.run(["convert", tmp, "-sampling-factor", "2x2", "-quality", str(q), "-type", "TrueColor", out], check=True)
            size = os.path.getsize(out)
            if hi - lo <= 2:
                break
            lo, hi = (q, hi) if size < 55000 else (lo, q)
        if size < 74000:
            break
    os.remove(tmp)
    return size


def exif(shot, out):
    when = shot["when"] - shots.CLOCK
    sub_ = "%02d" % (int(shot["name"][1:]) * 37 % 100)
    t = when.strftime("%Y:%m:%d %H:%M:%S")
    flash = 0x19 if shot.get("flash") else 0x10
    tags = ["-Make=Tarnholt", "-Model=Tarnholt Dock 3", "-ExifIFD:DateTimeOriginal=" + t, "-ExifIFD:CreateDate=" + t, "-ModifyDate=" + t,
            "-ExifIFD:SubSecTimeOriginal=" + sub_, "-ExifIFD:OffsetTimeOriginal=+02:00", "-ExifIFD:Flash#=%d" % flash,
            "-FocalLength=4.5", "-FocalLengthIn35mmFormat=26", "-ExposureTime=1/%d" % (60 if flash == 0x19 else 250), "-FNumber=2.4",
            "-ISO=%d" % (80 + int(shot["name"][1:]) * 13 % 5 * 20), "-Orientation#=%d" % shot["orientation"], "-ColorSpace=sRGB"]
    if shot["what"] != "other":
        tags.append("-SubjectDistance=%.3f" % (shot["dist"] / 1000))
    subprocess.run(["exiftool", "-q", "-overwrite_original"] + tags + [out], check=True)


if __name__ == "__main__":
    world = world_file()
    import shots
    import survey
    F, todo = shots.plan(world, project, hfov)
    demo = os.path.dirname(HERE)
    photos = os.path.join(demo, "photos")
    os.makedirs(photos, exist_ok=True)
    survey.write(F, todo, os.path.join(demo, "survey.xml"))
    import marks
    marks.main()
    what = sys.argv[1] if len(sys.argv) > 1 else "missing"
    only = set(sys.argv[2:])
    if what == "survey":
        sys.exit(0)
    if what == "list":
        for s in todo:
            print(s["name"], s["when"].strftime("%H:%M:%S"), s["what"], s["fit"]["id"] + " " + s["way"] if s["what"] == "close" else s.get("area", ""))
        sys.exit(0)
    for s in todo:
        if only and s["name"] not in only:
            continue
        out = os.path.join(photos, s["name"] + ".jpg")
        t = time.time()
        if what == "preview":
            render(s, .25, 0)
            continue
        if what == "missing" and os.path.exists(out):
            continue
        if what == "develop" and not os.path.exists(os.path.join(WORK, s["name"] + ".png")):
            continue
        png = os.path.join(WORK, s["name"] + ".png")
        if what != "develop":
            png = render(s, 1.0 if s.get("hi") else .72 if s.get("focus") else .66, .4)
        size = develop(s, png, out)
        exif(s, out)
        print(s["name"], s["what"], "%.0f s, %d bytes" % (time.time() - t, size), flush=True)
