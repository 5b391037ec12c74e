"""What demo/render has in front of its camera, for holding what is measured on its pictures against it."""
import math, os, sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.join(HERE, "..", "demo", "render"))
import fittings, render, shots  # noqa: E402
from world import STAYS, World, add, cross, dot, length, mul, sub, unit  # noqa: E402


class Photo:
    """One close picture: where points of the scene stand in it, in widths of the picture."""

    def __init__(self, name):
        _, todo = shots.plan(World().build(), render.project, render.hfov)
        self.shot = next(one for one in todo if one["name"] == name)

    def at(self, point):
        shot = self.shot
        return render.project(shot["cam"], shot["target"], shot["hfov"], shot["aspect"], point, shot.get("roll", 0))

    @property
    def axis(self):
        return unit(sub(self.shot["target"], self.shot["cam"]))

    def facing(self, *directions):
        """1 if these directions lie square to the axis of the camera, in the plane of the picture."""
        return min(math.sqrt(max(0, 1 - dot(self.axis, unit(one)) ** 2)) for one in directions)

    def across(self, point, axis, width):
        """The two outlines of something round along `axis` at `point`."""
        sight = unit(sub(self.shot["cam"], point))
        side = mul(unit(cross(sight, unit(axis))), width / 2)
        return self.at(add(point, side)), self.at(sub(point, side))


def degrees_between(a, b):
    return math.degrees(math.acos(max(-1, min(1, dot(unit(a), unit(b))))))
