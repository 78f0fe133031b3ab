import { describe, expect, it } from 'vitest';
import { fitLinear, fitPolynomial } from '../../packages/halfmax/src/numeric/index.js';
import { agreeingDigits, readLinearSet } from './strd.js';

// NIST Statistical Reference Datasets, linear regression. Bounds: the digits measured, less half a digit for another
// order of rounding. Coefficients in powers of raw x lose what the change from the scaled basis costs; the residual
// standard deviation shows the fit itself.
const polynomials: [set: string, degree: number, estimates: number, deviations: number, residual: number][] = [
  ['Norris', 1, 12, 12, 13],
  ['Pontius', 2, 11, 12, 12],
  ['Filip', 10, 7, 7, 10],
  ['Wampler1', 5, 9, 7, 9],
  ['Wampler2', 5, 9, 9, 12],
  ['Wampler3', 5, 9, 12, 13],
  ['Wampler4', 5, 8, 12, 13],
  ['Wampler5', 5, 6, 12, 13],
];

describe('certified polynomials', () => {
  it.each(polynomials)('%s, degree %i: estimates to %d digits, their deviations to %d, the scatter to %d', (name, degree, ...bounds) => {
    const set = readLinearSet(name);
    const x = set.x.map((row) => row[0]!);
    const fit = fitPolynomial(x, set.y, degree, { pivot: 0, scale: 1 });
    const deviations = fit.covariance.map((row, i) => fit.residualStandardDeviation * Math.sqrt(row[i]!));
    const reached = [
      agreeingDigits(fit.coefficients, set.estimates),
      agreeingDigits(deviations, set.standardDeviations),
      agreeingDigits([fit.residualStandardDeviation], [set.residualStandardDeviation]),
    ];
    console.log(name, reached.map(d=>d.toFixed(1)).join(' '));
    reached.forEach((digits, i) => expect.soft(digits).toBeGreaterThan(bounds[i]!));
  });
});

describe('certified designs of raw columns', () => {
  it.each([['Longley', true, 9], ['Norris', true, 12], ['NoInt1', false, 14], ['NoInt2', false, 14]] as const)('%s, intercept %s: %d digits', (name, intercept, bound) => {
    const set = readLinearSet(name);
    const fit = fitLinear(set.x.map((row) => (intercept ? [1, ...row] : row)), set.y);
    const deviations = fit.covariance.map((row, i) => fit.residualStandardDeviation * Math.sqrt(row[i]!));
    console.log(name, agreeingDigits(fit.coefficients, set.estimates), agreeingDigits(deviations, set.standardDeviations), agreeingDigits([fit.residualStandardDeviation], [set.residualStandardDeviation]));
    expect(agreeingDigits(fit.coefficients, set.estimates)).toBeGreaterThan(bound);
    expect(agreeingDigits(deviations, set.standardDeviations)).toBeGreaterThan(bound);
    expect(agreeingDigits([fit.residualStandardDeviation], [set.residualStandardDeviation])).toBeGreaterThan(bound);
  });
});
