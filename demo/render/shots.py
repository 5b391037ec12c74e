"""From the fittings to the pictures in the order they were taken: names, times, cameras, marks."""
import datetime
import math
import random
from world import *
import fittings

DAY = datetime.date(2026, 9, 15)
CLOCK = datetime.timedelta(minutes=2, seconds=10)      # the camera is slow by this


def clock(text):
    return datetime.datetime.combine(DAY, datetime.time.fromisoformat(text))


def between(every, rnd):
    """The pictures of what was looked at between the rest: taken with a second camera of the same model and the same
    clock, numbered B0001 and on. Before the first and after the last picture of the other camera its numbers serve."""
    todo = []
    for way in ("up", "down"):
        seen = {}
        for f in sorted((f for f in every if f["at"] or (f["later"] and way == "down")), key=lambda f: f[way]):
            c = f["later"] or f["shots"].get(way)
            if not c:
                continue
            when = f[way] + datetime.timedelta(seconds=rnd.randint(2, 9))
            if c["far"] not in seen:
                seen[c["far"]] = dict(fittings.AREAS[c["far"]], what="far", area=c["far"], when=when)
                todo.append(seen[c["far"]])
            s = dict(what="close", fit=f, way=way, when=f[way] + datetime.timedelta(seconds=rnd.randint(20, 50)), target=c["target"],
                     cam=add(c["target"], mul(unit(c["direction"]), c["dist"])), focus=c["focus"], dist=c["dist"],
                     portrait=c.get("portrait"), hi=c.get("hi"), farshot=seen[c["far"]])
            todo.append(s)
            f["shots"][way] = dict(c, shot=s)
    todo.sort(key=lambda s: s["when"])
    return todo


def name_between(todo, first, last):
    early, late, b = 3, int(last["name"][1:]) + 1, 1
    for s in todo:
        if s["when"] < first["when"]:
            s["name"], early = "A%04d" % early, early + 1
        elif s["when"] > last["when"]:
            s["name"], late = "A%04d" % late, late + 1
        else:
            s["name"], b = "B%04d" % b, b + 1


def plan(world, project, hfov):
    every = fittings.define(world.marks)
    F = [f for f in every if not f["at"]]
    rnd = random.Random(4711)
    t = datetime.datetime.combine(DAY, datetime.time(9, 4))
    aloft = False
    for i, f in enumerate(F):
        if f["station"] != "deck" and not aloft:
            aloft, t = True, datetime.datetime.combine(DAY, datetime.time(10, 46))
        f["up"] = t
        t += datetime.timedelta(minutes=2 if (i * 7) % 5 < 2 or "down" in f["shots"] else 1)
    t = datetime.datetime.combine(DAY, datetime.time(12, 4))
    deck = False
    for i, f in enumerate(reversed(F)):
        if f["station"] == "deck" and not deck:
            deck, t = True, datetime.datetime.combine(DAY, datetime.time(13, 12))
        f["down"] = t
        t += datetime.timedelta(minutes=2 if "down" in f["shots"] or i % 3 == 0 else 1)

    todo = []
    for n, (target, d, dist, tt) in enumerate((((0, 5000, 0), (-.75, .02, .85), 19000, datetime.time(8, 41, 12)),
                                               ((0, 9000, -800), (.1, -.85, .6), 8500, datetime.time(8, 52, 40)))):
        todo.append(dict(what="other", when=datetime.datetime.combine(DAY, tt), target=target, cam=add(target, mul(unit(d), dist)), flash=0, dist=0))
    for way, order in (("up", F), ("down", list(reversed(F)))):
        seen = {}
        for f in order:
            c = f["shots"].get(way)
            if not c:
                continue
            far = c["far"]
            when = f[way] + datetime.timedelta(seconds=rnd.randint(2, 9))
            if far not in seen:
                a = dict(fittings.AREAS[far])
                a.update(what="far", area=far, when=when)
                seen[far] = a
                todo.append(a)
            when = f[way] + datetime.timedelta(seconds=rnd.randint(20, 50))
            d = unit(c["direction"])
            s = dict(what="close", fit=f, way=way, when=when, target=c["target"], cam=add(c["target"], mul(d, c["dist"])),
                     focus=c["focus"], dist=c["dist"], portrait=c.get("portrait"), hi=c.get("hi"), farshot=seen[far])
            todo.append(s)
            f["shots"][way]["shot"] = s
    # three more stand upright
    upright = {"cap-port-turnbuckle": 8, "backstay-turnbuckle": 6, "cap-starboard-tang": 6, "lower-port-turnbuckle": 6}
    todo.sort(key=lambda s: s["when"])
    for i, s in enumerate(todo):
        s["name"] = "A%04d" % (i + 1 if i < 2 else i + 9)
    light(todo, rnd, upright)
    for f in every:
        if f["at"]:
            f["up"], f["down"] = (clock(t) for t in f["at"])
    rnd = random.Random(815)
    more = between(every, rnd)
    name_between(more, todo[2], todo[-1])
    light(more, rnd, {})
    todo = sorted(todo + more, key=lambda s: s["when"])
    for s in todo:
        s["hfov"] = hfov(s.get("portrait"))
        s["aspect"] = .75 if s.get("portrait") else 4 / 3.0
    for f in every:
        for way, signs in f["signs"].items():
            s = f["shots"][way]["shot"]
            f.setdefault("on_far", {})[way] = on_far(project, s["farshot"], f["shots"][way]["target"])
            f.setdefault("marks", {})[way] = [
                None if g[4] is None else project(s["cam"], s["target"], s["hfov"], s["aspect"], g[4], s["roll"]) + (g[5],) for g in signs]
    return every, todo


def on_far(project, far, point):
    """Where the photo from far shows a fitting, with some 15 cm round it; None where it is outside the picture."""
    x, y = project(far["cam"], far["target"], far["hfov"], far["aspect"], point, far["roll"])
    away = math.dist(far["cam"], point)
    radius = min(max(150 / away / math.tan(math.radians(far["hfov"] / 2)) / 2, .025), .06)
    inside = radius < x < 1 - radius and radius < y < 1 / far["aspect"] - radius
    return (x, y, radius) if inside else None


def light(todo, rnd, upright):
    """Sun, clouds and flash by the hour, and the hand that holds the camera."""
    for s in todo:
        s["orientation"] = 1
        if s["what"] == "close" and s["way"] == "up" and s["fit"]["id"] in upright:
            s["portrait"], s["orientation"] = 1, upright[s["fit"]["id"]]
        h = (s["when"] - datetime.datetime.combine(DAY, datetime.time(9, 0))).total_seconds() / 3600
        el, az = math.radians(27 + 4.2 * h), math.radians(205 + 19 * h)
        s["sun"] = (math.cos(el) * math.sin(az), math.sin(el), math.cos(el) * math.cos(az))
        s["grey"] = .35 + .25 * math.sin(h * 1.9 + .4)
        s["sky"] = 1 + h * .021
        if s["what"] == "close":
            # nobody holds the camera quite the same way twice
            s["roll"] = rnd.uniform(-5, 5)
            s["flash"] = .62 if s["focus"] else .42
            s["blur"] = 3.5 + 260.0 / s["dist"]
            j = s["dist"] * .03
            s["target"] = add(s["target"], (rnd.uniform(-j, j), rnd.uniform(-j, j), rnd.uniform(-j, j)))
        elif s["what"] == "far":
            s["roll"] = rnd.uniform(-3, 3)
        else:
            s["roll"] = 0
        if s["what"] == "close" and s["fit"]["id"] == "lower-starboard-toggle":
            s["flash"] = 0
