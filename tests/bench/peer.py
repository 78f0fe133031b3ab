"""The Monte Carlo of a FWHM as one writes it with numpy, all draws of a batch at once. Two readers: `plain` takes the
highest pixel of a lightly smoothed curve as the peak and straight lines at the edges; `same` keeps to the definitions of
this package, so that it gives the same numbers. Reads JSON from standard input, writes JSON to standard output."""

import json
import sys
import time

import numpy as np


def smoothing(nm, window, degree):
    """Matrix of local polynomial fits at the pixels, tricube weights: smooth = curve @ matrix."""
    matrix = np.zeros((nm.size, nm.size))
    for k in range(nm.size):
        t = (nm - nm[k]) / window
        weight = np.where(np.abs(t) < 1, (1 - np.abs(t) ** 3) ** 3, 0)
        powers = t[:, None] ** np.arange(degree + 1)
        root = np.sqrt(weight)
        matrix[:, k] = (np.linalg.pinv(powers * root[:, None]) * root)[0]
    return matrix


def plain(task, nm, window):
    """Reader of the FWHM of each row: outermost crossings of half of the highest smoothed pixel."""
    smooth = smoothing(nm, window, 3)

    def widths(curves):
        smoothed = curves @ smooth
        half = smoothed.max(axis=1) / 2
        above = smoothed >= half[:, None]
        first = above.argmax(axis=1)
        last = nm.size - 1 - above[:, ::-1].argmax(axis=1)
        rows = np.arange(len(curves))

        def crossing(inside, outside):
            a, b = smoothed[rows, outside], smoothed[rows, inside]
            return nm[outside] + (half - a) / (b - a) * (nm[inside] - nm[outside])

        return crossing(last, last + 1) - crossing(first, first - 1)

    return widths


class Stretch:
    """Places of the smoothed curve with the pixel weights of value and slope, joined by cubics."""

    def __init__(self, parts):
        self.at = np.array(parts["atNm"])
        self.step = np.append(np.diff(self.at), 0)
        self.value = np.array(parts["value"]).T.copy()
        self.slope = np.array(parts["slope"]).T.copy()


def cubic(a, b, da, db, t):
    s = 1 - t
    return s * s * ((1 + 2 * t) * a + t * da) + t * t * ((3 - 2 * t) * b - s * db)


def same(task):
    """Reader of the FWHM of each row by the definitions of the package: half-pixel places of local polynomial fits, the
    peak without the upward pull of noise, outermost crossings on cubics."""
    top, blue, red = (Stretch(task[name]) for name in ("top", "blueEdge", "redEdge"))
    noise, noise_slope = np.array(task["noise"]), np.array(task["noiseSlopes"])
    weight = task["thinnedWeight"]

    def highest(height, slope, rows):
        """Place of the maximum near the highest node: cell and share of it."""
        node = height.argmax(axis=1)
        cell = np.where(slope[rows, node] > 0, node, node - 1)
        held = np.clip(cell, 0, top.at.size - 2)
        step = top.step[held]
        da, db = slope[rows, held] * step, slope[rows, held + 1] * step
        gain = height[rows, held + 1] - height[rows, held]
        bend, linear = 3 * (da + db) - 6 * gain, 6 * gain - 4 * da - 2 * db
        root = np.sqrt(np.maximum(0, linear * linear - 4 * bend * da))
        with np.errstate(divide="ignore", invalid="ignore"):
            t = np.where(linear <= 0, 2 * da / (root - linear), (linear + root) / (-2 * bend))
        inside = (held == cell) & (da > 0) & (db < 0)
        return held, np.where(inside, np.minimum(t, 1), (node > held).astype(float))

    def height_at(height, slope, rows, cell, t):
        step = top.step[cell]
        return cubic(
            height[rows, cell],
            height[rows, cell + 1],
            slope[rows, cell] * step,
            slope[rows, cell + 1] * step,
            t,
        )

    def peaks(curves, rows):
        height, slope = curves @ top.value, curves @ top.slope
        maximum = height_at(height, slope, rows, *highest(height, slope, rows))
        thinned = np.zeros(len(curves))
        for value, tilt in zip(noise, noise_slope):
            for sign in (1, -1):
                place = highest(height + sign * value, slope + sign * tilt, rows)
                thinned += height_at(height - sign * value, slope - sign * tilt, rows, *place)
        return maximum + weight * (thinned / (2 * len(noise)) - maximum)

    def crossing(stretch, curves, half, rows, rising):
        height = curves @ stretch.value
        above = height >= half[:, None]
        if rising:
            cell = (~above[:, :-1] & above[:, 1:]).argmax(axis=1)
        else:
            cell = stretch.at.size - 2 - (above[:, :-1] & ~above[:, 1:])[:, ::-1].argmax(axis=1)
        step = stretch.step[cell]
        a, b = height[rows, cell], height[rows, cell + 1]
        da = np.einsum("ij,ij->i", curves, stretch.slope.T[cell]) * step
        db = np.einsum("ij,ij->i", curves, stretch.slope.T[cell + 1]) * step
        t = (half - a) / (b - a)
        for _ in range(3):
            incline = 6 * t * (1 - t) * (b - a) + (1 - t) * (1 - 3 * t) * da + t * (3 * t - 2) * db
            t = t - (cubic(a, b, da, db, t) - half) / incline
        return stretch.at[cell] + t * step

    def widths(curves):
        rows = np.arange(len(curves))
        half = peaks(curves, rows) / 2
        return crossing(red, curves, half, rows, False) - crossing(blue, curves, half, rows, True)

    return widths


def main():
    task = json.load(sys.stdin)
    nm = np.array(task["wavelengthNm"])
    curve = np.array(task["transmittance"])
    u = np.array(task["standardUncertainty"])
    widths = same(task) if task["reader"] == "same" else plain(task, nm, task["windowNm"])
    draws, batch = task["draws"], task["batch"]
    seconds = []
    for run in range(task["runs"]):
        random = np.random.default_rng(task["seed"] + run)
        found = np.empty(draws)
        start = time.perf_counter()
        for at in range(0, draws, batch):
            size = min(batch, draws - at)
            found[at : at + size] = widths(curve + u * random.standard_normal((size, curve.size)))
        seconds.append(time.perf_counter() - start)
    result = {
        "seconds": seconds,
        "mean": found.mean(),
        "standardUncertainty": found.std(ddof=1),
        "nominal": widths(curve[None, :])[0],
        "python": sys.version.split()[0],
        "numpy": np.__version__,
    }
    json.dump(result, sys.stdout)


main()
