"""Gear of deck and mast that carries no stay, and the faults in it. Adds to the world of world.py."""
import math
import random
from mesh import *
from world import STAYS, DECK, half_beam, matrix, at

LOOSE = (-1, -3100)            # side and place of the stanchion that is loose
LEAN = 3.4
HALYARD = [(-16, 13860, -150), (-18, 12000, -145), (-30, 5000, -140), (-40, 1700, -160)]
CHAFE = (5062.0, 4948.0)       # from and to: the chafed place of the flag halyard


def on_line(pts, y):
    for a, b in zip(pts, pts[1:]):
        if min(a[1], b[1]) <= y <= max(a[1], b[1]):
            return add(a, mul(sub(b, a), (y - a[1]) / (b[1] - a[1])))
    return pts[-1]


def hair(rnd, where, along, n, reach, fat=.22, spread=9.0, away=None):
    """Torn fibres round a point of a rope that runs along a direction."""
    m = Mesh()
    t = unit(along)
    u = unit(cross(t, (.2, .1, .97)))
    v = cross(t, u)
    for _ in range(n):
        a = rnd.random() * 2 * math.pi
        out = add(mul(u, math.cos(a)), mul(v, math.sin(a)))
        if away and dot(out, away) < -.3:
            continue
        p = add(add(where, mul(t, rnd.gauss(0, spread))), mul(out, 3.2))
        L = reach * (.4 + rnd.random())
        bend = mul(t, rnd.gauss(0, L * .5))
        q1 = add(add(p, mul(out, L * .45)), mul(bend, .3))
        q2 = add(add(p, mul(out, L * (.6 + .3 * rnd.random()))), bend)
        m.tube([p, q1, q2], [fat, fat * .8, fat * .4], 4, capped=False)
    return m


def build(w):
    furler(w)
    step(w)
    mast_foot(w)
    guardrail(w)
    flag_halyard(w)
    aloft(w)
    rust_at_mouth(w)


def furler(w):
    s = STAYS["forestay"]
    m, g = matrix(s.fl), "forestay:st"
    turn = "rotate y*-24"
    w.put(g, "TorqueSleeve(140)", turn, m)
    w.put(g, w.mesh(thread(14, 3.9, 1.1)), "rotate z*90 translate <-24,738,0>", turn, m, "Steel(141,.2)")
    w.put(g, "GrubEnd(142)", "translate <-38.6,738,0>", turn, m)
    c, sn = math.cos(math.radians(-24)), math.sin(math.radians(-24))
    w.marks["grub"] = at(s.fl, (-35 * c, 738, 35 * sn))
    w.marks["sleeve"] = at(s.fl, (-20 * c, 724, 20 * sn))


def step(w):
    w.put("deck", "Bilge(150)")
    w.put("deck", "DrainPlug(153)", "translate <0,104,126>")
    w.marks["drain"] = (0, 108, 122)
    w.marks["bond"] = (92, 205, -20)
    # bond from the mast to the after keel bolt: flat copper braid
    line = smooth([(57, 300, 30), (64, 285, 30), (84, 240, 28), (112, 178, 10), (122, 132, -60), (104, 106, -150), (60, 104, -212), (30, 106, -228)], 10)
    for k in range(-3, 4):
        pts = []
        for i, p in enumerate(line):
            a, b = line[max(i - 1, 0)], line[min(i + 1, len(line) - 1)]
            t = unit(sub(b, a))
            side = unit(add(mul(cross(t, (1, 0, 0)), max(0.0, 1 - i / 40.0)), mul(cross(t, (0, 1, 0)), i / 40.0)))
            pts.append(add(p, mul(side, k * 2.6)))
        w.put("deck", w.mesh(Mesh().tube(pts, 2.0, 8)), "Braid(155)")
    w.put("deck", "BondLug(157)", "rotate x*180 translate <52.5,312,30>")


def mast_foot(w):
    w.put("mast", "Gooseneck(160)")
    w.marks["gooseneck"] = (30, 2147, -196)
    # the starboard exit: burr and torn rope
    w.put("mast", "SharpEdge(165)", "translate <54.4,2620,0>")
    rnd = random.Random(31)
    p = (67.5, 2556, 0)
    w.put("mast", w.mesh(hair(rnd, p, (0, 1, 0), 70, 5.5, .16, 10)), "Cloth(4,<.32,.42,.72>)")
    w.put("mast", w.mesh(hair(rnd, p, (0, 1, 0), 34, 5, .16, 7)), "Cloth(4,<.78,.78,.74>)")
    w.marks["exit-edge"] = (58, 2556, 0)
    # blisters round the pad of the winch
    w.bubbles("mast", (55.0, 2000.0, 26.0), 1, 14, 30, "pad-bubbles", (1, 30, 10))


def guardrail(w):
    side, z = LOOSE
    x = side * (half_beam(z) - 70)
    w.put("deck", "StanchionLoose(170,%g)" % LEAN, "translate <%g,%g,%g>" % (x, DECK, z))
    w.marks["stanchion"] = (x + 36, DECK + 5, z - 8)
    # the upper wire on the port side: covered, the cover ends before the stanchion
    posts = (-4700, -3100)
    a, b = [(side * (half_beam(q) - 70) - (wire_shift(side, q, 610)), DECK + 610, q) for q in posts]
    p = lambda q: add(a, mul(sub(b, a), (q - posts[0]) / (posts[1] - posts[0])))
    w.put("deck", w.mesh(Mesh().tube([p(-4690), p(-3900), p(-3330)], 4.3, 14)), "Plastic(174,<.70,.70,.67>)")
    n = [p(-3330 + i * 6) for i in range(13)]
    rnd = random.Random(8)
    w.put("deck", w.mesh(Mesh().tube(n, [4.3 + .5 * max(0, i - 4) / 8 + rnd.random() * .25 for i in range(13)], 18)), "Plastic(174,<.66,.62,.55>) RustFilm(175,9)")
    w.strand("deck", p(-3262), p(-3112), 6.0, 177, .9)
    m = Mesh()
    for i in range(110):                                      # crumbs at the mouth of the cover
        q = add(p(-3259 + abs(rnd.gauss(0, 4.5))), mul(unit((rnd.gauss(0, 1), rnd.gauss(0, 1), 0)), 3.0))
        r = .35 + rnd.random() * .45
        m.tube([add(q, (0, 0, -r)), add(q, (0, 0, -r * .6)), add(q, (0, 0, r * .6)), add(q, (0, 0, r))], [r * .3, r, r, r * .3], 8)
    w.put("deck", w.mesh(m), "RustCrust(178)")
    # a split along the cover, the wire brown in it
    m = Mesh()
    pts = [add(p(-3360 + i * 4), (2.6 + rnd.gauss(0, .15), 3.3 + rnd.gauss(0, .15), 0)) for i in range(22)]
    m.tube(pts, [.1 + 1.25 * math.sin(math.pi * min(1.0, (i + 1) / 15.0) / 2) for i in range(22)], 6)
    w.put("deck", w.mesh(m), "RustCrust(179)")
    w.marks["guardwire"] = p(-3278)


def wire_shift(side, z, h):
    """By how much the leaning stanchion carries the guardwires outboard."""
    return h * math.sin(math.radians(LEAN)) if (side, z) == LOOSE else 0.0


def flag_halyard(w):
    tex = "Cloth(7,<.7,.7,.66>)"
    pts = smooth(HALYARD)
    top, low = on_line(pts, CHAFE[0]), on_line(pts, CHAFE[1])
    w.put("mast", w.mesh(Mesh().tube([p for p in pts if p[1] > CHAFE[0]] + [top], 4.6, 12)), tex)
    w.put("mast", w.mesh(Mesh().tube([low] + [p for p in pts if p[1] < CHAFE[1]], 4.6, 12)), tex)
    # the core: three yarns, laid
    f = unit(sub(low, top))
    u = unit(cross(f, (0, 0, 1)))
    v = cross(f, u)
    L = length(sub(low, top))
    for k in range(3):
        line = []
        for i in range(61):
            a = 2 * math.pi * (k / 3 + i / 22.0)
            fat = 1.55 - .5 * math.exp(-((i - 33) / 9.0) ** 2) * (1.4 if k == 1 else .5)
            line.append(add(add(top, mul(f, L * i / 60 * 1.06 - L * .03)), add(mul(u, fat * math.cos(a)), mul(v, fat * math.sin(a)))))
        w.put("mast", w.mesh(Mesh().tube(line, 1.5, 8)), "Cloth(9,<.62,.57,.46>)")
    rnd = random.Random(12)
    for y, n, reach in ((CHAFE[0], 75, 6), (CHAFE[1], 85, 7), (5000.0, 70, 4.5)):
        w.put("mast", w.mesh(hair(rnd, on_line(pts, y), (0, 1, 0), n, reach, .16, 7 if y != 5000.0 else 20)), "Cloth(8,<.74,.73,.68>)")
    # the ends of the cover, frayed over the core
    for y, d in ((CHAFE[0], -1), (CHAFE[1], 1)):
        c = on_line(pts, y)
        for i in range(13):
            a = 2 * math.pi * i / 13 + rnd.random() * .3
            o = (math.cos(a), 0, math.sin(a))
            e = 1 + rnd.random() * 2.2
            m = Mesh().tube([add(c, mul(o, 4.0)), add(add(c, mul(o, 4.2 + e * .6)), (0, d * 7, 0)), add(add(c, mul(o, 3.4 + e * 1.6)), (0, d * (11 + rnd.random() * 8), 0))], [1.0, .8, .3], 6)
            w.put("mast", w.mesh(m), "Cloth(8,<.70,.69,.64>)")
    w.marks["halyard-chafe"] = on_line(pts, 5005.0)


def aloft(w):
    w.put("masthead", "WornSheave(44,16,97)", "translate <14,13900,-150>")
    w.marks["sheave"] = (19, 13900 - 16, -150 - 40)
    w.put("top", "LooseWhip(99,7)", "translate <-34,14012,150>")
    w.marks["aerial"] = (-46, 14014, 137)
    # steaming light, its cable chafed through where it leaves the mast
    w.put("mast", "LampBracket(185)", "translate y*9600")
    w.marks["lamp"] = (34, 9630, 116)
    hole = (46.5, 9480, 43)
    w.put("mast", "sphere { 0,1 scale <1.2,7.5,6.5> rotate y*-28 translate <%g,%g,%g> pigment { rgb .012 } finish { ambient 0 diffuse .4 } }" % hole)
    c = smooth([(36, 9494, 36), (47, 9489, 44), (54, 9479, 51), (60, 9474, 66), (64, 9490, 90), (56, 9540, 108), (40, 9580, 114), (34, 9599, 116)], 12)
    tex = "Plastic(187,<.52,.52,.50>)"
    i0, i1 = 11, 25
    w.put("mast", w.mesh(Mesh().tube(c[:i0], 4.0, 14)), tex)
    w.put("mast", w.mesh(Mesh().tube(c[i1:], 4.0, 14)), tex)
    # what is left of the sheath on the inner side, and the two cores
    rnd = random.Random(3)
    w.put("mast", w.mesh(Mesh().tube([add(p, (-1.3, -1.2, -.6)) for p in c[i0 - 1:i1 + 1]], [2.3 + rnd.random() * .5 for _ in c[i0 - 1:i1 + 1]], 12)), tex)
    for off, col, bare in (((1.1, 1.2, -.9), "<.42,.06,.045>", (4, 10)), ((1.4, -.9, 1.2), "<.045,.045,.05>", None)):
        pts = [add(p, off) for p in c[i0 - 2:i1 + 2]]
        if not bare:
            w.put("mast", w.mesh(Mesh().tube(pts, 1.3, 10)), "Plastic(188,%s)" % col)
            continue
        w.put("mast", w.mesh(Mesh().tube(pts[:bare[0] + 1], 1.3, 10)), "Plastic(188,%s)" % col)
        w.put("mast", w.mesh(Mesh().tube(pts[bare[1]:], 1.3, 10)), "Plastic(188,%s)" % col)
        w.put("mast", w.mesh(Mesh().tube(pts[bare[0]:bare[1] + 1], .85, 8)), "pigment { rgb <.72,.36,.20> } finish { ambient 0 diffuse .5 specular .6 roughness .02 metallic 1 }")
    w.marks["cable"] = c[(i0 + i1) // 2]


def rust_at_mouth(w):
    """Rust that comes out of the mouth of the forestay's lower terminal, on the side towards the bow and to port."""
    s = STAYS["forestay"]
    m = matrix(s.fl)
    az = math.atan2(.55, -.8)
    rnd = random.Random(19)
    crumbs = Mesh()
    for i in range(120):
        a = az + rnd.gauss(0, .75)
        y = 384.6 + abs(rnd.gauss(0, 1.1))
        r = 4.1 + rnd.random() * 1.9 - (y - 384.6) * .35
        p = (r * math.cos(a), y, r * math.sin(a))
        crumbs.tube([add(p, (0, -.5, 0)), p, add(p, (0, .5, 0))], [.1, .35 + rnd.random() * .5, .1], 6)
    w.put("forestay:lo", w.mesh(crumbs), m, "RustCrust(190)")
    runs = Mesh()
    for i in range(26):                                       # runs down the barrel, ever thinner
        a = az + rnd.gauss(0, .6)
        L = 4 + 30 * rnd.random() ** 2
        pts, radii = [], []
        for k in range(14):
            t = k / 13
            a += rnd.gauss(0, .012)
            y = 385.1 - L * t
            r = 7.32 if y < 382.6 else (7.32 - (y - 382.6) * .2 if y < 384 else 7.05 - (y - 384) * .5)
            r += .0042 * (385 - y) if y < 382 else 0
            pts.append(((r - .12) * math.cos(a), y, (r - .12) * math.sin(a)))
            radii.append(.14 + .42 * (1 - t) * (.5 + rnd.random() * .5))
        runs.tube(pts, radii, 6)
    w.put("forestay:lo", w.mesh(runs), m, "RustCrust(191)")
    w.put("forestay:lo", "RustBleed(192,%g)" % -math.degrees(az), m)
    w.marks["forestay-rust"] = at(s.fl, (7.3 * math.cos(az), 381.0, 7.3 * math.sin(az)))
