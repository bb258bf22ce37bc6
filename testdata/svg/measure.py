"""Measure the outlines of a PostScript file that a vector editor wrote through cairo.

Prints one JSON line per filled outline, in the order drawn. Curves are sampled finely;
area, length and centre come from GEOS through shapely, in mm from the top left corner.
Only what cairo writes is read: m, l, c, h, re, cm, q, Q; everything else is passed over.
"""

import json
import re
import sys

from shapely.geometry import Polygon

STEPS = 400
POINT = 25.4 / 72


class Reader:
    def __init__(self):
        self.numbers, self.matrix, self.saved, self.runs = [], (1, 0, 0, 1, 0, 0), [], []

    def place(self, x, y):
        a, b, c, d, e, f = self.matrix
        return (a * x + c * y + e) * POINT, (b * x + d * y + f) * POINT

    def points(self, count):
        v = self.numbers[-2 * count :]
        return [self.place(v[2 * i], v[2 * i + 1]) for i in range(count)]

    def operator(self, word):
        if word == "q":
            self.saved.append(self.matrix)
        elif word == "Q":
            self.matrix = self.saved.pop()
        elif word == "cm":
            a, b, c, d, e, f = self.numbers[-6:]
            g, h, i, j, k, m = self.matrix
            self.matrix = (g * a + i * b, h * a + j * b, g * c + i * d, h * c + j * d, g * e + i * f + k, h * e + j * f + m)
        elif word == "m":
            self.runs.append(self.points(1))
        elif word == "l":
            self.runs[-1] += self.points(1)
        elif word == "c":
            (ax, ay), ((bx, by), (cx, cy), (dx, dy)) = self.runs[-1][-1], self.points(3)
            for k in range(1, STEPS + 1):
                t = k / STEPS
                a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
                self.runs[-1].append((a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy))
        elif word == "re":
            x, y, w, h = self.numbers[-4:]
            self.runs.append([self.place(*p) for p in ((x, y), (x + w, y), (x + w, y + h), (x, y + h))])
        elif word in ("f", "f*"):
            for run in self.runs:
                if len(run) > 2:
                    shape = Polygon(run)
                    yield {"area": shape.area, "length": shape.length, "x": shape.centroid.x, "y": -shape.centroid.y}
            self.runs = []
        self.numbers = []


def main():
    with open(sys.argv[1], encoding="latin-1") as file:
        page = file.read().split("%%EndPageSetup")[1].split("%%Trailer")[0]
    page = re.sub(r"\((\\.|[^\\)])*\)", " ", page)
    reader = Reader()
    for word in page.split():
        if re.fullmatch(r"[-+]?[0-9.]+", word):
            reader.numbers.append(float(word))
        else:
            for outline in reader.operator(word):
                print(json.dumps(outline))


main()
