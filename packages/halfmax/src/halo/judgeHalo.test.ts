import { describe, expect, it } from 'vitest';
import { absent, type Quantity } from '../metrics/index.js';
import type { HaloMeasurement } from './haloMeasurement.js';
import { judgeHalo } from './judgeHalo.js';

const between = (low: number, high: number): Quantity => ({
  value: (low + high) / 2,
  standardUncertainty: (high - low) / 3.92,
  interval95: [low, high],
});

function measured(disks: readonly object[], limits: readonly object[] = []): HaloMeasurement {
  return { disks, limits } as unknown as HaloMeasurement;
}

describe('judgeHalo', () => {
  it.each([
    [0.009, 'shows'],
    [0.0101, 'undecided'],
    [0.0299, 'undecided'],
    [0.031, 'stays hidden'],
  ])('holds a share of 1 to 3 %% against %f', (atMost, verdict) => {
    const disk = { shareOfStar: between(0.01, 0.03) };
    expect(judgeHalo(measured([disk]), { kind: 'share', atMost })[0]!.verdict).toBe(verdict);
  });

  it.each([
    [12.5, 'shows'],
    [11.5, 'undecided'],
    [10.5, 'stays hidden'],
  ])('holds 11 to 12 magnitudes against %f: in magnitudes the fainter, the larger', (atLeast, verdict) => {
    const disk = { surfaceMagnitudes: between(11, 12) };
    expect(judgeHalo(measured([disk]), { kind: 'surface', atLeast })[0]!.verdict).toBe(verdict);
  });

  it('judges each disk, and says why one cannot be judged', () => {
    const disks = [{ shareOfStar: between(0.1, 0.2) }, { shareOfStar: absent('no star') }];
    const judged = judgeHalo(measured(disks), { kind: 'share', atMost: 0.05 });
    expect(judged.map(({ verdict }) => verdict)).toEqual(['shows', 'undecided']);
    expect(judged[1]!.words).toBe('no star');
  });

  it('takes the worst of the upper limits where there is no halo', () => {
    const limits = [
      { shareOfStar: 0.001, surfaceMagnitudes: 14 },
      { shareOfStar: 0.004, surfaceMagnitudes: 12 },
    ];
    const verdict = (atMost: number) => judgeHalo(measured([], limits), { kind: 'share', atMost })[0]!;
    expect(verdict(0.005)).toMatchObject({ verdict: 'stays hidden', number: 0.004 });
    expect(verdict(0.003)).toMatchObject({ verdict: 'undecided', number: 0.004 });
    const surface = judgeHalo(measured([], limits), { kind: 'surface', atLeast: 11 })[0]!;
    expect(surface).toMatchObject({ verdict: 'stays hidden', number: 12 });
    expect(judgeHalo(measured([]), { kind: 'share', atMost: 0.5 })[0]!.verdict).toBe('undecided');
  });

  it('refuses limits out of range', () => {
    expect(() => judgeHalo(measured([]), { kind: 'share', atMost: 1 })).toThrow('between 0 and 1');
    expect(() => judgeHalo(measured([]), { kind: 'surface', atLeast: Number.NaN })).toThrow('finite');
  });
});
