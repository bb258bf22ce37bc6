"""Read a DXF file that we wrote with an independent library (ezdxf) and measure it.

    measure.py FILE [LAYER]

Prints one JSON line: errors that the library finds, those it mends among them, the extents of everything drawn, the width of the
lines of each layer in hundredths of a millimetre; then one per
closed polyline on the layer, blocks placed: name of the block, area, length and bounds in mm, from
GEOS (shapely).
"""

import json
import sys

import ezdxf
from ezdxf import bbox
from shapely.geometry import Polygon


def placed(entities, block=""):
    for e in entities:
        if e.dxftype() == "INSERT":
            yield from placed(e.virtual_entities(), e.dxf.name)
        else:
            yield block, e


def main():
    doc = ezdxf.readfile(sys.argv[1])
    layer = sys.argv[2] if len(sys.argv) > 2 else "1"
    found = doc.audit()
    errors = [str(e.message) for e in found.errors + found.fixes]
    lines = [e for _, e in placed(doc.modelspace()) if e.dxftype() in ("LINE", "POLYLINE", "LWPOLYLINE")]
    box = bbox.extents(lines)
    weights = {l.dxf.name: l.dxf.lineweight for l in doc.layers}
    print(json.dumps({"errors": errors, "weights": weights, "unit": doc.header.get("$INSUNITS", 0), "bounds": [box.extmin.x, box.extmin.y, box.extmax.x, box.extmax.y]}))
    for block, e in placed(doc.modelspace()):
        if e.dxf.layer == layer and e.dxftype() in ("POLYLINE", "LWPOLYLINE") and e.is_closed:
            if e.dxftype() == "POLYLINE":
                points = [(v.dxf.location.x, v.dxf.location.y) for v in e.vertices]
            else:
                points = [(p[0], p[1]) for p in e.get_points()]
            shape = Polygon(points)
            print(json.dumps({"name": block, "area": shape.area, "length": shape.length, "bounds": shape.bounds}))


if __name__ == "__main__":
    main()
