"""Opens cloths with GEOS, the geometry library behind shapely, and compares.

Reads one cloth a line as JSON, lengths in whole micrometres: outer, holes, cut (rings), probes
(Length, Width) and parts (Outer, Holes) as the program found them. Writes a line each: the area of the
parts, the area that is in them but not in what GEOS finds, the area GEOS finds that is not in them
(mm2), and the length of all edges (mm).
What a probe covers is the rest less what its edges sweep, swept by the probe itself.
"""
import json
import sys

from shapely.geometry import MultiPoint, Polygon
from shapely.ops import unary_union


def mm(ring):
    return [(p["X"] / 1000, p["Y"] / 1000) for p in ring]


def edges(shape):
    for poly in getattr(shape, "geoms", [shape]):
        for ring in [poly.exterior, *poly.interiors]:
            c = list(ring.coords)
            yield from zip(c, c[1:])


def swept(shape, dx, dy):
    return unary_union([MultiPoint([(x + i, y + j) for x, y in e for i in (0, dx) for j in (0, dy)]).convex_hull for e in edges(shape)])


def opened(rest, probe):
    w, h = probe["Length"] / 1000, probe["Width"] / 1000
    free = rest.difference(swept(rest, -w, -h))
    return Polygon() if free.is_empty else unary_union([free, swept(free, w, h)])


for line in sys.stdin:
    q = json.loads(line)
    cloth = Polygon(mm(q["outer"]), [mm(h) for h in q["holes"] or []])
    rest = cloth.difference(unary_union([Polygon(mm(c)) for c in q["cut"] or []]))
    want = unary_union([opened(rest, p) for p in q["probes"]]) if not rest.is_empty else Polygon()
    got = unary_union([Polygon(mm(p["Outer"]), [mm(h) for h in p["Holes"] or []]) for p in q["parts"] or []])
    print(got.area, got.difference(want).area, want.difference(got).area, cloth.length + rest.length + want.length)
