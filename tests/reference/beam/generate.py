"""Passbands in cones and tilted beams, integrated by scipy on the formulas themselves.

Pupil integral by adaptive quadrature; the measuring cone is applied to the true curve, so that a curve measured in one
cone and used in another is known without any inversion.

Run: /usr/bin/python3 tests/reference/beam/generate.py > tests/reference/beam/data.json
"""

import json
import sys

import numpy as np
import scipy
from scipy.integrate import dblquad, quad


def butterworth(x, centre, fwhm, cavities):
    return 1 / (1 + (2 * (x - centre) / fwhm) ** (2 * cavities))


def in_cone(f, wavelength, n, number, obstruction=0.0, edge=1.0, rule="sine"):
    """Pupil height h from obstruction to 1, light h dh edge^(h^2)."""
    def sine2(h):
        t = (h / (2 * number)) ** 2
        return t if rule == "sine" else t / (1 + t)
    light = lambda h: h * edge ** (h * h)
    top = quad(lambda h: light(h) * f(wavelength / np.sqrt(1 - sine2(h) / n**2)), obstruction, 1, limit=400, epsabs=1e-12)[0]
    return top / quad(light, obstruction, 1)[0]


def in_leaning_cone(f, wavelength, n, number, lean_deg, obstruction=0.0):
    """The direction of each ray turned as a vector, not by the law of cosines."""
    a = np.radians(lean_deg)
    turn = np.array([[np.cos(a), 0, np.sin(a)], [0, 1, 0], [-np.sin(a), 0, np.cos(a)]])
    def ray(phi, h):
        s = h / (2 * number)
        v = turn @ np.array([s * np.cos(phi), s * np.sin(phi), np.sqrt(1 - s * s)])
        return h * f(wavelength / np.sqrt(1 - (v[0] ** 2 + v[1] ** 2) / n**2))
    top = dblquad(ray, obstruction, 1, 0, 2 * np.pi, epsabs=1e-10)[0]
    return top / (np.pi * (1 - obstruction**2))


band = lambda x: butterworth(x, 656.8, 3.0, 3)
cones = []
for number, obstruction, edge, rule in [(2, 0, 1, "sine"), (2.2, 0.4, 1, "sine"), (3, 0, 1, "tangent"), (3, 0.35, 0.135, "sine"), (5, 0.5, 1, "tangent"), (7.5, 0, 0.3, "sine")]:
    for n in (1.5, 2.0):
        for at in (655.3, 656.28, 658.0):
            cones.append([number, obstruction, edge, rule, n, at, in_cone(band, at, n, number, obstruction, edge, rule)])
leaning = []
for number, lean, obstruction in [(5, 3, 0), (3, 2, 0.35), (8, 6, 0), (4, 1, 0.2)]:
    for at in (655.3, 656.28):
        leaning.append([number, lean, obstruction, 1.8, at, in_leaning_cone(band, at, 1.8, number, lean, obstruction)])

# Measured at f/8, used at f/3 and at f/2.2: the curve as measured, and the truth in use.
grid = np.round(np.arange(648, 680.01, 0.05), 6)
measured = [round(in_cone(band, at, 1.8, 8), 9) for at in grid]
used = [[number, at, in_cone(band, at, 1.8, number)] for number in (3, 2.2) for at in (653.5, 655.3, 656.28, 657.5)]

json.dump(
    {
        "generator": "tests/reference/beam/generate.py",
        "command": "/usr/bin/python3 tests/reference/beam/generate.py > tests/reference/beam/data.json",
        "versions": {"python": sys.version.split()[0], "numpy": np.__version__, "scipy": scipy.__version__},
        "seed": None,
        "source": "scipy.integrate on 1 / (1 + (2 (x - 656.8) / 3)^6)",
        "cones": {"columns": ["fNumber", "obstruction", "edge", "rule", "index", "wavelengthNm", "transmittance"], "rows": cones},
        "leaning": {"columns": ["fNumber", "leanDeg", "obstruction", "index", "wavelengthNm", "transmittance"], "rows": leaning},
        "measuredAtF8": {"index": 1.8, "wavelengthNm": list(grid), "transmittance": measured, "used": used},
    },
    sys.stdout,
)
