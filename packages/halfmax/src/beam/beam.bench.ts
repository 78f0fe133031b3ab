import { bench, describe } from 'vitest';
import { curveInBeam } from './curveInBeam.js';
import { lineInBeam } from './lineInBeam.js';

const wavelengthNm = Float64Array.from({ length: 2000 }, (_, i) => 390 + 0.17 * i);
const curve = {
  wavelengthNm,
  transmittance: wavelengthNm.map((at) => 0.9 / (1 + ((2 * (at - 656.6)) / 3) ** 6)),
  standardUncertainty: new Float64Array(2000).fill(0.003),
};

describe('a curve of 2000 points', () => {
  bench('in a cone', () => {
    curveInBeam(curve, { fNumber: 3 }, { effectiveIndex: 1.8 });
  });
  bench('a line against focal ratio, 2000 trials', () => {
    lineInBeam(curve, 656.28, [2.8, 4, 6], { seed: 1 });
  });
});
