import { describe, expect, it } from 'vitest';
import { normalCdf, randomStream } from '../numeric/index.js';
import type { BandMetrics } from './bandMetrics.js';
import { describeBand } from './describeBand.js';
import { findBands } from './findBands.js';
import { isAbsent } from './quantity.js';
import { transmittanceAt } from './transmittanceAt.js';
import type { Curve, Quantity } from './types.js';

const noise = 0.003;
const draws = 600;
const centre = 656.28;

/** Measures the same band under fresh noise; per quantity the mean, the scatter and the mean uncertainty stated. */
function scatter(
  f: (x: number) => number,
  stepNm: number,
): Map<string, { mean: number; ratio: number; sd: number }> {
  const stream = randomStream(2024);
  const wavelengthNm = Float64Array.from(
    { length: Math.round(60 / stepNm) },
    (_, i) => centre - 30 + stepNm * (i + 0.2),
  );
  const truth = wavelengthNm.map((nm) => f(nm - centre));
  const standardUncertainty = new Float64Array(truth.length).fill(noise);
  const seen = new Map<string, { values: number[]; squares: number }>();
  const note = (name: string, quantity: Quantity): void => {
    if (isAbsent(quantity)) throw new Error(`${name}: ${quantity.absent}`);
    const entry = seen.get(name) ?? { values: [], squares: 0 };
    entry.values.push(quantity.value);
    entry.squares += quantity.standardUncertainty ** 2;
    seen.set(name, entry);
  };
  for (let i = 0; i < draws; i++) {
    const curve: Curve = {
      wavelengthNm,
      transmittance: truth.map((t) => t + noise * stream.normal()),
      standardUncertainty,
    };
    const metrics: BandMetrics = describeBand(curve, findBands(curve)[0]!, { lineSpreadNm: 1.1 });
    note('fwhm', metrics.fwhmNm);
    note('centre', metrics.centreNm);
    note('blue', metrics.halfCrossingsNm.blueNm);
    note('peak', metrics.peakTransmittance);
    note('peak place', metrics.peakNm);
    note('10 %', metrics.width10Nm);
    note('area', metrics.equivalentWidthNm);
    note('centroid', metrics.definitions.centroidNm);
    note('absolute half', metrics.definitions.absoluteHalf.widthNm);
    note('mean top', metrics.definitions.meanTop);
    note('edge', metrics.edges.blue.width10To90Nm);
    note('slope', metrics.edges.red.slopeAtHalfPerNm);
    note('at line', transmittanceAt(curve, centre + 1.7, { lineSpreadNm: 1.1 }));
  }
  return new Map(
    [...seen].map(([name, { values, squares }]) => {
      const mean = values.reduce((sum, v) => sum + v, 0) / draws;
      const sd = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (draws - 1));
      return [name, { mean, sd, ratio: Math.sqrt(squares / draws) / sd }];
    }),
  );
}

const sigma = 0.5;
describe('stated uncertainty against the scatter of repeated noise', () => {
  const butterworth = (x: number): number => 0.9 / (1 + Math.abs(x / 3.5) ** 6);
  const rectangle = (x: number): number =>
    0.9 * (normalCdf((x + 2.5) / sigma) - normalCdf((x - 2.5) / sigma));

  it('Gaussian of 5 nm', { tags: ['long'] }, () => holds((x) => 0.9 * 2 ** -(((2 * x) / 5) ** 2), 5, 0.17));
  it('Butterworth k = 3 of 7 nm', { tags: ['long'] }, () => holds(butterworth, 7, 0.17));
  it('rectangle of 5 nm with a line spread of 1.2 nm', { tags: ['long'] }, () => holds(rectangle, 5, 0.25));

  function holds(f: (x: number) => number, width: number, step: number): void {
    const found = scatter(f, step);
    for (const [name, { ratio }] of found) {
      // the scatter of 600 draws is known to 1/sqrt(1200) = 2.9 %; 10 % asked, to which three times that is no excuse
      const [low, high] = name === 'peak' || name === 'peak place' ? [0.85, 1.3] : [0.9, 1.1];
      expect(ratio, name).toBeGreaterThan(low);
      expect(ratio, name).toBeLessThan(high);
    }
    // the peak is not pulled upwards by noise: smoothing bias 0.0008 and 0.3 of its scatter
    const peak = found.get('peak')!;
    expect(peak.mean - 0.9).toBeLessThan(0.0008 + 0.3 * peak.sd);
    expect(peak.mean - 0.9).toBeGreaterThan(-0.0008 - 0.5 * peak.sd);
    const fwhm = found.get('fwhm')!;
    expect(Math.abs(fwhm.mean - width)).toBeLessThan(0.005);
    expect(Math.abs(found.get('centre')!.mean - centre)).toBeLessThan(0.001);
  }
});
