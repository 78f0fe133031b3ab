"""Profiles of a small image in rings and sectors by numpy.

Run: /usr/bin/python3 tests/reference/halo/generate.py   (writes data.json beside itself)

The image is made from a formula of whole numbers, so that the test can make the same one; cells, medians and means of
the middle half are found by sorting, with none of the code that is tested.
"""
import json
import pathlib
import platform

import numpy

WIDTH, HEIGHT, SECTORS = 90, 80, 12
CENTRE = (43.3, 38.8)
EDGES = [0, 1, 2, 3, 4, 6, 8, 11, 15, 20, 26, 33]

y, x = numpy.mgrid[0:HEIGHT, 0:WIDTH]
# Knuth's multiplier gives a pattern without order; all in whole numbers below 2^53.
pattern = ((x + WIDTH * y) * 2654435761) % 4294967296
image = (pattern % 1000) + (200000 // (1 + (x - 43) ** 2 + (y - 39) ** 2)) + 3 * x
image = image.astype(numpy.float64)
mask = (pattern // 7) % 11 == 0

dx, dy = x - CENTRE[0], y - CENTRE[1]
radius = numpy.sqrt(dx * dx + dy * dy)
ring = numpy.digitize(radius, EDGES) - 1
sector = numpy.floor((numpy.arctan2(dy, dx) % (2 * numpy.pi)) / (2 * numpy.pi) * SECTORS).astype(int)

cells = []
for i in range(len(EDGES) - 1):
    for s in range(SECTORS):
        chosen = (ring == i) & (sector == s)
        values = numpy.sort(image[chosen & ~mask])
        n = values.size
        middle = None if n == 0 else float(numpy.median(values))
        trimmed = middle if n < 4 else float(values[n // 4 : n - n // 4].mean())
        cells.append([int(n), int(chosen.sum()), middle, trimmed])

rings = [float(numpy.median(image[(ring == i) & ~mask])) for i in range(len(EDGES) - 1)]
out = {
    "generator": "tests/reference/halo/generate.py",
    "command": "/usr/bin/python3 tests/reference/halo/generate.py",
    "versions": {"python": platform.python_version(), "numpy": numpy.__version__},
    "seed": None,
    "source": "closed formula; medians by numpy",
    "width": WIDTH,
    "height": HEIGHT,
    "sectors": SECTORS,
    "centre": CENTRE,
    "edges": EDGES,
    "columns": ["pixels used", "pixels in the image", "median", "mean of the middle half"],
    "cells": cells,
    "ringMedians": rings,
}
pathlib.Path(__file__).with_name("data.json").write_text(json.dumps(out) + "\n")
