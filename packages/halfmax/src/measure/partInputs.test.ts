import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { budget, type Model, type UncertainInput } from '../uncertainty/index.js';
import { partInputs } from './partInputs.js';

describe('partInputs', () => {
  // Two pixels, then a constant and a slope of the scale: the model adds all four.
  const model: Model = (x, out) => {
    out[0] = x[0]! + 2 * x[1]! + x[2]! + x[3]!;
  };
  const covariance = [Float64Array.of(0.25, 0.03), Float64Array.of(0.03, 0.04)];
  const inputs: UncertainInput[] = [
    {
      source: 'noise',
      distribution: {
        kind: 'independentNormal',
        mean: new Float64Array(2),
        standardUncertainty: Float64Array.of(0.5, 0.5),
      },
    },
    { source: 'scale', distribution: { kind: 'multivariateNormal', mean: new Float64Array(2), covariance } },
  ];
  const dispersion = {
    order: 1,
    coefficients: new Float64Array(2),
    covariance,
    pivotPixel: 0,
    pixelScale: 1,
  };

  it('gives each source its own share, and all together what they gave before', () => {
    const parted = partInputs(model, inputs, {
      noise: [
        { source: 'filtered', standardUncertainty: Float64Array.of(0.4, 0.4) },
        { source: 'open', standardUncertainty: Float64Array.of(0.3, 0.3) },
      ],
      scale: { at: 2, dispersion, couplingNm: 0.4 },
    });
    const draws = 40_000;
    const [own] = budget(parted.model, parted.inputs, { outputs: 1, draws, stream: randomStream(5) });
    if ('absent' in own!) throw new Error(own.absent);
    const share = (source: string): number =>
      own.shares.find((one) => one.source.startsWith(source))!.standardUncertainty;
    expect(share('filtered')).toBeCloseTo(0.4 * Math.sqrt(5), 1);
    expect(share('open')).toBeCloseTo(0.3 * Math.sqrt(5), 1);
    expect(share('light of lamps')).toBeCloseTo(0.4, 1);
    // Variance of the sum of both coefficients, less that of the coupling.
    expect(share('lamp lines')).toBeCloseTo(Math.sqrt(0.25 + 0.04 + 2 * 0.03 - 0.16), 1);
    expect(own.combined).toBeCloseTo(Math.sqrt(5 * 0.25 + 0.25 + 0.04 + 2 * 0.03), 1);
    expect(dispersion.covariance[0]![0]).toBe(0.25);
  });
});
