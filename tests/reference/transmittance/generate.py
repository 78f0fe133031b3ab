"""Reference values for transmittanceCurve: one mixed case, worked out with numpy arrays and written to data.json.

Three scans of the open beam that drift in level and tilt, two of them of two exposures; three filtered entries of two
exposures at different times; clipped pixels in the long exposures. The scans are an exact shape times a straight line
along the pixels, so that the levels are known and need no fit.

Run: python3 generate.py   (in this folder)
"""

import json
import platform

import numpy as np

SEED = 20240301
PIXELS = 60
FULL = 60000.0
START = 1709323200000.0
MINUTE = 60000.0

rng = np.random.default_rng(SEED)
pixel = np.arange(PIXELS)
x = 2 * pixel / (PIXELS - 1) - 1
shape = 40 + 320 * np.exp(-0.5 * ((pixel - 33) / 14) ** 2)
band = 0.9 * np.exp(-0.5 * ((pixel - 31) / 5) ** 2) + 0.002


def clipped(counts):
    over = counts > FULL
    mask = over.copy()
    mask[1:] |= over[:-1]
    mask[:-1] |= over[1:]
    return mask


def spectrum(entry, role, minute, exposure, frames, counts):
    mask = clipped(counts)
    dark = {100.0: 1.5, 250.0: 2.5, 900.0: 4.0}[exposure] * np.ones(PIXELS)
    noise = np.sqrt((40 + 0.8 * counts) / frames)
    for values in (counts, noise, dark):
        values[mask] = 0
    return dict(entry=entry, role=role, takenAtMs=START + minute * MINUTE, exposureMs=exposure, frames=frames,
                counts=counts, noise=noise, darkNoise=dark, masked=mask)


def level(minute):
    """Level and tilt of the lamp: straight between the scans at 0, 20 and 40 minutes."""
    return np.interp(minute, [0, 20, 40], [1.0, 1.02, 1.01]) + np.interp(minute, [0, 20, 40], [0, 0.01, -0.004]) * x


opens, scans = [], []
for minute, exposures in ((0, (100.0, 250.0)), (20, (100.0,)), (40, (100.0, 250.0))):
    scan = [spectrum(len(opens) + k, 'open', minute, t, 8, shape * level(minute) * t) for k, t in enumerate(exposures)]
    opens += scan
    scans.append(scan)
filtered = []
for k, (minute, exposure, frames) in enumerate(((5, 100.0, 10), (12, 900.0, 4), (31, 900.0, 6))):
    true = shape * band * level(minute) * exposure
    counts = true + np.sqrt((40 + 0.8 * true) / frames) * rng.standard_normal(PIXELS)
    filtered.append(spectrum(10 + k, 'filtered', minute, exposure, frames, counts))


def choose(entries):
    """Per pixel the longest exposure with no clipped pixel within one, else the longest unclipped."""
    times = sorted({e['exposureMs'] for e in entries}, reverse=True)
    clear = {t: np.any([~e['masked'] for e in entries if e['exposureMs'] == t], axis=0) for t in times}
    out = np.zeros(PIXELS)
    for i in range(PIXELS):
        near = [t for t in times if clear[t][max(0, i - 1):i + 2].all()]
        any_ = [t for t in times if clear[t][i]]
        out[i] = near[0] if near else any_[0] if any_ else 0
    return out


# open beam: weighted mean of the scans, each divided by its own level (normalised as the weighted mean)
rate, noise, dark, used = [], [], [], []
for scan, minute in zip(scans, (0, 20, 40)):
    t = choose(scan)
    pick = lambda key: np.array([next(e[key][i] for e in scan if e['exposureMs'] == t[i]) for i in range(PIXELS)])
    rate.append(pick('counts') / t / level(minute))
    noise.append(pick('noise') / t / level(minute))
    dark.append(pick('darkNoise') / t / level(minute))
    used.append(t)
rate, noise, dark, used = map(np.array, (rate, noise, dark, used))
weight = 1 / noise**2
open_rate = (weight * rate).sum(0) / weight.sum(0)
open_noise = 1 / np.sqrt(weight.sum(0))
open_dark = (weight * dark).sum(0) / weight.sum(0)
open_exposure = np.where((used == used[0]).all(0), used[0], 0)

t_used = choose(filtered)
sums = {key: np.zeros(PIXELS) for key in ('counts', 'open', 'variance', 'dark', 'openNoise', 'openDark', 'drift')}
knots = np.array([0, 20, 40])
# lamp: steady drift from the first to the last scan, random walk about it from the increments (one degree of freedom)
levels = np.array([level(minute) for minute in knots])
relative = levels / levels.mean(0)
gaps = np.diff(knots)[:, None]
steady = (relative[-1] - relative[0]) / (knots[-1] - knots[0])
walk = np.sqrt((((np.diff(relative, axis=0) - steady * gaps) ** 2) / gaps).sum(0) / (len(knots) - 2))
for e, minute in zip(filtered, (5, 12, 31)):
    take = (e['exposureMs'] == t_used) & ~e['masked']
    n, t = e['frames'], e['exposureMs']
    at = level(minute)
    k = np.searchsorted(knots, minute) - 1
    share = (minute - knots[k]) / 20
    wander = walk * np.sqrt(share * (1 - share) * 20)
    sums['counts'] += np.where(take, n * e['counts'], 0)
    sums['open'] += np.where(take, n * t * open_rate * at, 0)
    sums['variance'] += np.where(take, (n * e['noise']) ** 2, 0)
    sums['dark'] += np.where(take, n * e['darkNoise'], 0)
    sums['openNoise'] += np.where(take, n * t * open_noise * at, 0)
    sums['openDark'] += np.where(take, n * t * open_dark * at, 0)
    sums['drift'] += np.where(take, n * t * open_rate * at * wander, 0)
T = sums['counts'] / sums['open']
parts = {
    'filteredNoise': np.sqrt(sums['variance']) / sums['open'],
    'openNoise': np.abs(T) * sums['openNoise'] / sums['open'],
    'darkNoise': np.where(open_exposure == t_used, np.abs(1 - T) * sums['dark'],
                          np.hypot(sums['dark'], T * sums['openDark'])) / sums['open'],
    'drift': np.abs(T) * sums['drift'] / sums['open'],
}
expected = {
    'transmittance': T, 'exposureMs': t_used, **parts,
    'standardUncertainty': np.sqrt(sum(p**2 for p in parts.values())),
}


def plain(value):
    return value.astype(int).tolist() if value.dtype == bool else value.tolist()


with open('data.json', 'w', encoding='utf-8') as file:
    json.dump({
        'generator': 'tests/reference/transmittance/generate.py', 'command': 'python3 generate.py',
        'versions': {'python': platform.python_version(), 'numpy': np.__version__}, 'seed': SEED,
        'source': 'ratio of sums against an open beam interpolated in time; quadrature of JCGM 100:2008, 5.1.2; '
                  'random walk held at both ends between open scans',
        'open': [{k: plain(v) if isinstance(v, np.ndarray) else v for k, v in e.items()} for e in opens],
        'filtered': [{k: plain(v) if isinstance(v, np.ndarray) else v for k, v in e.items()} for e in filtered],
        'expected': {k: plain(v) for k, v in expected.items()},
    }, file, indent=None, separators=(',', ':'))
    file.write('\n')
