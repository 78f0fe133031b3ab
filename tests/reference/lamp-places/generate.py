"""A lamp-like row of counts with its lines placed by scipy, and a weighted cubic scale with its covariance by numpy.

Run: /usr/bin/python3 tests/reference/lamp-places/generate.py   (writes data.json beside itself)

Places: scipy.optimize.curve_fit of Gaussians on a straight baseline, two near lines together, over the
stretch of pixels that `stretches` names. Scale: numpy.polyfit with unscaled covariance for the plain cubic; the scale
that is held by what a grating can do is solved by numpy.linalg with the hold as further rows.
"""
import json
import pathlib
import platform

import numpy
import scipy
from scipy.optimize import curve_fit
from scipy.special import ndtr

SEED = 20250314
random = numpy.random.default_rng(SEED)

# A frame: 1200 pixels, lines of 4.6 pixels full width collected by pixels, shot and read noise.
pixels = 1200
sigma = 4.6 / numpy.sqrt(8 * numpy.log(2))
lines = [
    (61.37, 900.0), (148.82, 4200.0), (233.10, 300.0), (318.55, 12000.0), (402.74, 650.0), (487.29, 2500.0),
    (571.90, 1800.0), (580.15, 2600.0), (688.44, 150.0), (797.03, 7000.0), (910.66, 1200.0), (1093.21, 3300.0),
]
edges = numpy.arange(pixels + 1) - 0.5
clean = 40 + 0.01 * numpy.arange(pixels)
for place, area in lines:
    clean = clean + area * numpy.diff(ndtr((edges - place) / sigma))
noise = numpy.sqrt(clean / 3.0 + 2.0**2)
counts = numpy.round(clean + noise * random.standard_normal(pixels), 3)
noise = numpy.round(noise, 6)


def model(x, *p):
    """Baseline, tilt, common width, then height and place of each line."""
    value = p[0] + p[1] * (x - x.mean())
    for k in range(3, len(p), 2):
        value = value + p[k] * numpy.exp(-0.5 * ((x - p[k + 1]) / p[2]) ** 2)
    return value


def slopes(x, *p):
    """Derivatives of the model: with them the fit ends at the minimum, whatever the machine's rounding."""
    columns = [numpy.ones(x.size), x - x.mean(), numpy.zeros(x.size)]
    for k in range(3, len(p), 2):
        z = (x - p[k + 1]) / p[2]
        bell = numpy.exp(-0.5 * z**2)
        columns[2] = columns[2] + p[k] * bell * z**2 / p[2]
        columns += [bell, p[k] * bell * z / p[2]]
    return numpy.column_stack(columns)


groups, k = [], 0
while k < len(lines):
    together = [k]
    while together[-1] + 1 < len(lines) and lines[together[-1] + 1][0] - lines[together[-1]][0] < 12:
        together.append(together[-1] + 1)
    groups.append(together)
    k = together[-1] + 1

places = []
for together in groups:
    first, last = lines[together[0]][0], lines[together[-1]][0]
    x = numpy.arange(int(numpy.ceil(round(first) - 7.9)), int(numpy.floor(round(last) + 7.9)) + 1)
    start = [40.0, 0.0, sigma]
    for k in together:
        start += [lines[k][1] / (sigma * 2.5), round(lines[k][0])]
    found, covariance = curve_fit(
        model, x, counts[x], start, sigma=noise[x], absolute_sigma=True, jac=slopes, xtol=1e-14, ftol=1e-14)
    for n, k in enumerate(together):
        places.append({
            "drawn": lines[k][0],
            "pixel": float(found[4 + 2 * n]),
            "standardUncertainty": float(numpy.sqrt(covariance[4 + 2 * n, 4 + 2 * n])),
            "height": float(found[3 + 2 * n]),
            "fwhm": float(abs(found[2]) * numpy.sqrt(8 * numpy.log(2))),
        })

# A scale: 22 lines, places less noisy than stated, so that no further scatter is called for.
count, length = 22, 2049
middle = (length - 1) / 2
place = numpy.round(numpy.sort(random.uniform(40, 2010, count)), 4)
t_true = (place - middle) / middle
uncertainty = numpy.round(random.uniform(0.02, 0.08, count), 4)
slope = 0.19
wavelength = numpy.round(
    582.4 + 197.3 * t_true - 7.9 * t_true**2 - 0.71 * t_true**3
    + 0.5 * uncertainty * slope * random.standard_normal(count), 5)
chord = (wavelength[-1] - wavelength[0]) / (place[-1] - place[0])
variance = (uncertainty * chord) ** 2 + 1e-4**2
t = (place - middle) / middle
plain, plain_covariance = numpy.polyfit(t, wavelength, 3, w=1 / numpy.sqrt(variance), cov="unscaled")


def held(order, half_span):
    """Least squares with each order above the first held towards zero; limits as the room `calibration` states them."""
    limits = [0, 1, 0.2, 0.02, 1.5e-3, 3e-4]
    design = numpy.vander(t, order + 1, increasing=True)
    root = numpy.sqrt(1 / variance)
    rows = [design * root[:, None]]
    right = [wavelength * root]
    for power in range(2, order + 1):
        row = numpy.zeros(order + 1)
        row[power] = 1 / (limits[power] * half_span)
        rows.append(row[None, :])
        right.append([0.0])
    a, b = numpy.vstack(rows), numpy.concatenate(right)
    solution = numpy.linalg.lstsq(a, b, rcond=None)[0]
    inverse = numpy.linalg.inv(numpy.linalg.qr(a)[1])
    return solution, inverse @ inverse.T


cubic, cubic_covariance = held(3, abs(chord * middle))
wide, wide_covariance = held(5, abs(cubic[1]))

out = {
    "generator": "tests/reference/lamp-places/generate.py",
    "command": "/usr/bin/python3 tests/reference/lamp-places/generate.py",
    "versions": {"python": platform.python_version(), "numpy": numpy.__version__, "scipy": scipy.__version__},
    "seed": SEED,
    "frame": {"counts": counts.tolist(), "noise": noise.tolist(), "stretches": "7.9 pixels, 1.5 widths and one, to either side of the outer lines' nearest pixels"},
    "places": places,
    "scale": {
        "pixels": length,
        "pixel": place.tolist(),
        "pixelUncertainty": uncertainty.tolist(),
        "wavelengthNm": wavelength.tolist(),
        "plain": {"coefficients": plain[::-1].tolist(), "covariance": plain_covariance[::-1, ::-1].tolist()},
        "held": {"coefficients": cubic.tolist(), "covariance": cubic_covariance.tolist()},
        "wide": {"coefficients": wide.tolist(), "covariance": wide_covariance.tolist()},
    },
}
pathlib.Path(__file__).with_name("data.json").write_text(json.dumps(out) + "\n")
print(f"{len(places)} places, worst uncertainty {max(p['standardUncertainty'] for p in places):.4f} pixels")
