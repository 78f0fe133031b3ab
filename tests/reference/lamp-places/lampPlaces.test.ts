import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitLineGroup } from '../../../packages/halfmax/src/calibration/fitLineGroup.js';
import { fitHeldPolynomial } from '../../../packages/halfmax/src/calibration/heldPolynomial.js';
import { findLines, fitDispersion, lineShape } from '../../../packages/halfmax/src/calibration/index.js';

interface Place {
  readonly drawn: number;
  readonly pixel: number;
  readonly standardUncertainty: number;
  readonly height: number;
  readonly fwhm: number;
}

interface Solution {
  readonly coefficients: number[];
  readonly covariance: number[][];
}

interface Data {
  readonly frame: { readonly counts: number[]; readonly noise: number[] };
  readonly places: Place[];
  readonly scale: {
    readonly pixels: number;
    readonly pixel: number[];
    readonly pixelUncertainty: number[];
    readonly wavelengthNm: number[];
    readonly plain: Solution;
    readonly held: Solution;
    readonly wide: Solution;
  };
}

const data: Data = JSON.parse(readFileSync(new URL('data.json', import.meta.url), 'utf8'));

describe('line places, against scipy.optimize.curve_fit', () => {
  const countsPerMs = Float64Array.from(data.frame.counts);
  const found = findLines({
    label: 'Ne',
    where: 'frames[0]',
    countsPerMs,
    standardUncertainty: Float64Array.from(data.frame.noise),
    masked: new Uint8Array(countsPerMs.length),
  });
  const nearest = (place: Place) =>
    found.reduce((best, line) =>
      Math.abs(line.pixel - place.pixel) < Math.abs(best.pixel - place.pixel) ? line : best,
    );

  it('finds the twelve lines and no other', () => {
    expect(found).toHaveLength(data.places.length);
  });

  it.each(data.places)(
    'fits the line at $drawn as scipy does, over the same pixels with the same noise',
    (place) => {
      const together = data.places.filter((other) => Math.abs(other.drawn - place.drawn) < 12);
      const fitted = fitLineGroup(
        {
          counts: countsPerMs,
          noise: Float64Array.from(data.frame.noise),
          masked: new Uint8Array(countsPerMs.length),
          centres: together.map((other) => Math.round(other.drawn)),
          hidden: [],
          width: 4.6,
          before: Number.NEGATIVE_INFINITY,
          after: Number.POSITIVE_INFINITY,
        },
        lineShape(0, 1, 0),
        false,
      );
      const line = fitted[together.indexOf(place)]!;
      const { standardUncertainty } = place;
      // The profile is read from a table by straight lines, off by 1.3e-5 of its height: 12000 counts against a noise of
      // 3 make that 2 % of an uncertainty of the brightest line, and less of all others.
      expect(Math.abs(line.pixel - place.pixel)).toBeLessThan(0.02 * standardUncertainty);
      expect(Math.abs(line.height / place.height - 1)).toBeLessThan(1e-4);
      expect(Math.abs(line.fwhmPixels - place.fwhm)).toBeLessThan(0.02 * line.fwhmUncertaintyPixels);
      // scipy states the noise's part alone; ours is wider by the misfit where that is above the noise.
      const misfit = Math.max(1, Math.sqrt(line.chiSquare / line.degreesOfFreedom));
      expect(Math.abs(line.pixelUncertainty / misfit / standardUncertainty - 1)).toBeLessThan(1e-3);
    },
  );

  it.each(data.places)(
    'places the line at $drawn within a part of its uncertainty when it finds it by itself',
    (place) => {
      const line = nearest(place);
      // Its own stretch may be two pixels of sixteen shorter, and the noise of quiet pixels is floored by what they show:
      // estimates from seven eighths of the data differ by sqrt(1 / 7) = 0.38 of the uncertainty.
      expect(Math.abs(line.pixel - place.pixel)).toBeLessThan(0.38 * place.standardUncertainty);
      expect(line.pixelUncertainty / place.standardUncertainty).toBeGreaterThan(0.9);
      expect(line.pixelUncertainty / place.standardUncertainty).toBeLessThan(1.6);
    },
  );

  it('states uncertainties that the places drawn bear out', () => {
    for (const place of data.places) {
      expect(Math.abs(nearest(place).pixel - place.drawn)).toBeLessThan(4 * nearest(place).pixelUncertainty);
    }
  });
});

describe('the scale, against numpy', () => {
  const { scale } = data;
  const { dispersion, jitterNm, rejected, couplingNm } = fitDispersion(
    scale.pixel.map((pixel, k) => ({
      lamp: 'Ne',
      pixel,
      pixelUncertainty: scale.pixelUncertainty[k]!,
      wavelengthNm: scale.wavelengthNm[k]!,
    })),
    scale.pixels,
  );

  it('is a cubic with no line rejected and no further scatter, as the reference takes it', () => {
    expect(dispersion.order).toBe(3);
    expect(rejected).toEqual([]);
    expect(jitterNm).toBe(1e-4);
  });

  it('has the coefficients of the held cubic to 1e-9, of the plain one to the pull of the hold', () => {
    scale.held.coefficients.forEach((expected, k) => {
      expect(Math.abs(dispersion.coefficients[k]! - expected)).toBeLessThan(1e-9 * Math.abs(expected));
    });
    // Held within 4 nm, the cubic term is known to 0.01 nm: it is pulled by 1e-5 of itself, 1e-3 of its uncertainty.
    scale.plain.coefficients.forEach((expected, k) => {
      const u = Math.sqrt(scale.plain.covariance[k]![k]!);
      expect(Math.abs(dispersion.coefficients[k]! - expected)).toBeLessThan(2e-3 * u);
    });
  });

  it('has the covariance of the widest fit, what that fit differs by, and the coupling, to 1e-6', () => {
    const chosen = (k: number): number => dispersion.coefficients[k]!;
    const { coefficients, covariance } = scale.wide;
    expect(dispersion.covariance).toHaveLength(coefficients.length);
    coefficients.forEach((a, j) => {
      coefficients.forEach((b, k) => {
        const away = (a - chosen(j)) * (b - chosen(k));
        const expected = covariance[j]![k]! + away + (j + k === 0 ? couplingNm ** 2 : 0);
        const size = Math.sqrt(dispersion.covariance[j]![j]! * dispersion.covariance[k]![k]!);
        expect(Math.abs(dispersion.covariance[j]![k]! - expected)).toBeLessThan(1e-6 * size);
      });
    });
  });

  it('comes from a held fit with the covariance that numpy gives', () => {
    const middle = (scale.pixels - 1) / 2;
    const last = scale.pixel.length - 1;
    const chord =
      (scale.wavelengthNm[last]! - scale.wavelengthNm[0]!) / (scale.pixel[last]! - scale.pixel[0]!);
    const fit = fitHeldPolynomial(
      scale.pixel.map((pixel) => [0, 1, 2, 3].map((k) => ((pixel - middle) / middle) ** k)),
      3,
      scale.wavelengthNm,
      Float64Array.from(scale.pixelUncertainty, (u) => 1 / ((u * chord) ** 2 + 1e-8)),
      Math.abs(chord * middle),
    );
    scale.held.covariance.forEach((row, j) => {
      row.forEach((expected, k) => {
        expect(Math.abs(fit.covariance[j]![k]! / expected - 1)).toBeLessThan(1e-6);
        // The plain cubic of numpy.polyfit: the hold takes 1e-3 off the variance of the cubic term at most.
        const size = Math.sqrt(scale.plain.covariance[j]![j]! * scale.plain.covariance[k]![k]!);
        expect(Math.abs(fit.covariance[j]![k]! - scale.plain.covariance[j]![k]!)).toBeLessThan(1e-3 * size);
      });
    });
  });
});
