#!/usr/bin/python3
"""Checks layouts of strips with GEOS, through Debian's python3-shapely.

    bench.py FOLDER RUNS.json

FOLDER holds the instance files, RUNS.json is what nestbench wrote with -json. Each placement turns
its item by an angle in degrees about the item's own origin and then moves it by x and y; all of it
must lie in 0 <= x <= length, 0 <= y <= strip height. A line a run says the length and the density as
measured here, the greatest common area of two items and the greatest area outside, in the unit of the
file squared, and what is wrong. The exit status is 1 if anything is.

Overlaps up to a millionth of the strip height along an edge count as touching: at other than quarter
turns each corner is rounded, to less than that.
"""
import collections
import json
import os
import sys

from shapely.affinity import rotate, translate
from shapely.geometry import Polygon, box

TOUCHING = 1e-6  # of the strip height


def check_copies(items, placements):
    """Says which items are laid too rarely or too often, or turned as they may not be."""
    laid = collections.Counter(p["item"] for p in placements)
    for i, item in enumerate(items):
        if laid.pop(i, 0) != item["demand"]:
            yield "item %d is not laid %d times" % (i, item["demand"])
    if laid:
        yield "there is no item %s" % ", ".join(map(str, laid))
    for p in placements:
        if p["item"] >= len(items):
            continue
        allowed = items[p["item"]].get("allowed_orientations") or [0]
        if min(abs((p["angle"] - a + 180) % 360 - 180) for a in allowed) > 1e-6:
            yield "item %d is turned by %g degrees" % (p["item"], p["angle"])


def lay(items, p):
    outline = Polygon(items[p["item"]]["shape"]["data"])
    return translate(rotate(outline, p["angle"], origin=(0, 0)), p["x"], p["y"])


def common(laid, slack):
    """The greatest common area of two items, and whether it is more than touching."""
    worst, bad = 0.0, False
    for i, a in enumerate(laid):
        for b in laid[:i]:
            if a.intersects(b):
                area = a.intersection(b).area
                worst, bad = max(worst, area), bad or area > slack * min(a.length, b.length)
    return worst, bad


def check(instance, run):
    items, height = instance["items"], instance["strip_height"]
    wrong = list(check_copies(items, run["placements"]))
    laid = [lay(items, p) for p in run["placements"] if p["item"] < len(items)]
    slack = TOUCHING * height
    overlap, bad = common(laid, slack)
    if bad:
        wrong.append("two items overlap")
    strip = box(0, 0, run["length"], height)
    over = [a.difference(strip).area for a in laid]
    if any(o > slack * a.length for o, a in zip(over, laid)):
        wrong.append("an item lies outside")
    length = max(a.bounds[2] for a in laid)
    density = 100 * sum(a.area for a in laid) / (length * height)
    if abs(length - run["length"]) > slack:
        wrong.append("the length is %.6f" % length)
    if abs(density - run["density"]) > 0.001:
        wrong.append("the density is %.4f" % density)
    return length, density, overlap, max(over), wrong


def main(folder, runs):
    with open(runs) as f:
        runs = json.load(f)["runs"]
    fault = False
    print("%-14s %5s %12s %9s %12s %12s" % ("set", "seed", "length", "density", "overlap", "outside"))
    for run in runs:
        with open(os.path.join(folder, run["set"] + ".json")) as f:
            length, density, overlap, over, wrong = check(json.load(f), run)
        fault = fault or bool(wrong)
        print("%-14s %5d %12.4f %9.3f %12.3g %12.3g %s" %
              (run["set"], run["seed"], length, density, overlap, over, "; ".join(wrong) or "right"))
    return 1 if fault or not runs else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
