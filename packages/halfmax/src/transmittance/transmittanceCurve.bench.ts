import { bench, describe } from 'vitest';
import type { CleanSpectrum } from '../frames/index.js';
import { transmittanceCurve } from './index.js';

const pixels = 2048;
const make = (entry: number, role: 'open' | 'filtered', minute: number): CleanSpectrum => ({
  entry,
  role,
  lamp: null,
  filter: role === 'filtered' ? 'f1' : null,
  takenAtMs: minute * 60_000,
  exposureMs: 100,
  frames: 10,
  counts: Float64Array.from({ length: pixels }, (_, i) => 20000 + 10 * Math.sin(i + entry)),
  noise: new Float64Array(pixels).fill(40),
  darkNoise: new Float64Array(pixels).fill(2),
  masked: new Uint8Array(pixels),
  wavelengthNm: null,
});
const open = [0, 10, 20, 30, 40].map((minute, k) => make(k, 'open', minute));
const filtered = [5, 15, 25, 35, 38].map((minute, k) => make(5 + k, 'filtered', minute));

describe('transmittanceCurve', () => {
  bench('2048 pixels, 10 entries', () => {
    transmittanceCurve(filtered, open);
  });
});
