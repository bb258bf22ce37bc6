"""Write DXF files with an independent library (ezdxf) and measure them.

    write.py plain FILE    outlines of every kind of line, without the structure of sewn products
    write.py sewn FILE     pattern pieces in blocks after ASTM D6673, in inches, in two sizes

Prints one JSON line per outline: name, area, length and bounds in mm, y up, from ezdxf's own
geometry at 0.001 mm or finer through GEOS (shapely).
"""

import json
import math
import sys

import ezdxf
from ezdxf import path
from shapely.geometry import LineString, Polygon
from shapely.ops import linemerge, polygonize

FINE = 0.0001


def say(name, shape):
    print(json.dumps({"name": name, "area": shape.area, "length": shape.length, "bounds": shape.bounds}))


def flat(entity):
    # arcs, circles, ellipses and splines are flattened from their own formulas; a path would
    # stand Bézier curves in their places, which are longer than a circle by 1 in 8000
    curve = entity if hasattr(entity, "flattening") else path.make_path(entity)
    return [(p.x, p.y) for p in curve.flattening(FINE)]


def joined(entities):
    """One outline of lines that meet end to end."""
    lines = []
    for e in entities:
        points = [(round(x, 6), round(y, 6)) for x, y in flat(e)]
        lines.append(LineString(points))
    merged = linemerge(lines)
    shapes = list(polygonize([merged])) if merged.geom_type == "LineString" else list(polygonize(merged))
    assert len(shapes) == 1, shapes
    return shapes[0]


def plain(name):
    doc = ezdxf.new("R2010", setup=True)
    doc.header["$INSUNITS"] = 5  # centimetres
    space = doc.modelspace()
    for layer in ("LINES", "CURVES", "INNER", "OFF"):
        doc.layers.add(layer)
    doc.layers.get("OFF").off()
    found = []

    def outline(label, shape):
        # the library's numbers are centimetres
        from shapely.affinity import scale

        found.append((label, scale(shape, 10, 10, origin=(0, 0))))

    # lines and arcs in any order and direction
    parts = [
        space.add_line((0, 0), (30, 0), dxfattribs={"layer": "LINES"}),
        space.add_arc((30, 10), 10, 270, 90, dxfattribs={"layer": "LINES"}),
        space.add_line((0, 20), (30, 20), dxfattribs={"layer": "LINES"}),
        space.add_line((0, 20), (0, 0), dxfattribs={"layer": "LINES"}),
    ]
    outline("stadium", joined(parts))
    space.add_text("stadium", dxfattribs={"insert": (10, 10), "layer": "LINES"})

    # bulges
    bulged = space.add_lwpolyline([(60, 0, 0.4), (90, 0, 0), (90, 40, -0.25), (60, 40, 0)], format="xyb", close=True, dxfattribs={"layer": "CURVES"})
    outline("bulged", Polygon(flat(bulged)))
    old = space.add_polyline2d([(100, 0, 0.1), (130, 0, 0.3), (130, 25, 0), (100, 30, 0)], format="xyb", close=True, dxfattribs={"layer": "CURVES"})
    outline("old", Polygon(flat(old)))

    circle = space.add_circle((20, 60), 12.5, dxfattribs={"layer": "CURVES"})
    outline("circle", Polygon(flat(circle)))
    ellipse = space.add_ellipse((60, 70), (18, 7), 0.4, dxfattribs={"layer": "CURVES"})
    outline("ellipse", Polygon(flat(ellipse)))
    part = [
        space.add_ellipse((100, 70), (20, 0), 0.5, 0, math.pi, dxfattribs={"layer": "LINES"}),
        space.add_line((80, 70), (120, 70), dxfattribs={"layer": "LINES"}),
    ]
    outline("half", joined(part))

    # splines: open with a line across, rational, closed
    open_spline = space.add_open_spline([(0, 90), (5, 120), (20, 130), (33, 100), (40, 90)], degree=3, dxfattribs={"layer": "LINES"})
    across = space.add_line((40, 90), (0, 90), dxfattribs={"layer": "LINES"})
    outline("spline", joined([open_spline, across]))
    rational = space.add_rational_spline([(60, 90), (60, 130), (100, 130), (100, 90)], [1, 3, 0.5, 1], degree=3, dxfattribs={"layer": "LINES"})
    line = space.add_line((60, 90), (100, 90), dxfattribs={"layer": "LINES"})
    outline("rational", joined([rational, line]))

    # a block placed turned and scaled, twice inside another
    block = doc.blocks.new("POCKET", base_point=(1, 2))
    block.add_lwpolyline([(0, 0), (12, 0), (12, 14), (6, 18), (0, 14)], close=True)
    outer = doc.blocks.new("POCKETS")
    outer.add_blockref("POCKET", (5, 0), dxfattribs={"rotation": 30})
    outer.add_blockref("POCKET", (40, 0), dxfattribs={"xscale": -1.5, "yscale": 1.5})
    ref = space.add_blockref("POCKETS", (10, 150), dxfattribs={"rotation": 10, "layer": "CURVES"})
    for inner in ref.virtual_entities():
        for e in inner.virtual_entities():
            outline("POCKET", Polygon(flat(e)))

    # seen from behind, in a plane of its own
    behind = space.add_lwpolyline([(-130, 0), (-160, 0), (-160, 20)], close=True, dxfattribs={"extrusion": (0, 0, -1), "layer": "CURVES"})
    outline("behind", Polygon(flat(behind)))

    # what is not an outline
    space.add_lwpolyline([(0, 0), (500, 0), (500, 500)], close=True, dxfattribs={"layer": "OFF"})
    space.add_hatch().paths.add_polyline_path([(0, 0), (5, 0), (5, 5)], is_closed=True)
    space.add_line((10, 5), (20, 5), dxfattribs={"layer": "LINES"})

    doc.saveas(name)
    for label, shape in found:
        say(label, shape)


def sewn(name):
    doc = ezdxf.new("R12")
    space = doc.modelspace()
    for n in (1, 2, 3, 4, 5, 6, 7, 8, 11, 13, 14, 15, 80):
        doc.layers.add(str(n))
    for text in ("STYLE NAME: Harbour top", "AUTHOR: Tests", "UNITS: ENGLISH", "SAMPLE SIZE: M", "CREATION DATE: 1-2-2003"):
        space.add_text(text, dxfattribs={"layer": "1"})

    def block(label, piece, size, points, quantity, *, mirror=None, grain=None, material=None):
        b = doc.blocks.new(label)
        b.add_polyline2d(points, close=True, dxfattribs={"layer": "1"})
        for x, y in points:
            b.add_point((x, y), dxfattribs={"layer": "2"})
        words = [f"PIECE NAME: {piece}", f"SIZE: {size}", f"QUANTITY: {quantity}"]
        if material:
            words.append(f"MATERIAL: {material}")
        for i, text in enumerate(words):
            b.add_text(text, dxfattribs={"layer": "1", "insert": (4, 4 + i)})
        if mirror:
            b.add_line(*mirror, dxfattribs={"layer": "6"})
        if grain:
            b.add_line(*grain, dxfattribs={"layer": "7"})
        space.add_blockref(label, (0, 0), dxfattribs={"layer": "1"})
        say(f"{piece} {size}", Polygon([(x * 25.4, y * 25.4) for x, y in points]))
        return b

    for size, k in (("M", 1.0), ("S", 0.9)):
        # half a front, grain upright, its fold on the right
        front = [(10 * x, k * y) for x, y in ((1.0, 2), (1.0, 12), (0.9, 20), (0.5, 24), (0.2, 20), (0.1, 2))]
        b = block(f"FRONT-{size}", "Front", size, front, 1, mirror=((10, 2 * k), (10, 12 * k)), grain=((6, 4 * k), (6, 16 * k)), material="SELF")
        b.add_point((10, 7 * k), dxfattribs={"layer": "4"})
        b.add_point((5.5, 2 * k), dxfattribs={"layer": "80"})
        b.add_line((2, 10 * k), (9, 10 * k), dxfattribs={"layer": "8"})
        b.add_circle((6, 8 * k), 0.125, dxfattribs={"layer": "13"})
        sleeve = [(k * x, y) for x, y in ((0, 0), (14, 0), (12, 5), (7, 8), (2, 5))]
        b = block(f"SLEEVE-{size}", "Sleeve", size, sleeve, "1,1", grain=((7, 6), (7, 1)), material="Mesh 4")
        b.add_text("ease here", dxfattribs={"layer": "15", "insert": (3, 3)})
        b.add_text("ANNOTATION: set in flat", dxfattribs={"layer": "1", "insert": (3, 2)})
    # a collar whose mirror line lies across its grain, in one size
    block("COLLAR", "Collar", "M", [(0, 0), (8, 0), (8, 2.5), (1, 3)], 2, mirror=((0, 0), (8, 0)), grain=((4, 0.5), (4, 2)))
    doc.saveas(name)


if __name__ == "__main__":
    {"plain": plain, "sewn": sewn}[sys.argv[1]](sys.argv[2])
