"""Measure outlines and stretches with GEOS (Debian package python3-shapely), independently.

Reads one JSON line each: {"ring": [[x, y], …]} or {"line": [[x, y], …]} in µm, and prints a JSON line:
area, length and bounds of the ring, or the length of the line.
"""

import json
import sys

from shapely.geometry import LineString, Polygon

for text in sys.stdin:
    item = json.loads(text)
    if "ring" in item:
        shape = Polygon(item["ring"])
        print(json.dumps({"area": shape.area, "length": shape.length, "bounds": shape.bounds}))
    else:
        print(json.dumps({"length": LineString(item["line"]).length}))
