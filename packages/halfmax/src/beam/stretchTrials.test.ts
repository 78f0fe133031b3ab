import { describe, expect, it } from 'vitest';
import { lineInBeam } from './lineInBeam.js';
import { pixelsBetween } from './pixelsBetween.js';
import { trialOverlay } from './stretchTrials.js';

const wavelengthNm = Float64Array.from({ length: 101 }, (_, i) => 650 + 0.2 * i);
const curve = {
  wavelengthNm,
  transmittance: new Float64Array(101).fill(0.5),
  standardUncertainty: new Float64Array(101),
};

describe('trialOverlay', () => {
  it('writes the trial picked where the stretch and the pixels overlap', () => {
    const part = pixelsBetween(curve, 654, 656);
    const values = [new Float64Array(30).fill(1), Float64Array.from({ length: 30 }, (_, i) => i)];
    const overlay = trialOverlay(curve, part, [{ from: 22, values }])!;
    const out = Float64Array.from(part.transmittance);
    overlay(out, 0.999);
    // The part begins at pixel 19, the stretch at 22.
    expect(Array.from(out.slice(0, 6))).toEqual([0.5, 0.5, 0.5, 0, 1, 2]);
    overlay(out, 0);
    expect(Array.from(out.slice(2, 5))).toEqual([0.5, 1, 1]);
  });

  it('is null where no stretch reaches the pixels', () => {
    const part = pixelsBetween(curve, 654, 656);
    expect(trialOverlay(curve, part, [])).toBeNull();
    expect(trialOverlay(curve, part, [{ from: 60, values: [new Float64Array(5)] }])).toBeNull();
  });
});

describe('lineInBeam with trials of a stretch', () => {
  it('has their mean and spread instead of the noise of the pixels', () => {
    const values = [0.4, 0.5, 0.6, 0.7].map((height) => new Float64Array(101).fill(height));
    const { collimated } = lineInBeam(
      { ...curve, standardUncertainty: new Float64Array(101).fill(0.2) },
      656,
      [],
      {
        trials: [{ from: 0, values }],
        seed: 1,
        draws: 20_000,
      },
    );
    if ('absent' in collimated) throw new Error(collimated.absent);
    // Mean and standard deviation of 0.4, 0.5, 0.6, 0.7, each as likely.
    expect(collimated.value).toBeCloseTo(0.55, 2);
    expect(collimated.standardUncertainty).toBeCloseTo(Math.sqrt(0.0125), 2);
  });
});
