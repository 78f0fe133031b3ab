// Worked examples of JCGM 106:2012 (the role of measurement uncertainty in conformity assessment).
// Results are held against integrals done with scipy, whose digits agree with the published, rounder ones.
// "Inputs from memory" marks examples whose numbers were not read in the published text.

import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../packages/halfmax/src/numeric/index.js';
import {
  acceptanceInterval,
  conformanceProbability,
  globalRisk,
  guardBand,
  guardBandForRisk,
  type Inspection,
  judge,
  normalPosterior,
  type Prior,
  specificRisk,
} from '../../packages/halfmax/src/verdict/index.js';

describe('probability of conforming', () => {
  it('diode: breakdown at -5.47 V, u 0.05 V, at most -5.40 V: 0.919243 (inputs from memory)', () => {
    const measured = { value: -5.47, standardUncertainty: 0.05 };
    expect(conformanceProbability(measured, { to: -5.4 })).toBeCloseTo(0.919243, 6);
    const judgement = judge({ atMost: -5.4 }, measured);
    expect(judgement.verdict).toBe('undecided');
    expect(judgement.probabilityMet).toBeCloseTo(0.919243, 6);
    expect(judge({ atMost: -5.4 }, measured, { rule: { kind: 'simple' } }).verdict).toBe('met');
    expect(
      judge({ atMost: -5.4 }, measured, { rule: { kind: 'probability', probability: 0.9 } }).verdict,
    ).toBe('met');
  });

  it('oil: 13.6 with u 1.8 between 12.5 and 16.3: 0.662630 (inputs from memory)', () => {
    const measured = { value: 13.6, standardUncertainty: 1.8 };
    expect(conformanceProbability(measured, { from: 12.5, to: 16.3 })).toBeCloseTo(0.66263, 5);
    expect(specificRisk(measured, { from: 12.5, to: 16.3 }).consumerRisk).toBeCloseTo(0.33737, 5);
    expect(judge({ value: 14.4, tolerance: 1.9 }, measured).probabilityMet).toBeCloseTo(0.66263, 5);
  });

  it('breath alcohol: 99.9 % sure above 0.80 with u 0.02 from 0.8618 on (inputs from memory)', () => {
    const width = guardBand(0.02, { maximumRisk: 0.001 });
    expect((0.8 + width).toFixed(4)).toBe('0.8618');
    const above = (value: number) =>
      conformanceProbability({ value, standardUncertainty: 0.02 }, { to: 0.8 });
    expect(above(0.8 + width)).toBeCloseTo(0.001, 12);
    const rule = { kind: 'probability', probability: 0.999 } as const;
    expect(judge({ atMost: 0.8 }, { value: 0.862, standardUncertainty: 0.02 }, { rule }).verdict).toBe(
      'not met',
    );
    expect(judge({ atMost: 0.8 }, { value: 0.861, standardUncertainty: 0.02 }, { rule }).verdict).toBe(
      'undecided',
    );
  });

  it.each([
    [0.8, 0.8416],
    [0.9, 1.2816],
    [0.95, 1.6449],
    [0.99, 2.3263],
    [0.999, 3.0902],
  ])('z of a one-sided probability %d is %d', (probability, z) => {
    expect(normalQuantile(probability).toFixed(4)).toBe(z.toFixed(4));
    expect(guardBand(1, { maximumRisk: 1 - probability }).toFixed(4)).toBe(z.toFixed(4));
  });
});

describe('guard bands', () => {
  it.each([
    [0, 0.5],
    [0.5, 0.158655],
    [1, 0.02275],
    [1.5, 0.00135],
  ])('of r = %d leave a largest specific risk of %d', (multiple, risk) => {
    const u = 0.3;
    const acceptance = acceptanceInterval({ to: 10 }, guardBand(u, { multiple })) as { to: number };
    const measured = { value: acceptance.to, standardUncertainty: u };
    expect(specificRisk(measured, { to: 10 }).consumerRisk).toBeCloseTo(risk, 6);
  });

  it('of r = 0.8225 leave 5 % with k = 2', () => {
    // 1.645 / 2, the quantile rounded to three decimals.
    expect(guardBand(1, { maximumRisk: 0.05 }).toFixed(3)).toBe((2 * 0.8225).toFixed(3));
    const bound = guardBand(1, { multiple: 0.8225, coverageFactor: 2 });
    expect(bound).toBeCloseTo(1.645, 12);
  });
});

describe('resistors: 1500 ohm, prior N(1500, 0.12), u 0.04, tolerance 1499.80 to 1500.20', () => {
  const prior: Prior = { kind: 'normal', mean: 1500, standardUncertainty: 0.12 };
  const tolerance = { from: 1499.8, to: 1500.2 };
  const inspection = { prior, standardUncertainty: 0.04, tolerance };

  it('simple acceptance: 0.904419 conform, consumer 0.018942, producer 0.037208', () => {
    const risk = globalRisk({ ...inspection, acceptance: tolerance });
    expect(risk.conforming).toBeCloseTo(0.904419, 6);
    expect(risk.consumerRisk).toBeCloseTo(0.018942, 6);
    expect(risk.producerRisk).toBeCloseTo(0.037208, 6);
  });

  it('guarded acceptance 1499.82 to 1500.18: consumer 1 % (0.009878), producer 7 % (0.069027)', () => {
    const risk = globalRisk({ ...inspection, acceptance: { from: 1499.82, to: 1500.18 } });
    expect(risk.consumerRisk).toBeCloseTo(0.009878, 6);
    expect(risk.producerRisk).toBeCloseTo(0.069027, 6);
    // And back: the guard band that brings the consumer's risk there is 0.02 ohm.
    const back = guardBandForRisk(inspection, risk.consumerRisk);
    expect(back).toHaveProperty('width');
    expect((back as { width: number }).width).toBeCloseTo(0.02, 8);
  });

  it('a reading of 1500.15 leaves 1500.135 with u 0.0379473', () => {
    const posterior = normalPosterior(prior, { value: 1500.15, standardUncertainty: 0.04 });
    expect(posterior.value).toBeCloseTo(1500.135, 9);
    expect(posterior.standardUncertainty).toBeCloseTo(0.0379473, 7);
  });
});

describe('9.5.4 ball bearings: gamma prior (shape 4, scale 0.25 um), u 0.25 um, at most 2 um', () => {
  const prior: Prior = { kind: 'gamma', shape: 4, scale: 0.25 };
  const inspection: Omit<Inspection, 'acceptance'> = {
    prior,
    standardUncertainty: 0.25,
    tolerance: { to: 2 },
  };

  it('simple acceptance: 4.2 % do not conform, consumer 0.8 % (0.008019), producer 0.017445', () => {
    const risk = globalRisk({ ...inspection, acceptance: { to: 2 } });
    // Closed form of the tail at t = 8: e^-8 (1 + 8 + 32 + 256/3) = 0.0423801.
    expect(1 - risk.conforming).toBeCloseTo(Math.exp(-8) * (41 + 256 / 3), 12);
    expect(risk.consumerRisk).toBeCloseTo(0.00801911, 8);
    expect(risk.producerRisk).toBeCloseTo(0.017445, 6);
  });

  it('a consumer risk of 0.1 % needs a limit of 1.67 um (1.671829) and costs a producer risk of 0.075494', () => {
    const found = guardBandForRisk(inspection, 0.001) as { width: number };
    expect(2 - found.width).toBeCloseTo(1.671829, 5);
    const risk = globalRisk({ ...inspection, acceptance: { to: 2 - found.width } });
    expect(risk.consumerRisk).toBeCloseTo(0.001, 10);
    expect(risk.producerRisk).toBeCloseTo(0.075494, 5);
  });
});

describe('JCGM GUM-5:2026, example 10: particulate, lognormal prior, reading 0.225 with 7 %, limit 0.2', () => {
  it("leaves a producer's risk of 0.11 if the batch is rejected", () => {
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: a published standard deviation, not log10(e)
    const prior: Prior = { kind: 'lognormal', logMean: -2.325, logStandardDeviation: 0.434 };
    const risk = specificRisk({ value: 0.225, standardUncertainty: 0.07 * 0.225 }, { to: 0.2 }, prior);
    expect(risk.producerRisk.toFixed(2)).toBe('0.11');
  });
});
