import { bench } from 'vitest';
import { fitNonlinear } from './fitNonlinear.js';
import { randomStream } from './randomStream.js';

const n = 15;
const stream = randomStream(1);
const lines = Array.from({ length: 100 }, () =>
  Float64Array.from(
    { length: n },
    (_, i) => 1000 * Math.exp(-0.5 * ((i - 7.3) / 2) ** 2) + 50 + 10 * stream.normal(),
  ),
);
function line(p: Float64Array, out: Float64Array): void {
  for (let i = 0; i < n; i++) {
    const d = (i - p[1]!) / p[2]!;
    out[i] = p[0]! * Math.exp(-0.5 * d * d) + p[3]! + p[4]! * (i - 7);
  }
}

bench('fitNonlinear: 100 spectral lines of 15 points by 5 parameters', () => {
  for (const y of lines) fitNonlinear(line, y, [900, 7, 2.5, 0, 0]);
});
