// Values by numpy: see generate.py beside this file.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isAbsent, type Quantity } from '../../../packages/halfmax/src/metrics/index.js';
import {
  type Camera,
  filterOnSky,
  linePhotons,
  pixelGrasp,
  type Sky,
  weightBySky,
} from '../../../packages/halfmax/src/sky/index.js';

const data = JSON.parse(readFileSync(new URL('./data.json', import.meta.url), 'utf8'));
const { expected, inputs } = data;
const sky: Sky = {
  wavelengthNm: Float64Array.from(data.sky.wavelengthNm),
  photons: Float64Array.from(data.sky.photons),
  lines: data.sky.lines.map(([wavelengthNm, photons]: [number, number]) => ({ wavelengthNm, photons })),
};
const curve = {
  wavelengthNm: Float64Array.from(data.curve.wavelengthNm),
  transmittance: Float64Array.from(data.curve.transmittance),
  standardUncertainty: new Float64Array(data.curve.wavelengthNm.length),
};
const camera: Camera = { ...data.camera, quantumEfficiency: data.quantumEfficiency };
const value = (number: Quantity): number => {
  if (isAbsent(number)) throw new Error(number.absent);
  return number.value;
};

describe('a filter under a sky, against numpy', () => {
  it('photons behind the filter: exact for straight pieces', () => {
    const { photons } = weightBySky(curve, sky, { fromNm: 400, toNm: 700 });
    expect(photons / expected.photons).toBeCloseTo(1, 11);
  });

  it('grasp of a pixel and the two units of a line', () => {
    expect(pixelGrasp(camera) / expected.pixelGrasp).toBeCloseTo(1, 12);
    const { targetNm } = inputs;
    const photons = linePhotons({ value: data.erg, unit: 'erg/s/cm2/arcsec2' }, targetNm);
    expect(photons / expected.ergPhotons).toBeCloseTo(1, 12);
  });

  it('line, sky, contrast, gain and hours in a cone', () => {
    const { fNumber, centralObstruction } = data.camera;
    const brightness = { value: inputs.rayleigh, unit: 'rayleigh' } as const;
    const found = filterOnSky(curve, [{ name: 'H-alpha', wavelengthNm: inputs.targetNm, brightness }], sky, {
      ...inputs,
      camera,
      beam: { fNumber, centralObstruction },
      range: { fromNm: 400, toNm: 700 },
      seed: 1,
      draws: 60,
    });
    if (isAbsent(found)) throw new Error(found.absent);
    const line = found.lines[0]!;
    const pairs: [string, Quantity][] = [
      ['lineTransmittance', line.transmittance],
      ['signalPerPixel', line.signalPerPixel],
      ['contrast', line.contrast],
      ['gain', line.gain],
      ['hours', line.hours],
      ['skyPerPixel', found.skyPerPixel],
      ['skyTransmittance', found.skyTransmittance],
      ['effectiveWidthNm', found.effectiveWidthNm],
    ];
    // 48 nodes over a curve with a corner at each pixel, and the quantum efficiency taken at the sky's points only: the
    // product of the two is straight there, 1 in 10^4.
    for (const [name, found] of pairs) {
      expect(Math.abs(value(found) / expected[name] - 1), name).toBeLessThan(5e-4);
    }
  });
});
