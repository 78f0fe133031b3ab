"""A filter under a sky with lines, in a cone, through a camera: every number by numpy on a fine grid.

The curve, the sky and the quantum efficiency are tables that are straight between their points, as in the package.

Run: /usr/bin/python3 tests/reference/sky/generate.py > tests/reference/sky/data.json
"""

import json
import sys

import numpy as np

rng = np.random.default_rng(20)
H, C = 6.62607015e-34, 299792458.0
ARCSEC = np.pi / 648000

sky_nm = np.round(np.sort(np.concatenate([[380.0, 760.0], rng.uniform(381, 759, 160)])), 4)
sky_photons = np.round(0.3 + 0.2 * np.sin(sky_nm / 37) + 0.1 * rng.random(sky_nm.size), 6)
lines = [[557.7338, 4.7], [589.0, 1.3], [655.36, 0.4], [656.9, 0.8]]
qe_nm, qe = [380, 450, 550, 650, 760], [0.4, 0.78, 0.86, 0.72, 0.45]
curve_nm = np.round(np.arange(398.0, 712.0, 0.31), 4)
curve_t = np.round(0.0005 + 0.91 / (1 + (2 * (curve_nm - 656.9) / 3.4) ** 6), 7)
camera = dict(fNumber=4.0, pixelUm=4.63, centralObstruction=0.3, opticsTransmittance=0.85, readNoise=1.7, darkCurrent=0.003)
index, frame, goal, rayleigh, target = 1.9, 300.0, 12.0, 25.0, 656.2819
range_nm = (400.0, 700.0)

# Fine grid through every node, so that each piece is a cubic at most: Gauss-Legendre of three points is exact there.
def integral(f):
    nodes = np.unique(np.concatenate([sky_nm, curve_nm, qe_nm, range_nm]))
    nodes = nodes[(nodes >= range_nm[0]) & (nodes <= range_nm[1])]
    a, b = nodes[:-1], nodes[1:]
    total = 0.0
    for t, w in zip(*np.polynomial.legendre.leggauss(3)):
        x = (a + b) / 2 + (b - a) / 2 * t
        total += np.sum(w * (b - a) / 2 * f(x))
    return total

S = lambda x: np.interp(x, sky_nm, sky_photons)
Q = lambda x: np.interp(x, qe_nm, qe)
T = lambda x: np.interp(x, curve_nm, curve_t)

def background(transmit):
    return integral(lambda x: transmit(x) * S(x) * Q(x)) + sum(p * transmit(at) * Q(at) for at, p in lines)

photons = integral(lambda x: T(x) * S(x)) + sum(p * T(at) for at, p in lines)

# The cone by many rings of equal area, obstruction as of the telescope.
ring = np.linspace(camera["centralObstruction"] ** 2, 1, 20001)
ring = (ring[:-1] + ring[1:]) / 2
factor = 1 / np.sqrt(1 - ring / (2 * camera["fNumber"]) ** 2 / index**2)
in_cone = lambda x: float(np.mean(T(x * factor)))
on_pixels = curve_nm[curve_nm * factor.max() <= curve_nm[-1]]
seen = np.array([in_cone(x) for x in on_pixels])
T_cone = lambda x: np.interp(x, on_pixels, seen)

def integral_cone(f):
    nodes = np.unique(np.concatenate([sky_nm, curve_nm, qe_nm, range_nm]))
    nodes = nodes[(nodes >= range_nm[0]) & (nodes <= range_nm[1])]
    a, b = nodes[:-1], nodes[1:]
    return sum(np.sum(w * (b - a) / 2 * f((a + b) / 2 + (b - a) / 2 * t)) for t, w in zip(*np.polynomial.legendre.leggauss(3)))

behind = integral_cone(lambda x: T_cone(x) * S(x) * Q(x)) + sum(p * T_cone(at) * Q(at) for at, p in lines)
one = lambda x: np.ones_like(np.asarray(x, dtype=float))
openly = background(one)
grasp = np.pi / 4 * (1 - camera["centralObstruction"] ** 2) * (camera["pixelUm"] * 1e-6 / camera["fNumber"]) ** 2 / ARCSEC**2 * camera["opticsTransmittance"]
tau_r = 0.008569 * (0.6562819**-4) * (1 + 0.0113 * 0.6562819**-2 + 0.00013 * 0.6562819**-4)
tau_a = 0.1 * (656.2819 / 550) ** -1.3
line = rayleigh * 1e10 / (4 * np.pi) * ARCSEC**2 * np.exp(-1.2 * (tau_r + tau_a)) * Q(target) * grasp
t_line = in_cone(target)
rate_sky = behind * grasp
signal = line * t_line
per_second = signal**2 / (signal + rate_sky + camera["darkCurrent"] + camera["readNoise"] ** 2 / frame)

erg = 3.1e-17
json.dump(
    {
        "generator": "tests/reference/sky/generate.py",
        "command": "/usr/bin/python3 tests/reference/sky/generate.py > tests/reference/sky/data.json",
        "versions": {"python": sys.version.split()[0], "numpy": np.__version__},
        "seed": 20,
        "source": "numpy on tables that are straight between their points",
        "sky": {"wavelengthNm": list(sky_nm), "photons": list(sky_photons), "lines": lines},
        "quantumEfficiency": {"wavelengthNm": qe_nm, "fraction": qe},
        "curve": {"wavelengthNm": list(curve_nm), "transmittance": list(curve_t)},
        "camera": camera,
        "inputs": {"effectiveIndex": index, "frameS": frame, "goal": goal, "rayleigh": rayleigh, "airmass": 1.2, "targetNm": target},
        "expected": {
            "photons": photons,
            "pixelGrasp": grasp,
            "lineTransmittance": t_line,
            "skyPerPixel": rate_sky,
            "skyTransmittance": behind / openly,
            "effectiveWidthNm": 300 * behind / openly,
            "signalPerPixel": signal,
            "contrast": signal / rate_sky,
            "gain": t_line / np.sqrt(behind / openly),
            "hours": goal**2 / per_second / 3600,
            "ergPhotons": erg * 1e-7 * 1e4 / (H * C / (target * 1e-9)),
        },
        "erg": erg,
    },
    sys.stdout,
)
