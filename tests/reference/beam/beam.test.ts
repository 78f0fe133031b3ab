// Values by scipy: see generate.py beside this file.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Beam, curveInBeam } from '../../../packages/halfmax/src/beam/index.js';
import { interpolateLinear } from '../../../packages/halfmax/src/numeric/index.js';

const data = JSON.parse(readFileSync(new URL('./data.json', import.meta.url), 'utf8'));
const step = 0.02;
const fine = Float64Array.from({ length: 3001 }, (_, i) => 640 + step * i);
const curve = {
  wavelengthNm: fine,
  transmittance: fine.map((x) => 1 / (1 + ((2 * (x - 656.8)) / 3) ** 6)),
  standardUncertainty: new Float64Array(fine.length),
};
const readAt = (beam: Beam, effectiveIndex: number, at: number): number => {
  const seen = curveInBeam(curve, beam, { effectiveIndex });
  return interpolateLinear(seen.wavelengthNm, seen.transmittance, at);
};
// Straight lines between samples: at most h^2 / 8 of the curvature, which is below 3 per nm^2 here.
const straight = (step * step * 3) / 8;

describe('a passband in a beam, against scipy', () => {
  it.each(data.cones.rows as [number, number, number, 'sine' | 'tangent', number, number, number][])(
    'f/%d, obstruction %d, edge %d, %s, index %d, at %d nm',
    (fNumber, centralObstruction, edge, angleRule, index, at, expected) => {
      const pupil = edge === 1 ? 'uniform' : { gaussianEdge: edge };
      const found = readAt({ fNumber, centralObstruction, pupil, angleRule }, index, at);
      // and the quadrature of 48 nodes on straight pieces
      expect(Math.abs(found - expected)).toBeLessThan(2 * straight);
    },
  );

  it.each(data.leaning.rows as [number, number, number, number, number, number][])(
    'f/%d leaning by %d degrees, obstruction %d, index %d, at %d nm',
    (fNumber, lean, centralObstruction, index, at, expected) => {
      const byTilt = readAt({ fNumber, centralObstruction, tiltDeg: lean }, index, at);
      const byChief = readAt({ fNumber, centralObstruction, chiefRayDeg: lean }, index, at);
      expect(Math.abs(byTilt - expected)).toBeLessThan(2 * straight);
      expect(byChief).toBeCloseTo(byTilt, 12);
    },
  );

  it('measured at f/8, used at f/3 and f/2.2', () => {
    const { index, wavelengthNm, transmittance, used } = data.measuredAtF8;
    const measured = {
      wavelengthNm: Float64Array.from(wavelengthNm),
      transmittance: Float64Array.from(transmittance),
      standardUncertainty: new Float64Array(wavelengthNm.length),
    };
    for (const [fNumber, at, expected] of used as [number, number, number][]) {
      const options = { effectiveIndex: index, measuredIn: { fNumber: 8 } };
      const seen = curveInBeam(measured, { fNumber }, options);
      const found = interpolateLinear(seen.wavelengthNm, seen.transmittance, at);
      // Mean and variance of the cones are matched, their higher cumulants are not: 0.002 at most here.
      expect(Math.abs(found - expected)).toBeLessThan(0.0025);
      // Taken for parallel light the same curve would be 0.1 nm off.
      const naive = curveInBeam(measured, { fNumber }, { effectiveIndex: index });
      const wrong = interpolateLinear(naive.wavelengthNm, naive.transmittance, at);
      if (Math.abs(at - 655.3) < 0.01) expect(Math.abs(wrong - expected)).toBeGreaterThan(0.005);
    }
  });
});
