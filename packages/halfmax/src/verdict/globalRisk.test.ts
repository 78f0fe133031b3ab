import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { sampler } from '../uncertainty/index.js';
import { globalRisk, type Inspection } from './globalRisk.js';
import { guardBandForRisk } from './guardBandForRisk.js';

const line: Inspection = {
  prior: { kind: 'normal', mean: 0, standardUncertainty: 1 },
  standardUncertainty: 1,
  tolerance: { to: 0 },
  acceptance: { to: 0 },
};

describe('globalRisk', () => {
  it('has the closed form of the bivariate normal quadrant', () => {
    // P(X > 0, Y < 0) = 1/4 - asin(rho) / (2 pi), rho = 1 / sqrt(1 + u^2) (Sheppard).
    for (const u of [0.01, 0.3, 1, 5]) {
      const wanted = 0.25 - Math.asin(1 / Math.sqrt(1 + u * u)) / (2 * Math.PI);
      const risk = globalRisk({ ...line, standardUncertainty: u });
      expect(risk.conforming).toBeCloseTo(0.5, 13);
      expect(risk.consumerRisk).toBeCloseTo(wanted, 13);
      expect(risk.producerRisk).toBeCloseTo(wanted, 13);
    }
  });

  it('mirrors with the limits', () => {
    const upper = globalRisk({ ...line, tolerance: { to: 0.7 }, acceptance: { to: 0.4 } });
    const lower = globalRisk({ ...line, tolerance: { from: -0.7 }, acceptance: { from: -0.4 } });
    expect(lower.consumerRisk).toBeCloseTo(upper.consumerRisk, 14);
    expect(lower.producerRisk).toBeCloseTo(upper.producerRisk, 14);
  });

  it.each<[Inspection['prior']]>([
    [{ kind: 'gamma', shape: 4, scale: 0.25 }],
    [{ kind: 'gamma', shape: 1, scale: 1 }],
    [{ kind: 'gamma', shape: 400, scale: 0.0025 }],
    [{ kind: 'lognormal', logMean: -0.1, logStandardDeviation: 0.4 }],
    [{ kind: 'normal', mean: 1.2, standardUncertainty: 0.5 }],
  ])('agrees with simulated items: %j', (prior) => {
    const inspection = {
      prior,
      standardUncertainty: 0.25,
      tolerance: { from: 0.4, to: 1.1 },
      acceptance: { from: 0.5, to: 1 },
    };
    const risk = globalRisk(inspection);
    const stream = randomStream(12);
    const draw = sampler(prior);
    const x = new Float64Array(1);
    const m = 200_000;
    const counts = { conforming: 0, consumerRisk: 0, producerRisk: 0 };
    for (let i = 0; i < m; i++) {
      draw(stream, x, 0);
      const reading = x[0]! + 0.25 * stream.normal();
      const conforms = x[0]! >= 0.4 && x[0]! <= 1.1;
      const accepted = reading >= 0.5 && reading <= 1;
      if (conforms) counts.conforming++;
      if (!conforms && accepted) counts.consumerRisk++;
      if (conforms && !accepted) counts.producerRisk++;
    }
    for (const key of ['conforming', 'consumerRisk', 'producerRisk'] as const) {
      // Four standard errors of a share.
      expect(Math.abs(counts[key] / m - risk[key])).toBeLessThan(
        4 * Math.sqrt((risk[key] * (1 - risk[key])) / m) + 1e-12,
      );
    }
  });

  it('rejects everything where the acceptance interval is inside out', () => {
    const risk = globalRisk({ ...line, tolerance: { from: -1, to: 1 }, acceptance: { from: 1, to: -1 } });
    expect(risk.consumerRisk).toBe(0);
    expect(risk.producerRisk).toBeCloseTo(risk.conforming, 14);
  });

  it('refuses a measurement without uncertainty', () => {
    expect(() => globalRisk({ ...line, standardUncertainty: 0 })).toThrow('standardUncertainty > 0, got 0');
  });
});

describe('guardBandForRisk', () => {
  it('gives back the guard band whose risk is asked for, also one below zero', () => {
    for (const width of [-0.5, 0.2, 1.5]) {
      const { consumerRisk } = globalRisk({ ...line, acceptance: { to: -width } });
      expect((guardBandForRisk(line, consumerRisk) as { width: number }).width).toBeCloseTo(width, 9);
    }
  });

  it('says why there is none', () => {
    expect(guardBandForRisk(line, 0.6)).toEqual({ absent: expect.stringContaining('without inspection') });
    expect(() => guardBandForRisk(line, 0)).toThrow('between 0 and 1');
    expect(() => guardBandForRisk({ ...line, tolerance: {} }, 0.1)).toThrow('with a limit');
  });
});
