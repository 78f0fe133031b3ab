// Worked examples of JCGM 101:2008 (Supplement 1 to the GUM, propagation of distributions by Monte Carlo), clause 9.
// Published figures carry their rounding; "closed form" figures are exact; what is quoted from memory says so.

import { describe, expect, it } from 'vitest';
import { splitStream } from '../../packages/halfmax/src/numeric/index.js';
import {
  compareLinear,
  type Distribution,
  distributionCovariance,
  effectiveDegreesOfFreedom,
  linearInterval,
  type Model,
  type OutputDistribution,
  propagate,
  propagateLinear,
  type UncertainInput,
} from '../../packages/halfmax/src/uncertainty/index.js';

const M = 1_000_000;
const SEED = 101;

function named(...distributions: Distribution[]): UncertainInput[] {
  return distributions.map((distribution, i) => ({ source: `X${i + 1}`, distribution }));
}

function run(
  model: Model,
  inputs: UncertainInput[],
  options: { coverage?: number } = {},
): OutputDistribution {
  const streams = (block: number) => splitStream(SEED, block);
  return propagate(model, inputs, { outputs: 1, streams, draws: M, ...options })
    .outputs[0] as OutputDistribution;
}

function expectWithin(got: number, wanted: number, bound: number): void {
  expect(got, `${got} should be within ${bound} of ${wanted}`).toBeGreaterThanOrEqual(wanted - bound);
  expect(got, `${got} should be within ${bound} of ${wanted}`).toBeLessThanOrEqual(wanted + bound);
}

const sum: Model = (x, out) => {
  out[0] = x[0]! + x[1]! + x[2]! + x[3]!;
};
const root3 = Math.sqrt(3);
const normal: Distribution = { kind: 'normal', mean: 0, standardUncertainty: 1 };
const rectangular: Distribution = { kind: 'rectangular', lower: -root3, upper: root3 };
const wide: Distribution = { kind: 'rectangular', lower: -10 * root3, upper: 10 * root3 };
const identity = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => (i === j ? 1 : 0)));

describe('9.2 additive model', () => {
  // Bounds: four standard errors of M draws. Of a mean u / sqrt(M); of a standard deviation at most u / sqrt(2M);
  // of a 2.5 % quantile sqrt(0.025 x 0.975 / M) / density there.
  const quantileError = (density: number): number => Math.sqrt((0.025 * 0.975) / M) / density;

  it('9.2.2: four normal inputs give u 2.00 and +-3.92', () => {
    const result = run(sum, named(normal, normal, normal, normal));
    expectWithin(result.mean, 0, 4 * 2e-3);
    expectWithin(result.standardUncertainty, 2, (4 * 2) / Math.sqrt(2 * M));
    // Normal density at 1.96, over u = 2: 0.0292.
    const bound = 4 * quantileError(0.0292);
    expectWithin(result.symmetric[0], -3.919928, bound);
    expectWithin(result.symmetric[1], 3.919928, bound);
    // Half the width, of which the shortest interval can only be shorter, to the published digits.
    expect(((result.symmetric[1] - result.symmetric[0]) / 2).toFixed(2)).toBe('3.92');
    expect(result.standardUncertainty.toFixed(2)).toBe('2.00');
    expectWithin((result.shortest[1] - result.shortest[0]) / 2, 3.92, 0.015);
    const linear = propagateLinear(sum, [0, 0, 0, 0], identity);
    const interval = linearInterval(0, linear.standardUncertainties[0]!, 0.95);
    expect(interval[1].toFixed(2)).toBe('3.92');
    const { standardUncertainty, symmetric } = result;
    expect(compareLinear({ standardUncertainty, interval: symmetric }, { interval }, 2).agrees).toBe(true);
  });

  it('9.2.3: four rectangular inputs give +-3.88, closed form 2 sqrt(3) (2 - (3/5)^(1/4))', () => {
    const exact = 2 * root3 * (2 - 0.6 ** 0.25);
    const result = run(sum, named(rectangular, rectangular, rectangular, rectangular));
    expectWithin(result.standardUncertainty, 2, (4 * 2) / Math.sqrt(2 * M));
    // Density of the sum of four at the distance d from its end: d^3 / (6 (2 sqrt(3))^4), d = 4 sqrt(3) - 3.879.
    const bound = 4 * quantileError((4 * root3 - exact) ** 3 / 864);
    expectWithin(result.symmetric[0], -exact, bound);
    expectWithin(result.symmetric[1], exact, bound);
    expect(((result.symmetric[1] - result.symmetric[0]) / 2).toFixed(2)).toBe('3.88');
    // The first-order law still gives +-3.92.
    const { standardUncertainty, symmetric } = result;
    const interval = linearInterval(0, 2, 0.95);
    const { lowDistance, agrees } = compareLinear(
      { standardUncertainty, interval: symmetric },
      { interval },
      2,
    );
    expectWithin(lowDistance, 3.919928 - exact, bound);
    expect(agrees).toBe(true);
  });

  it('9.2.4: one input ten times wider gives u 10.1 and +-17.0, where the first order says +-19.9', () => {
    const result = run(sum, named(rectangular, rectangular, rectangular, wide));
    const u = Math.sqrt(103);
    expectWithin(result.standardUncertainty, u, (4 * u) / Math.sqrt(2 * M));
    expect(u.toFixed(1)).toBe('10.1');
    // Closed form 17.015814; +-17.0 published (from memory). In the flank the density is above 0.02.
    expectWithin(result.symmetric[0], -17.015814, 4 * quantileError(0.02));
    expectWithin(result.symmetric[1], 17.015814, 4 * quantileError(0.02));
    expect(((result.symmetric[1] - result.symmetric[0]) / 2).toFixed(1)).toBe('17.0');
    const covariance = identity.map((row, i) => row.map((value) => (i === 3 ? 100 * value : value)));
    const linear = propagateLinear(sum, [0, 0, 0, 0], covariance);
    const interval = linearInterval(0, linear.standardUncertainties[0]!, 0.95);
    expect(interval[1].toFixed(1)).toBe('19.9');
    const { standardUncertainty, symmetric } = result;
    expect(compareLinear({ standardUncertainty, interval: symmetric }, { interval }, 2).agrees).toBe(false);
  });

  it('7.9: the adaptive procedure stops after two blocks at one digit', () => {
    // Simulated with numpy: 20 000 trials in 50 of 50 runs at one digit.
    for (let seed = 0; seed < 10; seed++) {
      const streams = (block: number) => splitStream(seed, block);
      for (const inputs of [
        named(normal, normal, normal, normal),
        named(rectangular, rectangular, rectangular, wide),
      ]) {
        const result = propagate(sum, inputs, { outputs: 1, streams, digits: 1 });
        expect(result).toMatchObject({ draws: 20_000, blocks: 2, stopped: 'adaptive' });
      }
    }
  });

  it('7.9: at two digits it takes some 40 000 trials and keeps to its tolerance', () => {
    // Simulated with numpy: 20 000 to 110 000 trials in 50 runs, median 40 000.
    const counts: number[] = [];
    for (let seed = 0; seed < 25; seed++) {
      const streams = (block: number) => splitStream(seed, block);
      const result = propagate(sum, named(normal, normal, normal, normal), {
        outputs: 1,
        streams,
        digits: 2,
      });
      const { standardUncertainty } = result.outputs[0] as OutputDistribution;
      expect(result.stopped).toBe('adaptive');
      // u is 2; the tolerance is half of the second digit.
      expectWithin(standardUncertainty, 2, 0.05);
      counts.push(result.draws);
    }
    const middle = counts.sort((a, b) => a - b)[12]!;
    expect(middle).toBeGreaterThanOrEqual(30_000);
    expect(middle).toBeLessThanOrEqual(60_000);
  });
});

describe('9.3 mass calibration', () => {
  // Conventional mass over the nominal 100 000 mg; air density about 1.2 kg/m^3.
  const model: Model = (x, out) => {
    const [reference, added, air, weight, standard] = x as unknown as [
      number,
      number,
      number,
      number,
      number,
    ];
    out[0] = (reference + added) * (1 + (air - 1.2) * (1 / weight - 1 / standard)) - 100_000;
  };
  const result = run(
    model,
    named(
      { kind: 'normal', mean: 100_000, standardUncertainty: 0.05 },
      { kind: 'normal', mean: 1.234, standardUncertainty: 0.02 },
      { kind: 'rectangular', lower: 1.1, upper: 1.3 },
      { kind: 'rectangular', lower: 7000, upper: 9000 },
      { kind: 'rectangular', lower: 7950, upper: 8050 },
    ),
  );
  const variances = [0.05 ** 2, 0.02 ** 2, 0.2 ** 2 / 12, 2000 ** 2 / 12, 100 ** 2 / 12];
  const covariance = variances.map((v, i) => variances.map((_, j) => (i === j ? v : 0)));
  const linear = propagateLinear(model, [100_000, 1.234, 1.2, 8000, 8000], covariance);

  it('gives 1.2340 mg, u 0.0754 mg and the shortest interval [1.0834, 1.3825] mg', () => {
    // 1.2340 and the second-order 0.0750 are published; 0.0754 and the interval are from memory, a run of their own.
    // Four standard errors of M draws: mean 3e-4, u 2.5e-4; ends of the shortest interval, some 5e-4 each run.
    expectWithin(result.mean, 1.234, 3.5e-4);
    expectWithin(result.standardUncertainty, 0.0754, 3e-4);
    expectWithin(result.shortest[0], 1.0834, 1.5e-3);
    expectWithin(result.shortest[1], 1.3825, 1.5e-3);
    // numpy, 4 million draws: u 0.0755, symmetric [1.0844, 1.3837]; 4 standard errors 1e-3.
    expectWithin(result.symmetric[0], 1.0844, 1e-3);
    expectWithin(result.symmetric[1], 1.3837, 1e-3);
  });

  it('shows that the first order, u 0.0539 mg, does not serve', () => {
    expect(linear.values[0]).toBeCloseTo(1.234, 9);
    expect(linear.standardUncertainties[0]!.toFixed(4)).toBe('0.0539');
    expect(linear.standardUncertainties[0]).toBeCloseTo(0.05385165, 7);
    const interval = linearInterval(linear.values[0]!, linear.standardUncertainties[0]!, 0.95);
    const { standardUncertainty, shortest } = result;
    expect(compareLinear({ standardUncertainty, interval: shortest }, { interval }, 1).agrees).toBe(false);
  });
});

describe('9.4 comparison loss of microwave power meters', () => {
  const model: Model = (x, out) => {
    out[0] = x[0]! ** 2 + x[1]! ** 2;
  };
  const u = 0.005;

  // Published: mean 50 and u 50 at r 0, x1 0; u 67 at r 0.9, x1 0; u 121 at r 0.9, x1 0.010 (all in 1e-6).
  // Exact: mean x1^2 + 2 u^2, variance 2 tr(V^2) + 4 m'Vm. Shortest intervals: numpy, 4 million draws.
  it.each([
    [0, 0, 50, 50, 0, 150],
    [0, 0.01, 150, 111.8, 0, 366],
    [0, 0.05, 2550, 502.49, 1587, 3541],
    [0.9, 0, 50, 67.27, 0, 185],
    [0.9, 0.01, 150, 120.52, 13, 398],
    [0.9, 0.05, 2550, 504.5, 1632, 3562],
  ])('r %d, x1 %d: mean %d, u %d, shortest [%d, %d] (1e-6)', (r, x1, mean, deviation, low, high) => {
    const covariance = [
      [u * u, r * u * u],
      [r * u * u, u * u],
    ];
    const result = run(model, named({ kind: 'multivariateNormal', mean: [x1, 0], covariance }));
    expectWithin(result.mean * 1e6, mean, 0.005 + (4 * deviation) / Math.sqrt(M));
    // Kurtosis at most 15 (one squared normal number): standard error u sqrt(14 / (4M)).
    expectWithin(
      result.standardUncertainty * 1e6,
      deviation,
      0.005 + 4 * deviation * Math.sqrt(14 / (4 * M)),
    );
    // The length of the shortest interval hardly changes as it is shifted, so its ends scatter more than a quantile.
    const bound = 0.5 + 0.02 * deviation;
    expectWithin(result.shortest[0] * 1e6, low, bound);
    expectWithin(result.shortest[1] * 1e6, high, bound);
    const linear = propagateLinear(model, [x1, 0], covariance);
    // First order: u 0, 100 and 500 whatever r.
    expect(linear.standardUncertainties[0]! * 1e6).toBeCloseTo(2 * x1 * u * 1e6, 6);
  });
});

describe('9.5 gauge block', () => {
  const nominal = 50_000_000;
  const model: Model = (x, out) => {
    const length = x[0]!;
    out[0] = length + x[1]! + x[2]! + x[3]! - length * (x[7]! * (x[5]! + x[6]!) + x[4]! * x[8]!) - nominal;
  };
  const inputs = named(
    { kind: 'student', mean: 50_000_623, scale: 25, degreesOfFreedom: 18 },
    { kind: 'student', mean: 215, scale: 6, degreesOfFreedom: 24 },
    { kind: 'student', mean: 0, scale: 4, degreesOfFreedom: 5 },
    { kind: 'student', mean: 0, scale: 7, degreesOfFreedom: 8 },
    { kind: 'rectangular', lower: 9.5e-6, upper: 13.5e-6 },
    { kind: 'normal', mean: -0.1, standardUncertainty: 0.2 },
    { kind: 'arcsine', lower: -0.5, upper: 0.5 },
    { kind: 'curvilinearTrapezoid', lower: -1e-6, upper: 1e-6, limitUncertainty: 0.1e-6 },
    { kind: 'curvilinearTrapezoid', lower: -0.05, upper: 0.05, limitUncertainty: 0.025 },
  );

  it('gives 838 nm, u 36 nm and the 99 % interval [745, 932] nm', () => {
    const result = run(model, inputs, { coverage: 0.99 });
    expect(result.mean.toFixed(0)).toBe('838');
    expect(result.standardUncertainty.toFixed(0)).toBe('36');
    // numpy, 4 million draws: 838.0, 35.81, symmetric [744.4, 931.6]; four standard errors of both runs.
    expectWithin(result.mean, 838, 0.2);
    expectWithin(result.standardUncertainty, 35.81, 0.15);
    expectWithin(result.symmetric[0], 744.4, 1);
    expectWithin(result.symmetric[1], 931.6, 1);
    // Published interval, from memory: a run of fewer draws, rounded to 1 nm.
    for (const [low, high] of [result.symmetric, result.shortest]) {
      expectWithin(low, 745, 1.5);
      expectWithin(high, 932, 1.5);
    }
  });

  it('has the standard uncertainties of the two curvilinear trapezoids', () => {
    // u^2 = (b - a)^2 / 12 + d^2 / 9
    const u = (i: number): number => Math.sqrt(distributionCovariance(inputs[i]!.distribution)[0]![0]!);
    expect(u(7).toExponential(4)).toBe('5.7831e-7');
    expect(u(8).toFixed(5)).toBe('0.03005');
  });

  it('gives 838 nm, u 32 nm and [745, 931] nm by the first order with effective degrees of freedom', () => {
    const means = [50_000_623, 215, 0, 0, 11.5e-6, -0.1, 0, 0, 0];
    // A type A evaluation enters the first order by its own standard uncertainty, not by that of Student's t.
    // The two rectangular inputs enter with exact limits, and what is not known of the limits as degrees of freedom
    // 50 and 2 (JCGM 100:2008, H.1).
    const deviations = [25, 6, 4, 7, 2e-6 / root3, 0.2, 0.5 / Math.SQRT2, 1e-6 / root3, 0.05 / root3];
    const covariance = deviations.map((d, i) => deviations.map((_, j) => (i === j ? d * d : 0)));
    const { values, standardUncertainties, sensitivities } = propagateLinear(model, means, covariance);
    expect(values[0]).toBeCloseTo(838, 6);
    expect(standardUncertainties[0]!.toFixed(2)).toBe('31.78');
    const inf = Number.POSITIVE_INFINITY;
    const contributions = deviations.map((d, i) => d * sensitivities[0]![i]!);
    const effective = effectiveDegreesOfFreedom(contributions, [18, 24, 5, 8, inf, inf, inf, 50, 2]);
    expect(effective.toFixed(2)).toBe('16.98');
    const [low, high] = linearInterval(values[0]!, standardUncertainties[0]!, 0.99, effective);
    expectWithin(low, 745, 0.5);
    expectWithin(high, 931, 0.5);
  });
});
