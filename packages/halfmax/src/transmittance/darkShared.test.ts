import { describe, expect, it } from 'vitest';
import type { CleanSpectrum } from '../frames/index.js';
import { transmittanceCurve } from './transmittanceCurve.js';

const pixels = 50;
/** Counts per ms of the open beam, and the transmittance of the filter. */
const light = (i: number): number => 100 + i;
const band = (i: number): number => (Math.abs(i - 25) < 5 ? 0.8 : 0);

function spectrum(role: 'open' | 'filtered', exposureMs: number, shared: number, error = 0): CleanSpectrum {
  return {
    entry: role === 'open' ? 0 : 1,
    role,
    lamp: null,
    filter: role === 'open' ? null : 'f1',
    takenAtMs: null,
    exposureMs,
    frames: 4,
    counts: Float64Array.from(
      { length: pixels },
      (_, i) => light(i) * exposureMs * (role === 'open' ? 1 : band(i)) + error * shared,
    ),
    noise: new Float64Array(pixels).fill(1),
    darkNoise: new Float64Array(pixels),
    darkShared: new Float64Array(pixels).fill(shared),
    masked: new Uint8Array(pixels),
    wavelengthNm: null,
  };
}

describe('what a dark of another exposure leaves open', () => {
  // filtered at 400 ms, open at 20 ms, the dark at 100 ms: the unknown growth has opposite signs
  const [long, short] = [300, -80];

  it('moves the transmittance as the shared component says, at once in all pixels', () => {
    const exact = transmittanceCurve([spectrum('filtered', 400, long)], [spectrum('open', 20, short)]);
    // a hundredth of the unknown: the change is then as good as linear
    const moved = transmittanceCurve(
      [spectrum('filtered', 400, long, 0.01)],
      [spectrum('open', 20, short, 0.01)],
    );
    for (let i = 0; i < pixels; i++) {
      const change = (moved.transmittance[i]! - exact.transmittance[i]!) / 0.01;
      expect(Math.abs(change / exact.components.darkShared[i]! - 1), `pixel ${i}`).toBeLessThan(0.001);
    }
  });

  it('is in the uncertainty and in the floor of each pixel', () => {
    const { components, standardUncertainty, floor } = transmittanceCurve(
      [spectrum('filtered', 400, long)],
      [spectrum('open', 20, short)],
    );
    // without light: 300 counts over 400 ms of 110 counts/ms, and the noise of 1 count
    expect(components.darkShared[10]!).toBeCloseTo(300 / 44000, 12);
    expect(floor[10]!).toBeCloseTo((3 * Math.hypot(300, 1)) / 44000, 12);
    expect(standardUncertainty[10]!).toBeGreaterThan(300 / 44000);
  });

  it('is nothing where the darks have the exposures of the light', () => {
    const { darkShared, ...plain } = spectrum('filtered', 400, 0);
    expect(darkShared![0]).toBe(0);
    const { components } = transmittanceCurve([plain], [spectrum('open', 400, 0)]);
    expect(components.darkShared.every((value) => value === 0)).toBe(true);
  });
});
