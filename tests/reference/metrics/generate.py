"""Passbands with known numbers: peak, half-peak crossings, area and centroid by scipy on the formulas themselves.

Run: /usr/bin/python3 tests/reference/metrics/generate.py > tests/reference/metrics/data.json
"""

import json
import sys

import numpy as np
import scipy
from scipy.integrate import quad
from scipy.optimize import brentq, minimize_scalar
from scipy.special import erf


def skewed(x):
    """Steep blue edge, soft red edge, sloping top."""
    blue = 0.5 * (1 + erf((x - 653.1) / 0.55))
    red = 0.5 * (1 - erf((x - 659.0) / 1.3))
    return 0.93 * blue * red * (1 - 0.01 * (x - 656))


def chebyshev(x):
    """Three-cavity ripple of 3 %: 1 / (1 + e^2 T3(t)^2), t = 1 where the ripple ends."""
    t = (x - 500.7) / 2.6
    return 0.9 / (1 + 0.03 * (4 * t**3 - 3 * t) ** 2)


def voigt_like(x):
    """Gaussian and Lorentzian of one width and centre, half each."""
    t = (x - 672.2) / 4.0
    return 0.4 * np.exp(-4 * np.log(2) * t**2) + 0.4 / (1 + 4 * t**2)


def double_humped(x):
    """Two unequal humps with a dip that stays above half of the peak."""
    return 0.88 * np.exp(-(((x - 655.2) / 1.6) ** 2)) + 0.80 * np.exp(-(((x - 658.4) / 1.6) ** 2))


def grid(low, high, rng):
    """Steps that vary smoothly from 0.14 to 0.26 nm, as the dispersion of an array spectrometer does."""
    x = [low + 0.2 * rng.random()]
    while x[-1] < high:
        x.append(x[-1] + 0.2 + 0.06 * np.sin((x[-1] - low) / 5))
    return np.array(x)


def numbers(f, low, high):
    dense = np.linspace(low, high, 200001)
    values = f(dense)
    i = int(values.argmax())
    step = dense[1] - dense[0]
    best = minimize_scalar(lambda x: -f(x), bounds=(dense[i] - step, dense[i] + step), method="bounded", options={"xatol": 1e-12})
    peak = -best.fun
    above = np.flatnonzero(values >= peak / 2)
    blue = brentq(lambda x: f(x) - peak / 2, dense[above[0] - 1], dense[above[0]], xtol=1e-13)
    red = brentq(lambda x: f(x) - peak / 2, dense[above[-1]], dense[above[-1] + 1], xtol=1e-13)
    fwhm = red - blue
    centre = (red + blue) / 2
    a, b = centre - 2 * fwhm, centre + 2 * fwhm
    area = quad(f, a, b, epsabs=1e-12, epsrel=1e-12, limit=500, points=[blue, red])[0]
    moment = quad(lambda x: (x - centre) * f(x), a, b, epsabs=1e-12, epsrel=1e-12, limit=500, points=[blue, red])[0]
    return {
        "peakTransmittance": peak,
        "blueNm": blue,
        "redNm": red,
        "fwhmNm": fwhm,
        "centreNm": centre,
        "equivalentWidthNm": area,
        "centroidNm": centre + moment / area,
    }


rng = np.random.default_rng(20)
curves = []
for f, low, high in ((skewed, 635, 677), (chebyshev, 482, 519), (voigt_like, 655, 689), (double_humped, 636, 678)):
    x = grid(low, high, rng)
    curves.append({"name": f.__name__, "wavelengthNm": x.tolist(), "transmittance": f(x).tolist(), "expected": numbers(f, low, high)})

json.dump(
    {
        "generator": "tests/reference/metrics/generate.py",
        "command": "/usr/bin/python3 tests/reference/metrics/generate.py > tests/reference/metrics/data.json",
        "versions": {"python": sys.version.split()[0], "numpy": np.__version__, "scipy": scipy.__version__},
        "seed": 20,
        "source": "formulas in the generator; no published data",
        "columns": {"wavelengthNm": "air, nm", "transmittance": "fraction, no noise"},
        "curves": curves,
    },
    sys.stdout,
    indent=1,
)
sys.stdout.write("\n")
