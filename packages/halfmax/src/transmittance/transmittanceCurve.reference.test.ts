import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { CleanSpectrum } from '../frames/index.js';
import { transmittanceCurve } from './index.js';

interface Plain {
  entry: number;
  role: 'open' | 'filtered';
  takenAtMs: number;
  exposureMs: number;
  frames: number;
  counts: number[];
  noise: number[];
  darkNoise: number[];
  masked: number[];
}

const data = JSON.parse(
  readFileSync(new URL('../../../../tests/reference/transmittance/data.json', import.meta.url), 'utf8'),
) as { open: Plain[]; filtered: Plain[]; expected: Record<string, number[]> };

const spectrum = (plain: Plain): CleanSpectrum => ({
  ...plain,
  lamp: null,
  filter: plain.role === 'filtered' ? 'f1' : null,
  counts: Float64Array.from(plain.counts),
  noise: Float64Array.from(plain.noise),
  darkNoise: Float64Array.from(plain.darkNoise),
  masked: Uint8Array.from(plain.masked),
  wavelengthNm: null,
});

it('agrees with numpy on a session of several exposures, times and clipped pixels', () => {
  const curve = transmittanceCurve(data.filtered.map(spectrum), data.open.map(spectrum));
  const { expected } = data;
  expect([...curve.masked]).toEqual(expected['transmittance']!.map(() => 0));
  expect([...curve.exposureMs]).toEqual(expected['exposureMs']);
  const compare = (found: Float64Array, name: string, relative: number): void => {
    expected[name]!.forEach((value, i) => {
      expect(Math.abs(found[i]! - value), `${name} at pixel ${i}`).toBeLessThan(
        relative * Math.abs(value) + 1e-12,
      );
    });
  };
  // the levels are found by passes of shape and levels in turn, and a tilt common to all scans settles slowly:
  // what is left is three hundred times less than the noise of these scans (0.0016 of the transmittance)
  const settling = 5e-6;
  compare(curve.transmittance, 'transmittance', settling);
  compare(curve.components.filteredNoise, 'filteredNoise', settling);
  compare(curve.components.openNoise, 'openNoise', settling);
  compare(curve.components.darkNoise, 'darkNoise', settling);
  // the drift comes from differences of levels: it may be off by as much of the transmittance as a level is
  expected['drift']!.forEach((value, i) => {
    const error = Math.abs(curve.components.drift[i]! - value);
    expect(error, `drift at pixel ${i}`).toBeLessThan(settling * Math.abs(expected['transmittance']![i]!));
  });
  compare(curve.standardUncertainty, 'standardUncertainty', 100 * settling);
});
