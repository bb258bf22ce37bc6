"""Measures layouts with GEOS, the geometry library behind shapely.

Reads one layout a line as JSON from standard input, lengths in whole micrometres:
  {"clearance": c, "cloths": [{"outer": ring, "holes": [ring], "obstacles": [ring],
               "free": whether the cloth is an outline, whose edge asks for the clearance as well}],
   "laid": [{"cloth": i, "outline": ring, "angle": thousandths of a degree, "mirror": bool, "x": x, "y": y}]}
Writes one line a layout: the greatest common area of two outlines or of an outline and an
obstacle, the greatest area outside the cloth (mm2), and the greatest lack of clearance (mm).
Outlines are mirrored, turned, rounded and moved here, not by the program under test.
"""
import json
import math
import sys

from shapely.geometry import Polygon


def away(v):
    """Rounds to the nearest integer, halves away from zero."""
    return math.copysign(math.floor(abs(v) + 0.5), v)


QUARTERS = {0: (1.0, 0.0), 90000: (0.0, 1.0), 180000: (-1.0, 0.0), 270000: (0.0, -1.0)}


def lay(piece):
    a = piece["angle"] % 360000
    cos, sin = QUARTERS.get(a) or (math.cos(math.radians(a / 1000)), math.sin(math.radians(a / 1000)))
    points = []
    for x, y in piece["outline"]:
        if piece["mirror"]:
            y = -y
        points.append(((away(x * cos - y * sin) + piece["x"]) / 1000, (away(x * sin + y * cos) + piece["y"]) / 1000))
    return Polygon(points)


def polygon(outer, holes=()):
    mm = lambda ring: [(x / 1000, y / 1000) for x, y in ring]
    return Polygon(mm(outer), [mm(h) for h in holes])


def apart(a, b, need):
    """The common area, and how much is missing to the distance needed."""
    (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) = a.bounds, b.bounds
    if ax0 > bx1 + need or bx0 > ax1 + need or ay0 > by1 + need or by0 > ay1 + need:
        return 0.0, 0.0
    return a.intersection(b).area, max(0.0, need - a.distance(b)) if need else 0.0


def measure(layout):
    need = layout["clearance"] / 1000
    cloths = [(polygon(c["outer"], c["holes"]), [polygon(o) for o in c["obstacles"]], c["free"]) for c in layout["cloths"]]
    laid = [(p["cloth"], lay(p)) for p in layout["laid"]]
    overlap = outside = lack = 0.0
    for i, (on, a) in enumerate(laid):
        cloth, obstacles, free = cloths[on]
        outside = max(outside, a.difference(cloth).area)
        if free and need:
            lack = max(lack, need - a.distance(cloth.boundary))
        others = obstacles + [b for other, b in laid[:i] if other == on]
        for b in others:
            area, missing = apart(a, b, need)
            overlap, lack = max(overlap, area), max(lack, missing)
    return overlap, outside, lack


for line in sys.stdin:
    print("%.9f %.9f %.9f" % measure(json.loads(line)))
