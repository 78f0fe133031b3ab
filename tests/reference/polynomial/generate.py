"""Weighted cubic from pixel to wavelength on an invented list of lines, fitted by numpy, with its covariance.

Run: /usr/bin/python3 tests/reference/polynomial/generate.py   (writes data.json beside itself)

The fit is made twice, by least squares on the scaled design and by normal equations in 50 digits (Python fractions),
and the second is written: no rounding but the last is left in it.
"""
import json
import pathlib
import platform
from fractions import Fraction

import numpy

SEED = 20240611
random = numpy.random.default_rng(SEED)
pixel = numpy.sort(numpy.round(random.uniform(40, 3600, 24), 3))
true = 338.2 + 0.1873 * pixel + 1.1e-6 * pixel**2 - 4.0e-10 * pixel**3
sigma = numpy.round(random.uniform(0.004, 0.03, pixel.size), 4)
wavelength = numpy.round(true + sigma * random.standard_normal(pixel.size), 5)
pivot, scale, degree = 1823.5, 1824.0, 3


def solve(matrix, right):
    """Exact Gauss-Jordan elimination; right may have several columns."""
    n = len(matrix)
    rows = [list(a) + list(b) for a, b in zip(matrix, right)]
    for j in range(n):
        k = next(i for i in range(j, n) if rows[i][j] != 0)
        rows[j], rows[k] = rows[k], rows[j]
        rows[j] = [v / rows[j][j] for v in rows[j]]
        for i in range(n):
            if i != j:
                factor = rows[i][j]
                rows[i] = [a - factor * b for a, b in zip(rows[i], rows[j])]
    return [row[n:] for row in rows]


weights = (1 / sigma**2).tolist()
t = [(Fraction(p) - Fraction(pivot)) / Fraction(scale) for p in pixel.tolist()]
design = [[v**k for k in range(degree + 1)] for v in t]
w = [Fraction(v) for v in weights]
y = [Fraction(v) for v in wavelength.tolist()]
p = degree + 1
normal = [[sum(wi * r[a] * r[b] for wi, r in zip(w, design)) for b in range(p)] for a in range(p)]
moment = [sum(wi * r[a] * yi for wi, r, yi in zip(w, design, y)) for a in range(p)]
unit = [[Fraction(int(a == b)) for b in range(p)] for a in range(p)]
solved = solve(normal, [[m] + u for m, u in zip(moment, unit)])
coefficients = [row[0] for row in solved]
covariance = [row[1:] for row in solved]
residuals = [yi - sum(c * v for c, v in zip(coefficients, r)) for yi, r in zip(y, design)]
sum_of_squares = sum(wi * e * e for wi, e in zip(w, residuals))
leverage = [
    wi * sum(r[a] * covariance[a][b] * r[b] for a in range(p) for b in range(p)) for wi, r in zip(w, design)
]

check = numpy.polyfit([float(v) for v in t], wavelength, degree, w=1 / sigma, cov="unscaled")
assert numpy.allclose(check[0][::-1], [float(c) for c in coefficients], rtol=1e-9)
assert numpy.allclose(check[1][::-1, ::-1], [[float(c) for c in row] for row in covariance], rtol=1e-9)

out = {
    "generator": "tests/reference/polynomial/generate.py",
    "command": "/usr/bin/python3 tests/reference/polynomial/generate.py",
    "versions": {"python": platform.python_version(), "numpy": numpy.__version__},
    "seed": SEED,
    "source": "exact rational arithmetic, checked against numpy.polyfit in the generator",
    "pivot": pivot,
    "scale": scale,
    "degree": degree,
    "pixel": pixel.tolist(),
    "wavelengthNm": wavelength.tolist(),
    "weights": weights,
    "expected": {
        "coefficients": [float(c) for c in coefficients],
        "covariance": [[float(c) for c in row] for row in covariance],
        "residuals": [float(e) for e in residuals],
        "leverage": [float(v) for v in leverage],
        "weightedSumOfSquares": float(sum_of_squares),
    },
}
pathlib.Path(__file__).with_name("data.json").write_text(json.dumps(out, indent=1) + "\n")
