import type { Distribution } from '../uncertainty/index.js';

/**
 * What is known of a quantity before it is measured, such as the spread of a production line.
 * Names as in the distributions of the uncertainty room.
 */
export type Prior = Extract<Distribution, { readonly kind: 'normal' | 'gamma' | 'lognormal' }>;

/**
 * Density of a prior, up to a constant factor, as a function of the quantity.
 *
 * @param prior - normal, gamma (shape 1 or more) or lognormal
 * @returns function whose largest value is 1
 * @throws {RangeError} parameters out of range; a gamma shape below 1 has a pole and is not served
 *
 * Source: JCGM 106:2012, annex A (from memory); the densities are textbook forms.
 */
export function priorShape(prior: Prior): (x: number) => number {
  switch (prior.kind) {
    case 'normal': {
      const { mean, standardUncertainty } = prior;
      demand(Number.isFinite(mean), 'a finite mean', mean);
      demand(positive(standardUncertainty), 'standardUncertainty > 0', standardUncertainty);
      return (x) => Math.exp(-0.5 * ((x - mean) / standardUncertainty) ** 2);
    }
    case 'gamma': {
      const { shape, scale } = prior;
      demand(shape >= 1 && Number.isFinite(shape), 'a gamma shape >= 1', shape);
      demand(positive(scale), 'scale > 0', scale);
      const power = shape - 1;
      const peak = power > 0 ? power * Math.log(power) - power : 0;
      return (x) => {
        if (x < 0) return 0;
        const t = x / scale;
        return power === 0 ? Math.exp(-t) : Math.exp(power * Math.log(t) - t - peak);
      };
    }
    case 'lognormal': {
      const { logMean, logStandardDeviation: s } = prior;
      demand(Number.isFinite(logMean), 'a finite logMean', logMean);
      demand(positive(s), 'logStandardDeviation > 0', s);
      return (x) =>
        x <= 0
          ? 0
          : Math.exp(-0.5 * ((Math.log(x) - logMean) / s) ** 2 - Math.log(x) + logMean - (s * s) / 2);
    }
  }
}

/**
 * Range outside of which a prior holds less than about 1e-15 of its probability.
 *
 * @param prior - as in `priorShape`
 * @returns from and to, in the unit of the quantity
 */
export function priorRange(prior: Prior): readonly [from: number, to: number] {
  switch (prior.kind) {
    case 'normal':
      return [prior.mean - 9 * prior.standardUncertainty, prior.mean + 9 * prior.standardUncertainty];
    case 'gamma':
      return [
        prior.scale * Math.max(0, prior.shape - 9 * Math.sqrt(prior.shape)),
        // The upper tail falls like an exponential, slower than that of a normal distribution.
        prior.scale * (prior.shape + 12 * Math.sqrt(prior.shape) + 60),
      ];
    case 'lognormal': {
      const reach = 9 * prior.logStandardDeviation;
      return [Math.exp(prior.logMean - reach), Math.exp(prior.logMean + reach)];
    }
  }
}

/**
 * Ends of panels for integrals over a prior times a function that changes within `width` of the given points.
 *
 * @param prior - as in `priorShape`
 * @param width - standard uncertainty of the measurement, 0 or more
 * @param points - kinks and transitions; those that are not finite or lie outside the prior's range are left out
 * @returns ascending ends, from one end of the range to the other, the points among them
 */
export function panelEdges(prior: Prior, width: number, points: readonly number[]): number[] {
  const [from, to] = priorRange(prior);
  const edges = Array.from({ length: 65 }, (_, i) =>
    // A lognormal prior spans many powers of ten: its panels widen by a constant factor.
    prior.kind === 'lognormal' ? from * (to / from) ** (i / 64) : from + ((to - from) * i) / 64,
  );
  edges[64] = to;
  for (const point of points) {
    for (const steps of [0, 1, 2, 4, 6, 9]) edges.push(point - steps * width, point + steps * width);
  }
  return [...new Set(edges)].filter((x) => x >= from && x <= to).sort((a, b) => a - b);
}

function positive(value: number): boolean {
  return Number.isFinite(value) && value > 0;
}

function demand(holds: boolean, rule: string, got: number): void {
  if (!holds) throw new RangeError(`prior requires ${rule}, got ${got}`);
}
