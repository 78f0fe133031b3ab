import { describe, expect, it } from 'vitest';
import type { Calibration } from '../calibration/index.js';
import { type Curve, findBands } from '../metrics/index.js';
import { normalCdf } from '../numeric/index.js';
import { type BandCorrection, correctBand, type MeasuredBand } from './correctBand.js';

const centre = 656.3;
const noise = 0.001;
const WIDTH = 2 * Math.sqrt(2 * Math.LN2);
const stepNm = 0.2;
const pixels = 400;

/** A straight scale and a Gaussian line spread of the same width everywhere, 2 % uncertain. */
function calibrationOf(lineSpreadNm: number): Calibration {
  const none = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
  return {
    dispersion: {
      order: 1,
      coefficients: Float64Array.of(centre, (stepNm * pixels) / 2, 0),
      covariance: none,
      pivotPixel: pixels / 2,
      pixelScale: pixels / 2,
    },
    lineSpread: {
      coefficients: Float64Array.of(lineSpreadNm),
      covariance: [new Float64Array(1)],
      pivotNm: centre,
      scaleNm: 100,
      scatterNm: 0,
      boxShare: 0,
      boxRatio: 1,
      widthShareUncertainty: 0.02,
      skewness: 0,
      skewnessUncertainty: 0.02,
      residual: new Float64Array(37),
      linesNm: [640, 660],
    },
  } as unknown as Calibration;
}

/** Corrects a band that was seen through a Gaussian spread in closed form. */
function corrected(
  seen: (x: number) => number,
  fwhmNm: number,
  lineSpreadNm: number,
): BandCorrection | { absent: string } {
  const wavelengthNm = Float64Array.from({ length: pixels }, (_, i) => centre + stepNm * (i - pixels / 2));
  const curve: Curve = {
    wavelengthNm,
    transmittance: wavelengthNm.map((nm) => seen(nm - centre)),
    standardUncertainty: new Float64Array(pixels).fill(noise),
  };
  const measured: MeasuredBand = { centreNm: centre, fwhmNm, peakTransmittance: seen(0) };
  const light = new Float64Array(pixels).fill(40_000);
  return correctBand(curve, light, findBands(curve)[0]!, measured, calibrationOf(lineSpreadNm));
}

function found(correction: BandCorrection | { absent: string }): BandCorrection {
  if ('absent' in correction) throw new Error(correction.absent);
  return correction;
}

const gauss = (width: number, spread: number) => (x: number) => {
  const seen = Math.hypot(width, spread);
  return ((0.9 * width) / seen) * 2 ** -(((2 * x) / seen) ** 2);
};
const box = (width: number, spread: number) => (x: number) =>
  0.9 * (normalCdf(((x + width / 2) * WIDTH) / spread) - normalCdf(((x - width / 2) * WIDTH) / spread));

const widthOf = ({ readings }: BandCorrection): number => readings.redNm - readings.blueNm;

describe('correctBand', () => {
  it.each([
    // Widths as seen: the root of the sum of squares, and from the difference of two normal distributions.
    ['a Gaussian of 3 nm through 1.2 nm', gauss(3, 1.2), 3, Math.hypot(3, 1.2), 1.2],
    ['a Gaussian of 7 nm through 1.2 nm', gauss(7, 1.2), 7, Math.hypot(7, 1.2), 1.2],
    ['a box of 3 nm through 1.5 nm', box(3, 1.5), 3, 3.029588665, 1.5],
    ['a box of 7 nm through 1.2 nm', box(7, 1.2), 7, 7, 1.2],
  ])('gives width and centre of %s', (_, seen, width, seenWidth, spread) => {
    const correction = found(corrected(seen, seenWidth, spread));
    // Half the difference of the two ways is a half width that the measurement states for just this: what the noise,
    // here only assumed, leaves open. 1 % of the line spread besides, for pixels of a sixth of it.
    const open = correction.secondWay.fwhmNm + 0.01 * spread;
    expect(Math.abs(widthOf(correction) - width)).toBeLessThan(open);
    expect(Math.abs((correction.readings.blueNm + correction.readings.redNm) / 2 - centre)).toBeLessThan(
      0.002,
    );
  });

  it('hands on what is uncertain of the line spread', () => {
    const { widthUncertainty, skewnessUncertainty, spreadNoise, data } = found(
      corrected(box(5, 1.2), 5, 1.2),
    );
    expect(widthUncertainty).toBeCloseTo(0.02, 12);
    expect(skewnessUncertainty).toBe(0.02);
    // Greatest where the curve is steepest, nothing to speak of on the top.
    const steepest = spreadNoise.indexOf(Math.max(...spreadNoise));
    expect(Math.abs(Math.abs(data.wavelengthNm[steepest]! - centre) - 2.5)).toBeLessThan(2 * stepNm);
    expect(spreadNoise[Math.floor(spreadNoise.length / 2)]!).toBeLessThan(1e-6);
  });

  it('sees its own fit through its own line spread as the fit was seen, wider through a wider one', () => {
    const correction = found(corrected(gauss(4, 1.2), Math.hypot(4, 1.2), 1.2));
    const { fits, matrixFor, seenThrough } = correction;
    expect(fits.length).toBeGreaterThan(0);
    for (const fit of fits) {
      seenThrough(fit, matrixFor(1, 0)).forEach((value, i) => {
        expect(value).toBeCloseTo(fit.seen[i]!, 12);
      });
      const wider = seenThrough(fit, matrixFor(1.2, 0));
      expect(Math.max(...wider)).toBeLessThan(Math.max(...fit.seen));
    }
  });

  it('says why there is no number where the line spread hides the band', () => {
    const narrow = corrected(gauss(0.5, 1.2), Math.hypot(0.5, 1.2), 1.2);
    expect(narrow).toEqual({
      absent:
        'the line spread, 1.20 nm, is nearly as wide as the band looks: its FWHM lies between 0 and 1.30 nm',
    });
  });

  it('says so where too few pixels show the band', () => {
    const few = corrected(gauss(0.8, 0.3), Math.hypot(0.8, 0.3), 0.3);
    expect(few).toHaveProperty('absent');
    expect((few as { absent: string }).absent).toMatch(/^only \d+ pixels show the band and its feet/);
  });

  it('says so where no band shape fits', () => {
    const deep = (x: number): number => box(7, 1.2)(x) * (1 - 0.3 * Math.exp(-0.5 * ((x - 0.4) / 0.25) ** 2));
    const correction = corrected(deep, 7, 1.2);
    expect(correction).toHaveProperty('absent');
    expect((correction as { absent: string }).absent).toMatch(/^no band shape fits the pixels/);
  });
});
