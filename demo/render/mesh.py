"""Meshes that are easier to compute than to build from solids: wires, threads, tubes."""
import math


def sub(a, b): return (a[0] - b[0], a[1] - b[1], a[2] - b[2])
def add(a, b): return (a[0] + b[0], a[1] + b[1], a[2] + b[2])
def mul(a, k): return (a[0] * k, a[1] * k, a[2] * k)
def dot(a, b): return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
def cross(a, b): return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
def length(a): return math.sqrt(dot(a, a))
def unit(a):
    n = length(a)
    return (a[0] / n, a[1] / n, a[2] / n) if n else (0.0, 1.0, 0.0)


def pov(v): return "<%.5g,%.5g,%.5g>" % tuple(v)


class Mesh:
    def __init__(self):
        self.v, self.n, self.f = [], [], []

    def grid(self, rows):
        """rows: lists of (point, normal), each row closed on itself."""
        base, k = len(self.v), len(rows[0])
        for row in rows:
            for p, n in row:
                self.v.append(p)
                self.n.append(n)
        for i in range(len(rows) - 1):
            for j in range(k):
                a, b = base + i * k + j, base + i * k + (j + 1) % k
                c, d = a + k, b + k
                self.f += [(a, b, c), (b, d, c)]

    def tube(self, points, radius, sides=10, capped=True):
        """A round tube along a line of points; radius is a number or one per point."""
        radii = radius if isinstance(radius, (list, tuple)) else [radius] * len(points)
        t = unit(sub(points[1], points[0]))
        u = unit(cross(t, (0.3, 0.2, 0.93) if abs(t[2]) < 0.9 else (0, 1, 0.1)))
        rows = []
        for i, p in enumerate(points):
            a, b = points[max(i - 1, 0)], points[min(i + 1, len(points) - 1)]
            t = unit(sub(b, a))
            u = unit(sub(u, mul(t, dot(u, t))))
            w = cross(t, u)
            row = []
            for j in range(sides):
                q = 2 * math.pi * j / sides
                n = add(mul(u, math.cos(q)), mul(w, math.sin(q)))
                row.append((add(p, mul(n, radii[i])), n))
            rows.append(row)
        if capped:
            for end, at, sign in ((0, 0, -1), (len(points) - 1, None, 1)):
                a, b = points[max(end - 1, 0)], points[min(end + 1, len(points) - 1)]
                n = mul(unit(sub(b, a)), sign)
                cap = [[(p, n) for p, _ in rows[end]], [(points[end], n)] * sides]
                self.grid(cap if sign > 0 else cap[::-1])
        self.grid(rows)
        return self

    def text(self):
        o = ["mesh2{vertex_vectors{%d" % len(self.v)]
        o += ["," + pov(p) for p in self.v]
        o.append("}normal_vectors{%d" % len(self.n))
        o += ["," + pov(p) for p in self.n]
        o.append("}face_indices{%d" % len(self.f))
        o += [",<%d,%d,%d>" % f for f in self.f]
        o.append("}}")
        return "".join(o)


LAY = 9.5          # lay length of 1x19 strand, in strand diameters


def wire_point(k, y, out=0.0):
    """Centre line of outer wire k of a strand of diameter 1 at height y."""
    a = 2 * math.pi * (k / 12.0 + y / LAY)
    r = 0.4 + out
    return (r * math.cos(a), y, r * math.sin(a))


def strand_wire(k=0, y0=0.0, y1=LAY, step=0.22):
    n = max(2, int(round((y1 - y0) / step)))
    pts = [wire_point(k, y0 + (y1 - y0) * i / n) for i in range(n + 1)]
    return Mesh().tube(pts, 0.1035, 10, capped=False)


def strand_pitch(wires=range(12), y0=0.0, y1=LAY, step=0.22, sides=8):
    m = Mesh()
    n = max(2, int(round((y1 - y0) / step)))
    for k in wires:
        m.tube([wire_point(k, y0 + (y1 - y0) * i / n) for i in range(n + 1)], 0.1035, sides, capped=False)
    m.tube([(0, y0, 0), (0, (y0 + y1) / 2, 0), (0, y1, 0)], 0.31, 10, capped=False)
    return m


def broken_wire(k, y0, y_break, y1):
    """A wire that has parted at y_break: one end sprung out, the other still lying in its lay."""
    m = Mesh()
    a, b = [], []
    n = 60
    for i in range(n + 1):
        y = y0 + (y_break - y0) * i / n
        t = max(0.0, (y - (y_break - 3.2)) / 3.2)
        p = wire_point(k, y - 0.45 * t * t, 0.75 * t * t)
        a.append(p)
    for i in range(n + 1):
        y = y_break + 0.12 + (y1 - y_break - 0.12) * i / n
        t = max(0.0, 1 - (y - y_break) / 1.0)
        b.append(wire_point(k, y, 0.06 * t * t))
    m.tube(a, 0.103, 12)
    m.tube(b, 0.103, 12)
    return m, a[-1]


def thread(length_, r, pitch, sides=28, per=7):
    """A helical screw thread along y from 0 to length_."""
    m = Mesh()
    rows = []
    n = int(length_ / pitch * per)
    depth = pitch * 0.52
    for i in range(n + 1):
        y = length_ * i / n
        row = []
        for j in range(sides):
            a = 2 * math.pi * j / sides
            f = (y / pitch - j / sides) % 1.0
            tri = abs(2 * f - 1)
            prof = min(1.0, max(0.0, (tri - 0.06) / 0.80))
            slope = 0.0 if tri <= 0.06 or tri >= 0.86 else (1 if f > 0.5 else -1) * 1.3
            rr = r - depth * (1 - prof)
            n_ = unit((math.cos(a), -slope, math.sin(a)))
            row.append(((rr * math.cos(a), y, rr * math.sin(a)), n_))
        rows.append(row)
    m.grid(rows)
    top = [(p, (0, 1, 0)) for p, _ in rows[-1]]
    m.grid([top, [((0, length_, 0), (0, 1, 0))] * sides])
    bot = [(p, (0, -1, 0)) for p, _ in rows[0]]
    m.grid([[((0, 0, 0), (0, -1, 0))] * sides, bot])
    return m


def split_pin(size, legs, spread_deg, sides=8):
    """A split pin along +y: the eye at the bottom (below y=0), legs from 0 upward that open beyond `legs`.
    size is the hole; the legs are half-round in truth, two thin round wires here."""
    r = size * 0.27
    m = Mesh()
    eye = []
    R = size * 0.85
    for i in range(19):
        q = math.radians(-62 + (360 - 56) * i / 18.0)
        eye.append((R * math.sin(q + math.pi) , -R * 1.15 - R * math.cos(q + math.pi) * 1.05, 0))
    # two legs
    for s in (1, -1):
        pts = [(s * r * 1.6, -R * 0.35, 0), (s * r * 1.0, 0, 0), (s * r * 1.0, legs, 0)]
        a = math.radians(spread_deg / 2)
        L = size * (5.0 if s > 0 else 4.4)
        steps = 8
        x, y = s * r * 1.0, legs
        for i in range(1, steps + 1):
            t = a * min(1.0, i / 3.0)
            x += s * math.sin(t) * L / steps
            y += math.cos(t) * L / steps
            pts.append((x, y, 0))
        m.tube(pts, r, sides)
    loop = []
    for i in range(21):
        q = math.radians(20 + 320 * i / 20.0)
        loop.append((R * math.sin(q), -R * 1.25 + R * math.cos(q), 0))
    m.tube(loop, r * 1.05, sides)
    return m


def helix(r, pitch, turns, wire, sides=8, jitter=None, y0=0.0):
    pts = []
    n = int(turns * 22)
    for i in range(n + 1):
        a = 2 * math.pi * i / 22.0
        j = jitter(i) if jitter else 0.0
        pts.append(((r + j) * math.cos(a), y0 + pitch * i / 22.0, (r + j) * math.sin(a)))
    return Mesh().tube(pts, wire, sides)


def rope(points, radius, sides=12):
    return Mesh().tube(smooth(points), radius, sides)


def smooth(points, per=8):
    """Catmull-Rom through the points."""
    p = [points[0]] + list(points) + [points[-1]]
    out = []
    for i in range(1, len(p) - 2):
        for k in range(per):
            t = k / per
            q = []
            for c in range(3):
                a, b, d, e = p[i - 1][c], p[i][c], p[i + 1][c], p[i + 2][c]
                q.append(0.5 * (2 * b + (d - a) * t + (2 * a - 5 * b + 4 * d - e) * t * t + (3 * b - a - 3 * d + e) * t ** 3))
            out.append(tuple(q))
    out.append(tuple(points[-1]))
    return out
