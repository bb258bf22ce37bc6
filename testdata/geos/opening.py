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


# A free part thinner than this, in mm, is rounding along an edge: it may be found or not.
THINNEST = 0.02


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
    """What the probe covers, by places of some size and by all."""
    w, h = probe["Length"] / 1000, probe["Width"] / 1000
    free = rest.difference(swept(rest, -w, -h))
    # Where edges almost coincide a difference may come back with a face that never was in the rest.
    free = unary_union([g for g in getattr(free, "geoms", [free]) if not g.is_empty and rest.contains(g.representative_point())])
    covers = lambda parts: unary_union([p for g in getattr(parts, "geoms", [parts]) if not g.is_empty for p in (g, swept(g, w, h))])
    return covers(free.buffer(-THINNEST, join_style=2).buffer(THINNEST, join_style=2)), covers(free)


for line in sys.stdin:
    q = json.loads(line)
    cloth = Polygon(mm(q["outer"]), [mm(h) for h in q["holes"] or []])
    rest = cloth.difference(unary_union([Polygon(mm(c)) for c in q["cut"] or []]))
    both = [opened(rest, p) for p in q["probes"]] if not rest.is_empty else []
    least, most = unary_union([a for a, _ in both]), unary_union([b for _, b in both])
    got = unary_union([Polygon(mm(p["Outer"]), [mm(h) for h in p["Holes"] or []]) for p in q["parts"] or []])
    print(got.area, got.difference(most).area, least.difference(got).area, cloth.length + rest.length + most.length)
