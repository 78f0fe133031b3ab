"""Normal and Student distributions: the normal probability in 60 digits, the rest by scipy.

Run: /usr/bin/python3 tests/reference/distributions/generate.py   (writes data.json beside itself)
"""
import json
import pathlib
import platform
from decimal import Decimal, getcontext

import numpy
import scipy
from scipy import special, stats

getcontext().prec = 60
PI = Decimal("3.14159265358979323846264338327950288419716939937510582097494459")


def normal_probability(value):
    """Series near the middle, continued fraction in the tails, both far beyond the digits of a double."""
    z = abs(Decimal(value))
    density = (-z * z / 2).exp() / (2 * PI).sqrt()
    if z < 6:
        term = total = z
        for k in range(3, 600, 2):
            term *= z * z / k
            total += term
        tail = Decimal("0.5") - density * total
    else:
        fraction = Decimal(0)
        for k in range(1500, 0, -1):
            fraction = k / (z + fraction)
        tail = density / (z + fraction)
    return float(tail if value <= 0 else 1 - tail)


z = [-37.0, -20.0, -10.0, -6.0, -4.0, -3.0, -2.5, -2.0, -1.96, -1.5, -1.0, -0.5, -0.1, -1e-6, 0.0, 0.3, 1.0, 2.0, 5.0, 8.0]
p = [1e-300, 1e-100, 1e-20, 1e-9, 1e-5, 0.001, 0.01, 0.025, 0.05, 0.1, 0.2, 0.3, 0.4, 0.49, 0.5, 0.6, 0.9, 0.975, 0.999]
student = [
    (probability, dof)
    for dof in [0.5, 1, 1.5, 2, 3, 4.7, 9, 10, 30, 100, 1234.5, 50000, 2e5, 1e7]
    for probability in [1e-9, 1e-4, 0.005, 0.025, 0.1, 0.19, 0.21, 0.4, 0.75, 0.975]
]
values = [(t, dof) for dof in [0.5, 1, 3, 9, 30.5, 400] for t in [-50.0, -5.0, -2.0, -1.0, -0.3, -0.01, 0.7, 3.0]]
for v in z:
    assert abs(special.ndtr(v) - normal_probability(v)) <= 1e-12 * normal_probability(v)

out = {
    "generator": "tests/reference/distributions/generate.py",
    "command": "/usr/bin/python3 tests/reference/distributions/generate.py",
    "versions": {"python": platform.python_version(), "numpy": numpy.__version__, "scipy": scipy.__version__},
    "seed": None,
    "source": "60 digits of Python's decimal for normalCdf; scipy.special.ndtri; scipy.stats.t.ppf, cdf",
    "columns": {
        "normalCdf": ["z", "probability"],
        "normalQuantile": ["probability", "z"],
        "studentQuantile": ["probability", "dof", "t"],
        "studentCdf": ["t", "dof", "probability"],
    },
    "normalCdf": [[v, normal_probability(v)] for v in z],
    "normalQuantile": [[v, float(special.ndtri(v))] for v in p],
    "studentQuantile": [[a, d, float(stats.t.ppf(a, d))] for a, d in student],
    "studentCdf": [[t, d, float(stats.t.cdf(t, d))] for t, d in values],
}
pathlib.Path(__file__).with_name("data.json").write_text(json.dumps(out, indent=None).replace("], [", "],\n[") + "\n")
