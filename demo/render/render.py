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
    return d, r, u


def project(cam, target, hfov, aspect, p):
    """Where point p falls: x and y as fractions of width, from the top left."""
    d, r, u = camera_basis(cam, target)
    v = sub(p, cam)
    z = dot(v, d)
    t = math.tan(math.radians(hfov / 2))
    x, y = dot(v, r) / z / t / 2, dot(v, u) / z / t / 2
    return .5 + x, .5 / aspect - y


WIDE = 67.3       # across the long side of a 4:3 frame at 26 mm


def hfov(portrait):
    return WIDE if not portrait else math.degrees(2 * math.atan(math.tan(math.radians(WIDE / 2)) * 3 / 4))


def world_file():
    w = World().build()
    os.makedirs(WORK, exist_ok=True)
    path = os.path.join(WORK, "world.inc")
    text = "\n".join(w.decl) + "\n#macro WorldObjects()\n" + "\n".join(w.out) + "\n#end\n"
    with open(path, "w") as f:
        f.write(text)
    return w


def scene(shot, hide, small):
    cam, tgt = shot["cam"], shot["target"]
    d, r, u = camera_basis(cam, tgt)
    a = shot["aspect"]
    dist = length(sub(cam, tgt))
    off = add(mul(r, 9 if not shot.get("portrait") else 3), mul(u, 12))
    fd = shot.get("flash_at", dist)
    o = ["#version 3.7;", "global_settings { assumed_gamma 1.0 max_trace_level 4 }"]
    o.append("#declare Hide = array[%d]" % N_GROUPS)
    o += ["#declare Hide[%d] = %d;" % (i, 1 if i in hide else 0) for i in range(N_GROUPS)]
    o.append("#macro Vis(N) #if (Hide[N]) no_image #end #end")
    o.append("#declare Sun = <%g,%g,%g>;" % tuple(shot.get("sun", (-.6, .8, -.45))))
    for i in ("materials", "fittings", "boat", "sky"):
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
    shot["aspect"] = w / h
    shot["hfov"] = hfov(shot.get("portrait"))
    n = shot["name"]
    if shot.get("focus"):
        focus = {G[g] for g in shot["focus"]}
        others = {i for i in range(N_GROUPS) if i not in focus}
        front = run_pov(scene(shot, others, scale), n + "-f", w, h, True, aa)
        back = run_pov(scene(shot, focus, scale), n + "-b", w // 2, h // 2, False, 0)
        b = shot.get("blur", 5) * scale
        out = os.path.join(WORK, n + ".png")
        subprocess.run(["convert", "(", back, "-blur", "0x%g" % b, "-resize", "%dx%d!" % (w, h), ")", front,
                        "-composite", out], check=True)
        return out
    return run_pov(scene(shot, set(), scale), n, w, h, False, aa)


if __name__ == "__main__":
    world = world_file()
    import shots
    todo = sys.argv[2:]
    sc = float(sys.argv[1])
    for s in shots.SHOTS:
        if todo and s["name"] not in todo:
            continue
        t = time.time()
        render(s, sc, .3 if sc > .6 else 0)
        print(s["name"], "%.1f s" % (time.time() - t), flush=True)
