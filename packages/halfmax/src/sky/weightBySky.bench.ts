import { bench, describe } from 'vitest';
import { siteSky } from './siteSky.js';
import { skyWeights } from './skyWeights.js';
import { weightBySky } from './weightBySky.js';

const pixels = 2000;
const wavelengthNm = Float64Array.from({ length: pixels }, (_, i) => 380 + 0.2 * i);
const curve = {
  wavelengthNm,
  transmittance: wavelengthNm.map((at) => 0.9 / (1 + ((2 * (at - 656.3)) / 3) ** 6)),
  standardUncertainty: new Float64Array(pixels).fill(0.002),
};
const site = { skyBrightness: 19, lightSources: [{ source: 'high-pressure sodium', share: 1 }] };
const { sky } = siteSky(site);
const weights = skyWeights(wavelengthNm, sky);

describe('one sky for a curve of 2000 points', () => {
  bench('weighted anew', () => {
    weightBySky(curve, sky);
  });
  bench('with the weights kept', () => {
    let sum = 0;
    for (let i = 0; i < pixels; i++) sum += weights[i]! * curve.transmittance[i]!;
    if (!(sum > 0)) throw new Error('no light');
  });
  bench('the sky built from its site', () => {
    siteSky(site);
  });
});
