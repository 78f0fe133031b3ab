/**
 * Regularised incomplete beta function.
 *
 * @param x - 0 to 1
 * @param rest - 1 - x, given apart to keep its digits
 * @param a - > 0
 * @param b - > 0
 * @param logBeta - logarithm of the beta function of a and b
 * @returns 0 to 1
 *
 * Source: continued fraction of Abramowitz, Stegun (1964), 26.5.8, from the front by Lentz's method.
 */
export function incompleteBeta(x: number, rest: number, a: number, b: number, logBeta: number): number {
  if (x <= 0) return 0;
  if (rest <= 0) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(rest, x, b, a, logBeta);
  const logX = rest < 0.5 ? Math.log1p(-rest) : Math.log(x);
  const logRest = x < 0.5 ? Math.log1p(-x) : Math.log(rest);
  const front = Math.exp(a * logX + b * logRest - logBeta) / a;
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || tiny);
  let fraction = d;
  for (let m = 1; m < 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d || tiny);
    c = 1 + even / c || tiny;
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d || tiny);
    c = 1 + odd / c || tiny;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return front * fraction;
}
