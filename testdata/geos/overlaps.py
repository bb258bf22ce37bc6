"""Measures layouts with GEOS, the geometry library behind shapely.

Reads one layout a line as JSON from standard input, lengths in whole micrometres:
  {"id": a number to know it by, "clearance": c,
   "cloths": [{"outer": ring, "holes": [ring], "obstacles": [ring], "start": x, "used": length used from there,
               "free": whether the cloth is an outline, whose edge asks for the clearance as well,
               "bands": [{"from": y, "to": y, "layers": n, "low": fold at from, "high": fold at to}]}],
   "laid": [{"cloth": i, "outline": ring, "angle": thousandths of a degree, "mirror": bool, "x": x, "y": y,
             "layers": n or 0 for any, "fold": bool, "repeat": r, "phase": p}]}
Writes one line a layout: its id, the greatest common area of two outlines or of an outline and an
obstacle, the greatest area outside the cloth or across the bands (mm2), the greatest lack of clearance
(mm), and the most by which a fold, a repeat or a length used is missed (mm).
Outlines are mirrored, turned, rounded and moved here, not by the program under test.
"""
import json
import math
import sys

from shapely.geometry import Polygon, box


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


def across(piece, a, bands):
    """Of the band that serves a piece best: the area outside it, and the distance to the fold asked for."""
    x0, y0, x1, y1 = a.bounds
    best = (a.area, 0.0)  # no band serves it
    for b in bands:
        if piece["layers"] not in (0, b["layers"]):
            continue
        folds = [abs(piece["y"] - b[y]) / 1000 for y, fold in (("from", b["low"]), ("to", b["high"])) if fold]
        if piece["fold"] and not folds:
            continue
        over = a.difference(box(x0 - 1, b["from"] / 1000, x1 + 1, b["to"] / 1000)).area
        best = min(best, (over, min(folds) if piece["fold"] else 0.0))
    return best


def measure(layout):
    need = layout["clearance"] / 1000
    cloths = [(polygon(c["outer"], c["holes"]), [polygon(o) for o in c["obstacles"]], c) for c in layout["cloths"]]
    laid = [(p["cloth"], lay(p), p) for p in layout["laid"]]
    overlap = outside = lack = missed = 0.0
    end = [c["start"] / 1000 for c in layout["cloths"]]
    for i, (on, a, piece) in enumerate(laid):
        cloth, obstacles, c = cloths[on]
        outside = max(outside, a.difference(cloth).area)
        end[on] = max(end[on], a.bounds[2])
        if c["free"] and need:
            lack = max(lack, need - a.distance(cloth.boundary))
        bands = c["bands"] or [{"from": -1e12, "to": 1e12, "layers": 1, "low": False, "high": False}]
        over, off = across(piece, a, bands)
        outside, missed = max(outside, over), max(missed, off)
        if piece["repeat"]:
            off = (piece["x"] - piece["phase"]) % piece["repeat"]
            missed = max(missed, min(off, piece["repeat"] - off) / 1000)
        others = obstacles + [b for other, b, _ in laid[:i] if other == on]
        for b in others:
            area, missing = apart(a, b, need)
            overlap, lack = max(overlap, area), max(lack, missing)
    for (_, _, c), x in zip(cloths, end):
        missed = max(missed, abs(x - (c["start"] + c["used"]) / 1000))
    return layout["id"], overlap, outside, lack, missed


for line in sys.stdin:
    print("%d %.9f %.9f %.9f %.9f" % measure(json.loads(line)))
