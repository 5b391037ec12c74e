"""The boat and her rig as one world: x to starboard, y up from the waterline, z forward, millimetres.

Every part goes out as one object of a numbered group, so that a picture can be rendered in two passes:
the group in focus sharp, the rest out of focus behind it.
"""
import math
import random
from mesh import *

DECK = 1000.0
HALF_BEAM = [(-5650, 1060), (-5000, 1260), (-4000, 1440), (-2500, 1600), (-1000, 1690), (0, 1690), (1000, 1600),
             (2000, 1380), (3000, 980), (3700, 600), (4250, 170), (4420, 20)]


def half_beam(z):
    for (z0, b0), (z1, b1) in zip(HALF_BEAM, HALF_BEAM[1:]):
        if z0 <= z <= z1:
            return b0 + (b1 - b0) * (z - z0) / (z1 - z0)
    return 0


def frame(p, ydir, xref=(1, 0, 0)):
    y = unit(ydir)
    x = unit(sub(xref, mul(y, dot(xref, y))))
    return (x, y, cross(x, y), p)


def at(f, q):
    return add(f[3], add(add(mul(f[0], q[0]), mul(f[1], q[1])), mul(f[2], q[2])))


def matrix(f, k=1.0):
    c = []
    for v in f[:3]:
        c += [v[0] * k, v[1] * k, v[2] * k]
    return "matrix <%s>" % ",".join("%.7g" % t for t in c + list(f[3]))


class Stay:
    def __init__(self, id, low, high, d, seed, brz=0, stain=0.5, low_thread=165, via=None, upper="fork"):
        self.id, self.low, self.high, self.d, self.k = id, low, high, d, d / 8.0
        self.seed, self.brz, self.stain, self.low_thread, self.upper = seed, brz, stain, low_thread, upper
        self.via = via
        self.fl = frame(low, sub(via or high, low))
        self.fu = frame(high, sub(high, via or low))

    def lo(self, y, x=0, z=0):
        return at(self.fl, (x * self.k, y * self.k, z * self.k))

    def up(self, y, x=0, z=0):
        return at(self.fu, (x * self.k, y * self.k, z * self.k))


SPREADER_Y = 7600.0
TIP = {-1: (-980.0, SPREADER_Y + 92, 0.0), 1: (980.0, SPREADER_Y + 92, 0.0)}


def tang_pin(hinge, target):
    pin = hinge
    for _ in range(4):
        pin = add(hinge, mul(unit(sub(target, pin)), 55))
    return pin


def stays():
    s = {}
    for side, n, sd in ((-1, "port", 3), (1, "stbd", 7)):
        low = (side * 1560.0, DECK + 58, -120.0)
        s["cap-" + n] = Stay("cap-" + n, low, (side * 66.0, 13705.0, 0), 8, sd, stain=.5 + .1 * side, via=TIP[side], upper="fork")
        low = (side * 1520.0, DECK + 58, -520.0)
        hinge = (side * (55 + 3.0), 7390.0, -22.0)
        s["lower-" + n] = Stay("lower-" + n, low, tang_pin(hinge, low), 7, sd + 1, brz=1, low_thread=130 if side < 0 else 165)
    s["forestay"] = Stay("forestay", (0, 1140.0, 4330.0), (0, 13950.0, 232.0), 8, 13, upper="eye")
    s["inner"] = Stay("inner", (0, 1058.0, 2950.0), (0, 8130.0, 124.0), 7, 15, stain=1.0)
    s["backstay"] = Stay("backstay", (0, 1110.0, -5560.0), (0, 13950.0, -232.0), 8, 17, upper="eye")
    return s


STAYS = stays()
G = {"bg": 0, "deck": 1, "mast": 2, "spreader-port": 3, "spreader-stbd": 4, "masthead": 5, "top": 6}
for i, n in enumerate(STAYS):
    G[n + ":lo"] = 10 + 3 * i
    G[n + ":up"] = 11 + 3 * i
    G[n + ":st"] = 12 + 3 * i
N_GROUPS = 40


class World:
    """Collects POV-Ray text; marks: named points in the world, for the camera to project."""

    def __init__(self):
        self.out, self.marks, self.decl = [], {}, []
        self.n = 0

    def put(self, group, obj, *mods):
        self.out.append("object { %s %s Vis(%d) }" % (obj, " ".join(mods), G[group]))

    def mesh(self, m):
        self.n += 1
        name = "M%d" % self.n
        self.decl.append("#declare %s = %s" % (name, m.text()))
        return name

    # -- strand -----------------------------------------------------------------------------
    def strand(self, group, p, q, d, seed, stain, skip=None):
        """Strand from p to q; skip: (from, to) along it left out, in mm."""
        f = frame(p, sub(q, p))
        total = length(sub(q, p))
        step = LAY * d
        y = 0.0
        tex = "Wire(%d,%.2f)" % (seed, stain)
        while y < total:
            n = min(step, total - y)
            if skip and skip[0] - .01 <= y < skip[1] - .01:
                y = skip[1]
                continue
            if skip and y < skip[0] < y + n:
                n = skip[0] - y
            g = (f[0], f[1], f[2], add(p, mul(f[1], y)))
            if n < step - .5:
                k = self.mesh(strand_pitch(y0=0, y1=n / d))
                self.put(group, k, matrix(g, d), tex)
            else:
                self.put(group, "StrandPitch", matrix(g, d), tex)
            y += n
        return f

    # -- lower end --------------------------------------------------------------------------
    def lower_end(self, s):
        k, f, g = s.k, s.fl, s.id + ":lo"
        S, st = s.seed, s.stain
        m = matrix(f, k)
        cover = s.id == "backstay"
        if s.id == "forestay":
            self.put(g, "StemFitting(%d)" % S, "translate <%g,%g,%g>" % s.low)
        elif cover:
            self.put(g, "ChainplateBlade(%d,%g)" % (S, st), m)
            self.put(g, "TransomCover(%d)" % S, "translate <%g,%g,%g>" % (s.low[0], DECK, s.low[2]))
        else:
            self.put(g, "ChainplateBlade(%d,%g)" % (S, st), m)
            foot = at(f, (0, -(s.low[1] - DECK) / f[1][1], 0))
            self.put(g, "DeckCover(%d,%g)" % (S, st + .1), "translate <%.5g,%g,%.5g>" % (foot[0], DECK, foot[2]))
        self.put(g, "ClevisPin(12,25,%d)" % (S + 20), m)
        # split pin of the lower pin, at x = -16.7; head up: the eye above
        down = s.id == "cap-port"
        wide = s.id == "inner"
        sp = self.mesh(split_pin(3.2, 13.0, 128 if wide else 26))
        turn = "" if down else "rotate z*180"
        self.put(g, sp, "rotate y*%d" % (14 + S * 5), "translate y*-6.5", turn, "translate x*-16.7", m, "Steel(%d,.3)" % (S + 3))
        if wide:
            self.marks["inner-split"] = at(f, (-16.7 * k, -16 * k, 0))
        if down:
            self.marks["cap-port-split"] = at(f, (-16.7 * k, -9.5 * k, 0))
        self.put(g, "Toggle(%d,%g,%d)" % (S + 31, st, s.brz), m)
        # upper toggle pin along z
        self.put(g, "ClevisPin(12,25.5,%d)" % (S + 23), "rotate y*90", "translate y*58", m)
        sp = self.mesh(split_pin(3.2, 13.0, 30))
        self.put(g, sp, "rotate y*%d" % (96 + S * 3), "translate y*-6.5 rotate z*180 translate <0,58,16.9>", m, "Steel(%d,.3)" % (S + 4))
        self.put(g, "Fork(%d,%g,%d)" % (S + 33, st, s.brz), m)
        self.put(g, "Body(%d,%g,%d)" % (S + 35, st, s.brz), "translate y*112", m)
        low_end = s.low_thread
        t = self.mesh(thread(low_end - 92, 6, 1.75))
        self.put(g, t, "translate y*92", m, "Steel(%d,.4)" % (S + 36))
        top0 = 228 + (S * 7) % 9
        t = self.mesh(thread(291 - top0, 6, 1.75))
        self.put(g, t, "rotate x*180", "translate y*291", m, "Steel(%d,.4)" % (S + 37))
        if low_end > 150:
            for y, sd in ((low_end - 7, 0), (top0 + 7, 1)):
                sp = self.mesh(split_pin(3.0, 13, 50 + 9 * sd))
                self.put(g, sp, "rotate z*%d" % (90 if sd else -90), "rotate x*%d" % (70 + S), "translate <%g,%g,0>" % (7.5 if sd else -7.5, y), m, "Steel(%d,.3)" % (S + 5 + sd))
        else:
            y = top0 + 7
            sp = self.mesh(split_pin(3.0, 13, 50))
            self.put(g, sp, "rotate z*90", "rotate x*%d" % (70 + S), "translate <7.5,%g,0>" % y, m, "Steel(%d,.3)" % (S + 5))
            self.marks["lower-port-thread"] = at(f, (0, 139 * k, 0))
        self.put(g, "StudTerminal(%d,%g)" % (S + 40, st), m)
        if s.id == "backstay":
            self.crack(g, f, k)
        if s.id in ("cap-stbd",):
            # rust that has run from the deck line over the cover plate
            foot = at(f, (0, -(s.low[1] - DECK) / f[1][1], 0))
            self.put(g, "RustWeep(%d)" % S, "translate <%.5g,%g,%.5g>" % (foot[0], DECK, foot[2]))
            self.marks["cap-stbd-weep"] = add(foot, (-14, 4, 4))

    def crack(self, g, f, k):
        """Two hairlines down the barrel from its mouth, on the side towards the stern and to starboard."""
        rnd = random.Random(5)
        for a0, n, w in ((-62, 46, .085), (-40, 30, .062)):
            pts, a, radii = [], math.radians(a0), []
            for i in range(n):
                y = 385.05 - i * .29
                a += (rnd.random() - .5) * .05
                r = 7.34 if y < 382.6 else (7.34 - (y - 382.6) * .20 if y < 384.0 else 7.06 - (y - 384.0) * .42)
                pts.append(at(f, ((r - .03) * k * math.cos(a), y * k, (r - .03) * k * math.sin(a))))
                radii.append(w * k * (0.55 + rnd.random() * .6) * (1 - .75 * i / n))
            m = self.mesh(Mesh().tube(pts, radii, 6))
            self.put(g, m, "Dark()")
        a = math.radians(-52)
        self.marks["backstay-crack"] = at(f, (7.3 * math.cos(a), 380.0, 7.3 * math.sin(a)))

    # -- upper end --------------------------------------------------------------------------
    def upper_end(self, s):
        g, m, S = s.id + ":up", matrix(s.fu, s.k), s.seed
        self.put(g, ("UpperEye" if s.upper == "eye" else "UpperFork") + "(%d,%g)" % (S + 60, s.stain * .7), m)
        w = 32 if s.upper == "eye" else 19.2
        self.put(g, "ClevisPin(12,%g,%d)" % (w, S + 63), m)
        sp = self.mesh(split_pin(3.2, 13.0, 32))
        self.put(g, sp, "rotate y*%d" % (30 + S * 9), "translate y*-6.5 rotate z*180 translate x*%g" % (-w / 2 - 4.2), m, "Steel(%d,.3)" % (S + 6))

    # -- everything -------------------------------------------------------------------------
    def build(self):
        self.decl.append("#declare StrandPitch = " + strand_pitch().text())
        for s in STAYS.values():
            self.lower_end(s)
            self.upper_end(s)
            p, q = s.lo(381), s.up(-114)
            g = s.id + ":st"
            if s.via:
                # the shroud goes past the spreader tip in its groove
                tip = s.via
                self.strand(s.id + ":lo", p, at(s.fl, (0, 385 + 700, 0)), s.d, s.seed + 50, s.stain)
                self.strand(g, at(s.fl, (0, 1085, 0)), tip, s.d, s.seed + 50, s.stain)
                self.strand(g, tip, q, s.d, s.seed + 51, s.stain * .8)
            elif s.id == "forestay":
                self.strand(s.id + ":lo", p, s.lo(440), s.d, s.seed + 50, .5)
                self.strand(s.id + ":up", s.up(-900), q, s.d, s.seed + 50, .5)
                m = matrix(s.fl)
                total = length(sub(s.high, s.low))
                self.put("forestay:st", "FurlerDrum(%d)" % s.seed, m)
                self.put("forestay:st", "Foil(%g,%g)" % (620, total - 620), m)
            elif s.id == "lower-stbd":
                self.strand(s.id + ":lo", p, s.lo(1100), s.d, s.seed + 50, s.stain)
                a, b = s.lo(1100), s.up(-118 - 3.4 * s.d / s.k - 380)
                self.strand(g, a, b, s.d, s.seed + 50, s.stain)
                self.broken(s, b, q)
            else:
                self.strand(s.id + ":lo", p, s.lo(1100), s.d, s.seed + 50, s.stain)
                self.strand(g, s.lo(1100), q, s.d, s.seed + 50, s.stain)
        self.rig_parts()
        self.boat()
        gear.build(self)
        return self

    def broken(self, s, p, q):
        """The last stretch below the upper terminal, one wire of it parted near the mouth."""
        d = s.d
        f = frame(p, sub(q, p))
        total = length(sub(q, p)) / d
        g = s.id + ":up"
        k = 4
        # turn the strand so that the parted wire faces aft and inboard
        y_break = total - 3.4
        ang = 2 * math.pi * (k / 12 + y_break / LAY)
        want = math.radians(195)
        r = want - ang
        x = add(mul(f[0], math.cos(r)), mul(f[2], math.sin(r)))
        f = (x, f[1], cross(x, f[1]), p)
        tex = "Wire(%d,%.2f)" % (s.seed + 50, s.stain)
        m = self.mesh(strand_pitch(wires=[i for i in range(12) if i != k], y0=0, y1=total))
        self.put(g, m, matrix(f, d), tex)
        w, end = broken_wire(k, 0, y_break, total)
        self.put(g, self.mesh(w), matrix(f, d), tex)
        self.marks["lower-stbd-broken"] = at(f, mul(add(end, wire_point(k, y_break)), d * .5))

    def rig_parts(self):
        put = self.put
        put("mast", "Mast()")
        rnd = random.Random(21)
        for side, n in ((-1, "port"), (1, "stbd")):
            sp = "spreader-" + n
            flip = "scale <%d,1,1>" % side
            tr = "translate <%g,%g,0>" % (side * 55, SPREADER_Y)
            # the spreader runs slightly upwards
            tip = TIP[side]
            root = (side * 55.0, SPREADER_Y, 0.0)
            ang = math.degrees(math.atan2(tip[1] - root[1], (tip[0] - root[0]) * side))
            L = length(sub(tip, root))
            up = "rotate z*%g" % ang
            put(sp, "RootBracket(%d)" % (70 + side), up.replace("rotate z*", "rotate z*0*"), flip, tr)
            put(sp, "Spreader(%g,%d)" % (L - 46, 72 + side), up, flip, tr)
            put(sp, "TipCasting(%d)" % (74 + side), up, flip, "translate <%g,%g,%g>" % tip)
            if side > 0:
                put(sp, "TapeWrap(%d)" % 75, up, flip, "translate <%g,%g,%g>" % tip)
                self.marks["tip-stbd-tape"] = add(tip, (-14, 0, -20))
            else:
                self.marks["tip-port-unseized"] = add(tip, (0, -24, -4))
                # what is left of the seizing: a short end of wire in its hole
                e = Mesh().tube(smooth([(12, 40, 1), (14, 24, 0), (14, 0, 0), (14, -22, 0), (9, -34, 4), (2, -30, 12)]), .75, 8)
                put(sp, self.mesh(e), "translate <%g,%g,%g>" % tip, "Steel(5,.6)")
            # lower tang on the mast wall
            s = STAYS["lower-" + n]
            bolt = (side * 55.0, 7390.0 + 88, -22.0)
            put(s.id + ":up", "TangUpper(%d,.4)" % (80 + side), flip, "translate <%g,%g,%g>" % bolt)
            put(s.id + ":up", "TangLower(%d,.4)" % (83 + side), matrix(s.fu))
            if side < 0:
                self.bubbles("lower-port:up", bolt, side, 5, 27, "lower-port-bubbles", (-1, -70, 30))
            else:
                self.bubbles("spreader-stbd", (55.0, SPREADER_Y, 0), side, 9, 50, "root-stbd-bubbles", (1, 70, -54))
            # cap tang
            s = STAYS["cap-" + n]
            put(s.id + ":up", "TangUpper(%d,.3)" % (86 + side), flip, "translate <%g,%g,%g>" % (side * 56.0, s.high[1] + 143, 0))
            put(s.id + ":up", "TangLower(%d,.3)" % (88 + side), matrix(s.fu))
        put("inner:up", "FinTang(91,.5)", "translate <0,%g,%g>" % (STAYS["inner"].high[1] + 6, 84))
        put("masthead", "Masthead(95)")
        put("masthead", "ForePlates(96)", "translate z*0")
        for z in (232, -232):
            pass
        put("top", "AnchorLight(97,1)", "translate <0,14012,88>")
        put("top", "WindVane(98)", "rotate y*168 translate <0,14012,-150>")
        # the lamp's cable, with the birds' work on it
        c = smooth([(46, 14004, -38), (48, 14030, -30), (52, 14050, -6), (50, 14052, 22), (42, 14034, 50), (22, 14020, 72)], 14)
        put("top", self.mesh(Mesh().tube(c[:30], 4.2, 14)), "Plastic(31,<.55,.55,.53>)")
        put("top", self.mesh(Mesh().tube(c[38:], 4.2, 14)), "Plastic(31,<.55,.55,.53>)")
        for o, col in (((-1.4, .6, .4), "<.45,.07,.05>"), ((1.4, -.2, -.6), "<.05,.05,.055>")):
            pts = [add(p, mul(o, 1.0 + .9 * math.sin(i * .34))) for i, p in enumerate(c[26:43])]
            put("top", self.mesh(Mesh().tube(pts[:8], 1.25, 10)), "Plastic(32,%s)" % col)
            put("top", self.mesh(Mesh().tube(pts[11:], 1.25, 10)), "Plastic(32,%s)" % col)
            put("top", self.mesh(Mesh().tube(pts[7:12], .72, 8)), "pigment { rgb <.72,.36,.20> } finish { ambient 0 diffuse .5 specular .6 roughness .02 metallic 1 }")
        self.marks["wiring-pecked"] = c[34]
        c = smooth([(10, 14004, -60), (16, 14026, -66), (22, 14030, -90), (20, 14018, -118), (10, 14024, -135)], 10)
        put("top", self.mesh(Mesh().tube(c, 3.4, 12)), "Plastic(33,<.06,.06,.065>)")
        self.nest((0, 14012, -35), rnd)
        self.marks["nest"] = (-20, 14030, -35)
        self.marks["light"] = (0, 14012 + 50, 88)
        # exits of halyards: on deck and above the spreaders
        put("mast", "ExitPlate(101)", "scale <-1,1,1> translate <-54.4,2350,0>")
        put("mast", "ExitPlate(103)", "translate <54.4,2620,0>")
        put("mast", "ExitPlate(105)", "rotate y*-90", "translate <0,8680,80>")
        rope_ = lambda pts, r=4.6: self.mesh(Mesh().tube(smooth(pts), r, 12))
        put("mast", rope_([(-38, 2395, 0), (-60, 2388, 0), (-67, 2350, 2), (-70, 2000, 20), (-92, 1500, 60)]), "Cloth(3,<.82,.82,.80>)")
        put("mast", rope_([(38, 2665, 0), (60, 2658, 0), (67, 2620, 2), (70, 2100, -20), (95, 1500, -60)]), "Cloth(4,<.15,.25,.55>)")
        put("mast", rope_([(0, 8722, 62), (0, 8716, 85), (-2, 8680, 91), (-30, 8350, 120), (-78, 7700, 135), (-90, 4200, 150), (-95, 1500, 120)]), "Cloth(5,<.6,.12,.1>)")
        put("mast", rope_([(14, 13860, 150), (8, 13000, 138), (-22, 9000, 118), (-52, 8000, 112), (-60, 1500, 130)]), "Cloth(6,<.8,.8,.77>)")

    def bubbles(self, group, where, side, seed, n, mark, around):
        """Blisters in the paint along the edge of a fitting on the mast's side."""
        rnd = random.Random(seed)
        c = add(where, (0, around[1], around[2]))
        for i in range(n):
            dy, dz = rnd.gauss(0, 17), rnd.gauss(0, 6.5)
            r = 1.2 + rnd.random() ** 2 * 5.2
            p = (c[0], c[1] + dy, c[2] + dz)
            # wall of the mast: an oval of 55 by 80
            x = 55 * math.sqrt(max(0.01, 1 - (p[2] / 80.0) ** 2)) * side
            self.put(group, "Blister(%d)" % (i % 4), "scale <%.3g,%.3g,%.3g>" % (r * .42, r, r * .9), "translate <%.6g,%.6g,%.6g>" % (x, p[1], p[2]))
        x = 55 * math.sqrt(1 - (c[2] / 80.0) ** 2) * side
        self.put(group, "BlisterStain(%d)" % seed, "scale <4,34,16>", "translate <%.6g,%.6g,%.6g>" % (x, c[1], c[2]))
        self.marks[mark] = (x, c[1], c[2])

    def nest(self, c, rnd):
        m1, m2 = Mesh(), Mesh()
        for i in range(520):
            a = rnd.random() * 2 * math.pi
            h = rnd.random() ** .8
            r = 42 + 26 * h + rnd.gauss(0, 7)
            y = 3 + 40 * h + rnd.gauss(0, 3)
            p = (c[0] + r * .78 * math.cos(a), c[1] + max(1, y), c[2] + r * math.sin(a))
            t = a + math.pi / 2 + rnd.gauss(0, .45)
            L = 22 + rnd.random() * 40
            bend = 7
            q = lambda s: add(p, (L * s * math.cos(t) - bend * s * s * 4 * math.cos(a), rnd.gauss(0, 2.0) + s * 5 * rnd.gauss(0, 1), L * s * math.sin(t) - bend * s * s * 4 * math.sin(a)))
            (m1 if i % 3 else m2).tube([q(-.5), q(0), q(.5)], .5 + rnd.random() * .8, 5)
        self.put("top", self.mesh(m1), "Straw(1)")
        self.put("top", self.mesh(m2), "pigment { granite scale 8 color_map { [0 rgb <.16,.12,.09>] [1 rgb <.33,.27,.20>] } } finish { ambient 0 diffuse .8 }")

    def shore(self):
        """Hills, woods, sheds and a quay all round, as flat as stage scenery: they are far away."""
        rnd = random.Random(77)
        def strip(radius, low, profile, n, tex):
            m = Mesh()
            for i in range(n + 1):
                a = 2 * math.pi * i / n
                c, sn = math.sin(a), math.cos(a)
                for y in (low, profile(a, i)):
                    m.v.append((radius * c, y, radius * sn))
                    m.n.append((-c * .8, .6, -sn * .8))
                if i:
                    k = 2 * i
                    m.f += [(k - 2, k - 1, k), (k - 1, k + 1, k)]
            self.put("bg", self.mesh(m), tex)
        waves = [(rnd.uniform(0, 6.28), f, h) for f, h in ((2, .3), (3, .35), (5, .3), (9, .2), (17, .12), (31, .06))]
        hill = lambda k: lambda a, i: k * (1.2 + sum(h * math.sin(f * a + p) for p, f, h in waves))
        wood = lambda k: lambda a, i: k * (1.1 + sum(h * math.sin(f * a * 1.7 + p * 2) for p, f, h in waves)) + abs(rnd.gauss(0, 520)) + 500 * math.sin(a * 190)
        green = "pigment { bozo turbulence .7 octaves 4 scale <%g,%g,%g> color_map { [0 rgb <%s>*.55] [.5 rgb <%s>] [1 rgb <%s>*1.35] } } finish { ambient .12 diffuse .45 }"
        strip(420000, -50, hill(15500), 700, green % (30000, 6000, 30000, ".22,.27,.29", ".24,.29,.30", ".25,.30,.30"))
        strip(250000, -50, wood(6500), 2600, green % (2600, 1700, 2600, ".10,.14,.085", ".12,.16,.09", ".13,.17,.10"))
        strip(108000, -50, lambda a, i: 1650, 200, "pigment { granite scale 2500 color_map { [0 rgb <.20,.19,.17>] [1 rgb <.40,.38,.35>] } } finish { ambient .05 diffuse .6 }")
        walls, roofs, panes = [Mesh(), Mesh(), Mesh()], Mesh(), Mesh()
        def quad(m, p, n):
            k = len(m.v)
            m.v += p
            m.n += [n] * 4
            m.f += [(k, k + 1, k + 2), (k, k + 2, k + 3)]
        for i in range(34):
            a = 2 * math.pi * (i + rnd.random() * .7) / 34
            D, w, h, d = rnd.uniform(113000, 140000), rnd.uniform(3500, 11000), rnd.uniform(3600, 8200), 5000
            if i % 5 == 2:
                w, h = w * .45, h * 1.5
            tang, out = (math.cos(a), 0, -math.sin(a)), (math.sin(a), 0, math.cos(a))
            P = lambda x, y, z: (D * out[0] + x * tang[0] + z * out[0], y, D * out[2] + x * tang[2] + z * out[2])
            wall = walls[i % 3]
            inn = mul(out, -1)
            quad(wall, [P(-w, 0, -d), P(w, 0, -d), P(w, h, -d), P(-w, h, -d)], inn)
            for e in (-1, 1):
                quad(wall, [P(e * w, 0, -d), P(e * w, 0, d), P(e * w, h, d), P(e * w, h, -d)], mul(tang, e))
            if i % 2:
                quad(roofs, [P(-w * 1.04, h, -d * 1.1), P(w * 1.04, h, -d * 1.1), P(w * 1.04, h * 1.0 + d * .8, 0), P(-w * 1.04, h + d * .8, 0)], unit((inn[0], .9, inn[2])))
            else:
                quad(wall, [P(-w, h, -d), P(w, h, -d), P(0, h + w * .55, -d), P(0, h + w * .55, -d)], inn)
                for e in (-1, 1):
                    quad(roofs, [P(e * w * 1.07, h * .96, -d * 1.1), P(0, h + w * .6, -d * 1.1), P(0, h + w * .6, d), P(e * w * 1.07, h * .96, d)], unit((e * tang[0], 1, e * tang[2])))
            x = -w + 900
            while x < w - 1500:
                for y in ((1900, 4900) if h > 6400 else (1900,)):
                    if rnd.random() < .75:
                        quad(panes, [P(x, y, -d - 30), P(x + 950, y, -d - 30), P(x + 950, y + 1400, -d - 30), P(x, y + 1400, -d - 30)], inn)
                x += 2100
        for m, c in zip(walls, ("<.46,.43,.38>", "<.33,.19,.15>", "<.50,.50,.48>")):
            self.put("bg", self.mesh(m), "pigment { bozo scale 900 turbulence .5 color_map { [0 rgb %s*.85] [1 rgb %s] } } finish { ambient .07 diffuse .55 }" % (c, c))
        self.put("bg", self.mesh(roofs), "pigment { granite scale 2000 color_map { [0 rgb <.17,.13,.12>] [1 rgb <.27,.20,.17>] } } finish { ambient .07 diffuse .5 }")
        self.put("bg", self.mesh(panes), "pigment { rgb <.05,.06,.07> } finish { ambient .05 diffuse .3 specular .2 }")

    def boat(self):
        self.shore()
        zs = [HALF_BEAM[0][0] + (HALF_BEAM[-1][0] - HALF_BEAM[0][0]) * i / 60 for i in range(61)]
        pts = [(half_beam(z), z) for z in zs]
        up = (0, 1, 0)
        m = Mesh()
        for i, (b, z) in enumerate(pts):
            for x in (-b, b):
                m.v.append((x, DECK, z))
                m.n.append(up)
            if i:
                k = 2 * i
                m.f += [(k - 2, k - 1, k), (k - 1, k + 1, k)]
        self.put("deck", self.mesh(m), "DeckPlanks()")
        hull = Mesh()
        for sgn in (-1, 1):
            levels = [(1.0, DECK), (.985, 700), (.93, 350), (.84, -200)]
            base = len(hull.v)
            for b, z in pts:
                for f, y in levels:
                    hull.v.append((sgn * b * f, y, z * (1 - (1 - f) * .35)))
                    hull.n.append(unit((sgn, -.25, .0 if abs(z) < 2500 else (.5 if z > 0 else -.2))))
            w = len(levels)
            for i in range(len(pts) - 1):
                for j in range(w - 1):
                    k = base + i * w + j
                    hull.f += [(k, k + 1, k + w), (k + 1, k + w + 1, k + w)]
        # transom
        base = len(hull.v)
        b, z = pts[0]
        for x, y in ((-b, DECK), (b, DECK), (b * .84, -200), (-b * .84, -200)):
            hull.v.append((x, y, z * (1.0 if y > 0 else .944)))
            hull.n.append((0, 0, -1))
        hull.f += [(base, base + 1, base + 2), (base, base + 2, base + 3)]
        self.put("deck", self.mesh(hull), "Gel(41,<.05,.085,.15>)")
        for side in (-1, 1):
            line = [(side * (b - 14), DECK + 26, z) for b, z in pts]
            m = Mesh().tube(line, 24, 10)
            self.put("deck", self.mesh(m), "Rail(44)")
            base = [(side * (b - 14), DECK + 4, z) for b, z in pts]
            self.put("deck", self.mesh(Mesh().tube(base, 17, 8)), "Rail(45)")
            heights = (610, 330)
            posts = [-4700, -3100, -1500, 650, 2100, 3300]
            for z in posts:
                x = side * (half_beam(z) - 70)
                if (side, z) != gear.LOOSE:
                    self.put("deck", "Stanchion(%d)" % (abs(z) % 97), "translate <%g,%g,%g>" % (x, DECK, z))
            for h in heights:
                line = [(side * (half_beam(z) - 70) - gear.wire_shift(side, z, h), DECK + h, z) for z in [-5200] + posts + [3600]]
                self.put("deck", self.mesh(Mesh().tube(line, 2.6, 8)), "Steel(47,.4)")
            rail = [(side * 560, DECK + 40, 3600), (side * 560, DECK + 560, 3600), (side * 500, DECK + 640, 3720), (side * 260, DECK + 690, 4300), (side * 120, DECK + 700, 4520)]
            self.put("deck", self.mesh(Mesh().tube(smooth(rail), 13, 12)), "Steel(48,.3)")
            self.put("deck", "cylinder { <%g,%g,4080>, <%g,%g,4160>, 12 }" % (side * 240, DECK, side * 300, DECK + 670), "Steel(49,.3)")
            rail = [(side * 1100, DECK + 40, -5000), (side * 1090, DECK + 560, -5010), (side * 1070, DECK + 640, -5120), (side * 900, DECK + 655, -5480), (side * 420, DECK + 655, -5590)]
            self.put("deck", self.mesh(Mesh().tube(smooth(rail), 13, 12)), "Steel(50,.3)")
            self.put("deck", "cylinder { <%g,%g,-5570>, <%g,%g,-5590>, 12 }" % (side * 430, DECK, side * 430, DECK + 655), "Steel(51,.3)")
            self.put("deck", "Winch(%d)" % (52 + side), "translate <%g,%g,-2950>" % (side * 1010, DECK + 230))
        self.put("deck", "CoachRoof()")


HEADER = """#version 3.7;
global_settings { assumed_gamma 1.0 max_trace_level 6 %s }
"""


import gear      # it needs the names above
