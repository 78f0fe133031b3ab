import { describe, expect, it } from 'vitest';
import { fitLinear, fitPolynomial } from '../../packages/halfmax/src/numeric/index.js';
import { agreeingDigits, readLinearSet } from './strd.js';

// NIST Statistical Reference Datasets, linear regression. Bounds: the digits reached, less about half a digit for
// another order of rounding. The fit is made in a scaled basis; estimates in powers of raw x lose what the change of
// basis costs, the residual standard deviation shows the fit itself.
const polynomials: [set: string, degree: number, estimates: number, deviations: number, residual: number][] =
  [
    ['Norris', 1, 12.5, 13, 13],
    ['Pontius', 2, 12, 13, 13],
    ['Filip', 10, 12.5, 12.5, 13],
    ['Wampler1', 5, 10, 10, 10],
    ['Wampler2', 5, 12, 13.5, 13.5],
    ['Wampler3', 5, 9, 13, 13],
    ['Wampler4', 5, 9, 13, 13],
    ['Wampler5', 5, 7, 13, 13],
  ];

describe('certified polynomials', () => {
  it.each(polynomials)(
    '%s, degree %i: estimates to %d digits, their deviations to %d, the scatter to %d',
    (name, degree, ...bounds) => {
      const set = readLinearSet(name);
      const x = set.x.map((row) => row[0]!);
      const fit = fitPolynomial(x, set.y, degree, { pivot: 0, scale: 1 });
      const deviations = fit.covariance.map((row, i) => fit.residualStandardDeviation * Math.sqrt(row[i]!));
      const reached = [
        agreeingDigits(fit.coefficients, set.estimates),
        agreeingDigits(deviations, set.standardDeviations),
        agreeingDigits([fit.residualStandardDeviation], [set.residualStandardDeviation]),
      ];
      for (const [i, digits] of reached.entries()) expect(digits).toBeGreaterThan(bounds[i]!);
    },
  );
});

describe('certified designs of raw columns', () => {
  it.each([
    ['Longley', true, 10.5],
    ['Norris', true, 12.5],
    ['NoInt1', false, 14],
    ['NoInt2', false, 14],
  ] as const)('%s, intercept %s: %d digits', (name, intercept, bound) => {
    const set = readLinearSet(name);
    const fit = fitLinear(
      set.x.map((row) => (intercept ? [1, ...row] : row)),
      set.y,
    );
    const deviations = fit.covariance.map((row, i) => fit.residualStandardDeviation * Math.sqrt(row[i]!));
    expect(agreeingDigits(fit.coefficients, set.estimates)).toBeGreaterThan(bound);
    expect(agreeingDigits(deviations, set.standardDeviations)).toBeGreaterThan(bound);
    expect(agreeingDigits([fit.residualStandardDeviation], [set.residualStandardDeviation])).toBeGreaterThan(
      bound,
    );
  });
});
