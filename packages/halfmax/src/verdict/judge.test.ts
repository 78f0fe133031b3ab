import { describe, expect, it } from 'vitest';
import { normalQuantile, randomStream } from '../numeric/index.js';
import type { Claim } from './claim.js';
import { type Judgement, judge } from './judge.js';
import type { Measured } from './measured.js';

const normal = (value: number, standardUncertainty: number): Measured => ({ value, standardUncertainty });

describe('judge by probability', () => {
  it.each<[Claim, Measured, string]>([
    [{ value: 3, tolerance: 0.5 }, normal(3.1, 0.05), 'met'],
    [{ value: 3, tolerance: 0.5 }, normal(3.6, 0.03), 'not met'],
    [{ value: 3, tolerance: 0.5 }, normal(3.48, 0.05), 'undecided'],
    [{ value: 3, tolerance: 0.5 }, normal(3.52, 0.05), 'undecided'],
    [{ value: 3, tolerance: [0.1, 0.5] }, normal(2.8, 0.05), 'not met'],
    [{ value: 3, tolerance: [0.5, 0.1] }, normal(2.8, 0.05), 'met'],
    [{ atLeast: 0.9 }, normal(0.92, 0.01), 'met'],
    [{ atLeast: 0.9 }, normal(0.91, 0.01), 'undecided'],
    [{ atLeast: 0.9 }, normal(0.88, 0.01), 'not met'],
    [{ atMost: 4 }, normal(3.9, 0.05), 'met'],
    [{ atMost: 4 }, normal(4.1, 0.05), 'not met'],
    // A measurement without uncertainty decides by its value alone; the limit itself is permitted.
    [{ atMost: 4 }, normal(4, 0), 'met'],
    [{ atMost: 4 }, normal(4.0000001, 0), 'not met'],
    // An uncertainty far wider than the tolerance shows nothing, though the probability of conforming is 0.8 %.
    [{ value: 3, tolerance: 0.1 }, normal(3, 10), 'undecided'],
    [{ value: 3, tolerance: 0.1 }, normal(25, 10), 'not met'],
    [{ value: 3, tolerance: 0.1 }, normal(19, 10), 'undecided'],
  ])('%j against %j is %s', (claim, measured, verdict) => {
    expect(judge(claim, measured).verdict).toBe(verdict);
  });

  it('changes its word 1.645 u from a limit', () => {
    const z = normalQuantile(0.95);
    const verdict = (steps: number): string => judge({ atMost: 10 }, normal(10 + steps * 0.3, 0.3)).verdict;
    expect([-z - 1e-6, -z + 1e-6, z - 1e-6, z + 1e-6].map(verdict)).toEqual([
      'met',
      'undecided',
      'undecided',
      'not met',
    ]);
  });

  it('counts draws where they are given', () => {
    // 96 of 100 inside; as a normal distribution their wide scatter would give far less.
    const samples = Array.from({ length: 100 }, (_, i) => (i < 96 ? 3 : 1000));
    const judgement = judge({ value: 3, tolerance: 0.5 }, { samples });
    expect(judgement).toMatchObject({ verdict: 'met', probabilityMet: 0.96 });
    expect((judgement.deviation as { value: number }).value).toBeCloseTo(0.04 * 997, 10);
    const reported = judge({ value: 3, tolerance: 0.5 }, { samples, value: 3.1 });
    expect((reported.deviation as { value: number }).value).toBeCloseTo(0.1, 12);
  });

  it('agrees between draws of a normal distribution and its closed form', () => {
    const stream = randomStream(9);
    const m = 100_000;
    const samples = Float64Array.from({ length: m }, () => 3.4 + 0.08 * stream.normal());
    const [byDraws, byForm] = [{ samples }, normal(3.4, 0.08)].map((measured) =>
      judge({ value: 3, tolerance: 0.5 }, measured),
    ) as [Judgement, Judgement];
    const p = byForm.probabilityMet as number;
    // Four standard errors of a share.
    expect(Math.abs((byDraws.probabilityMet as number) - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / m));
  });
});

describe('judge by the other rules', () => {
  const claim = { value: 3, tolerance: 0.5 };

  it.each([
    [3.499, 'met'],
    [3.501, 'not met'],
    [2.499, 'not met'],
  ])('simple acceptance of %d is %s by the value alone', (value, verdict) => {
    expect(judge(claim, normal(value, 0.2), { rule: { kind: 'simple' } }).verdict).toBe(verdict);
  });

  it.each([
    [3.39, 'met'],
    [3.41, 'undecided'],
    [3.59, 'undecided'],
    [3.61, 'not met'],
    [2.61, 'met'],
    [2.59, 'undecided'],
    [2.39, 'not met'],
  ])('a guard band of U = 0.1 makes %d %s', (value, verdict) => {
    const rule = { kind: 'guarded', multiple: 1, coverageFactor: 2 } as const;
    expect(judge(claim, normal(value, 0.05), { rule }).verdict).toBe(verdict);
  });

  it('never calls a claim met whose tolerance the guard bands take up', () => {
    const rule = { kind: 'guarded', multiple: 1, coverageFactor: 2 } as const;
    expect(judge(claim, normal(3, 0.3), { rule }).verdict).toBe('undecided');
  });

  it('states the probability and the rule whatever the rule', () => {
    const rule = { kind: 'simple' } as const;
    const simple = judge(claim, normal(3.4, 0.1), { rule });
    expect(simple.rule).toEqual(rule);
    expect(simple.probabilityMet).toBe(judge(claim, normal(3.4, 0.1)).probabilityMet);
    expect(simple.toleranceInterval).toEqual({ from: 2.5, to: 3.5 });
  });
});

describe('judge where something is missing', () => {
  it('states the deviation, never a pass or fail, for a value without a tolerance', () => {
    const judgement = judge({ value: 3 }, normal(3.6, 0.03));
    expect(judgement.verdict).toBe('no tolerance stated');
    expect(judgement.probabilityMet).toHaveProperty('absent');
    expect(judgement.toleranceInterval).toHaveProperty('absent');
    const deviation = judgement.deviation as { value: number; standardUncertainty: number };
    expect(deviation.value).toBeCloseTo(0.6, 12);
    expect(deviation.standardUncertainty).toBe(0.03);
  });

  it('counts the rounding of the claimed value in that deviation only', () => {
    const u = (claim: Claim): number => {
      const { deviation } = judge(claim, normal(3.6, 0.03), { resolution: 1 });
      return (deviation as { standardUncertainty: number }).standardUncertainty;
    };
    expect(u({ value: 3 })).toBeCloseTo(Math.sqrt(0.03 ** 2 + 1 / 12), 12);
    expect(u({ value: 3, tolerance: 0.5 })).toBe(0.03);
    expect(u({ atMost: 3 })).toBe(0.03);
  });

  it('is undecided, with the reason, where nothing was measured', () => {
    const judgement = judge({ atLeast: 0.9 }, { absent: 'the band runs off the scan' });
    expect(judgement).toMatchObject({
      verdict: 'undecided',
      reason: 'no measured value: the band runs off the scan',
      probabilityMet: { absent: 'the band runs off the scan' },
      deviation: { absent: 'the band runs off the scan' },
      toleranceInterval: { from: 0.9 },
    });
    expect(judge({ value: 3 }, { absent: 'no band' }).verdict).toBe('no tolerance stated');
  });

  it.each<[Claim, Measured, string]>([
    [{ atLeast: 3 }, { atLeast: 3.2 }, 'met'],
    [{ atLeast: 3 }, { atLeast: 3 }, 'met'],
    [{ atLeast: 4 }, { atLeast: 3.2 }, 'undecided'],
    [{ atMost: 3 }, { atLeast: 3.2 }, 'not met'],
    [{ atMost: 4 }, { atLeast: 3.2 }, 'undecided'],
    [{ atMost: 4 }, { atMost: 3.2 }, 'met'],
    [{ atMost: 3 }, { atMost: 3.2 }, 'undecided'],
    [{ atLeast: 4 }, { atMost: 3.2 }, 'not met'],
    [{ atLeast: 3 }, { atMost: 3.2 }, 'undecided'],
    [{ value: 4, tolerance: 0.5 }, { atLeast: 5 }, 'not met'],
    [{ value: 4, tolerance: 0.5 }, { atLeast: 4 }, 'undecided'],
    [{ value: 4, tolerance: 0.5 }, { atMost: 3 }, 'not met'],
    [{ value: 4 }, { atLeast: 3 }, 'no tolerance stated'],
  ])('%j against the bound %j is %s', (claim, measured, verdict) => {
    const judgement = judge(claim, measured);
    expect(judgement.verdict).toBe(verdict);
    expect(judgement.probabilityMet).toHaveProperty('absent');
    expect(judgement.deviation).toHaveProperty('absent');
  });
});

describe('judge refuses', () => {
  it.each<[Claim, Measured, object, string]>([
    [{ value: Number.NaN }, normal(1, 1), {}, 'finite numbers'],
    [{ value: 1, tolerance: -1 }, normal(1, 1), {}, 'tolerances >= 0, got -1'],
    [{ atMost: 1 }, normal(Number.NaN, 1), {}, 'finite number, got NaN'],
    [{ atMost: 1 }, normal(1, -1), {}, 'standardUncertainty >= 0, got -1'],
    [{ atMost: 1 }, { samples: [1] }, {}, 'at least 2 draws, got 1'],
    [{ atMost: 1 }, { samples: [1, Number.NaN] }, {}, 'got NaN at index 1'],
    [{ atMost: 1 }, { atLeast: Number.NaN }, {}, 'got NaN'],
    [{ atMost: 1 }, normal(1, 1), { resolution: -1 }, 'resolution >= 0'],
    [{ atMost: 1 }, normal(1, 1), { rule: { kind: 'probability', probability: 0.5 } }, 'between 0.5 and 1'],
    [
      { atMost: 1 },
      normal(1, 1),
      { rule: { kind: 'guarded', multiple: -1, coverageFactor: 2 } },
      'multiple >= 0',
    ],
  ])('%j, %j, %j', (claim, measured, options, message) => {
    expect(() => judge(claim, measured, options)).toThrow(RangeError);
    expect(() => judge(claim, measured, options)).toThrow(message);
  });
});
