import { describe, expect, it } from 'vitest';
import { coneShift } from './coneShift.js';
import { curveBandInBeam } from './curveBandInBeam.js';
import { curveInBeam } from './curveInBeam.js';

const scan = Float64Array.from({ length: 1001 }, (_, i) => 640 + 0.04 * i);
const made = (of: (x: number) => number, noise = 0): Parameters<typeof curveInBeam>[0] => ({
  wavelengthNm: scan,
  transmittance: scan.map(of),
  standardUncertainty: new Float64Array(scan.length).fill(noise),
});
const band = made((x) => 0.9 * Math.exp(-(((x - 656.3) / 2.2) ** 4)));

describe('curveInBeam', () => {
  it('leaves a curve alone in parallel light', () => {
    const seen = curveInBeam(band, { fNumber: Number.POSITIVE_INFINITY }, { effectiveIndex: 1.8 });
    expect(seen.wavelengthNm).toEqual(scan);
    for (let i = 0; i < scan.length; i++)
      expect(seen.transmittance[i]).toBeCloseTo(band.transmittance[i]!, 12);
  });

  it('moves a straight slope by the mean of 1 / factor, exactly', () => {
    const slope = made((x) => 0.01 * (x - 640));
    const seen = curveInBeam(slope, { fNumber: 2.5 }, { effectiveIndex: 2 });
    const x = 1 / 25 / 4; // (sin / n)^2 at the edge
    const factor = (2 / x) * (1 - Math.sqrt(1 - x)); // mean of (1 - y)^(-1/2), y from 0 to x
    const i = 100;
    expect(seen.transmittance[i]).toBeCloseTo(0.01 * (seen.wavelengthNm[i]! * factor - 640), 10);
  });

  it('keeps the area of a band over the wavelength ratio, within the mean shift', () => {
    const seen = curveInBeam(band, { fNumber: 3, centralObstruction: 0.3 }, { effectiveIndex: 1.7 });
    const area = (curve: typeof band): number => curve.transmittance.reduce((sum, t) => sum + 0.04 * t, 0);
    const ratio = 1 + coneShift(656.3, { fNumber: 3, centralObstruction: 0.3 }, 1.7) / 656.3;
    expect(area(seen) / area(band)).toBeCloseTo(ratio, 5);
  });

  it('measured and used in the same beam it is the same curve', () => {
    const beam = { fNumber: 4, tiltDeg: 1 };
    const seen = curveInBeam(band, beam, { effectiveIndex: 1.8, measuredIn: beam });
    const at = seen.wavelengthNm.findIndex((x) => x > 654);
    const there = scan.indexOf(seen.wavelengthNm[at]!);
    expect(seen.transmittance[at]).toBeCloseTo(band.transmittance[there]!, 9);
  });

  it('averages noise, and draws none from beyond the scan', () => {
    const noisy = made((x) => 0.5 + 0 * x, 0.01);
    const seen = curveInBeam(noisy, { fNumber: 3 }, { effectiveIndex: 1.6 });
    expect(seen.standardUncertainty[10]).toBeLessThan(0.003);
    expect(seen.standardUncertainty[10]).toBeGreaterThan(0.0005);
    expect(seen.wavelengthNm[seen.wavelengthNm.length - 1]).toBeLessThan(680);
    expect(Math.min(...seen.transmittance)).toBeCloseTo(0.5, 12);
  });

  it('a warm filter lies to the red', () => {
    const seen = curveInBeam(
      band,
      { fNumber: Number.POSITIVE_INFINITY },
      { effectiveIndex: 2, shiftNm: 0.4 },
    );
    const at = seen.wavelengthNm.findIndex((x) => x >= 658 - 1e-9);
    const there = scan.findIndex((x) => x >= 657.6 - 1e-9);
    expect(seen.transmittance[at]).toBeCloseTo(band.transmittance[there]!, 9);
  });

  it('does not change its arguments', () => {
    const before = Float64Array.from(band.transmittance);
    curveInBeam(band, { fNumber: 2 }, { effectiveIndex: 2 });
    expect(band.transmittance).toEqual(before);
  });

  it.each([
    [{ fNumber: 0 }, 2],
    [{ fNumber: 4, centralObstruction: 1 }, 2],
    [{ fNumber: 4 }, 0.5],
  ] as const)('refuses %j with index %d', (beam, effectiveIndex) => {
    expect(() => curveInBeam(band, beam, { effectiveIndex })).toThrow(RangeError);
  });
});

it('refuses a scan that does not rise, or holds no number', () => {
  const turned = { ...band, wavelengthNm: Float64Array.from(scan).reverse() };
  expect(() => curveInBeam(turned, { fNumber: 4 }, { effectiveIndex: 2 })).toThrow('strictly increasing');
  const holed = { ...band, transmittance: band.transmittance.map((t, i) => (i === 7 ? Number.NaN : t)) };
  expect(() => curveInBeam(holed, { fNumber: 4 }, { effectiveIndex: 2 })).toThrow('got NaN at index 7');
});

describe('curveBandInBeam', () => {
  it('encloses the curve of every index but the outermost, and closes up for one index', () => {
    const open = curveBandInBeam(band, { fNumber: 3 });
    const middle = curveInBeam(band, { fNumber: 3 }, { effectiveIndex: 1.8 });
    const offset = middle.wavelengthNm.indexOf(open.wavelengthNm[0]!);
    for (let i = 0; i < open.wavelengthNm.length; i += 25) {
      expect(open.low[i]).toBeLessThanOrEqual(middle.transmittance[offset + i]! + 1e-9);
      expect(open.high[i]).toBeGreaterThanOrEqual(middle.transmittance[offset + i]! - 1e-9);
    }
    const closed = curveBandInBeam(band, { fNumber: 3 }, { effectiveIndex: 1.8 });
    expect(closed.low).toEqual(closed.high);
  });
});
