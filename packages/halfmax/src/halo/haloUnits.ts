import { absent, isAbsent, type Measured, type Quantity } from '../metrics/index.js';

/** What turns counts and pixels into the user's units. */
export interface HaloUnits {
  /** Arcseconds a pixel. */
  readonly scale: number | { readonly absent: string };
  readonly starCounts: Quantity;
  readonly pixelSizeUm: number;
  readonly obstruction: number | undefined;
}

/** A number times a factor. */
export function scaled(value: Measured, factor: number): Measured {
  return {
    value: value.value * factor,
    standardUncertainty: value.standardUncertainty * factor,
    interval95: [value.interval95[0] * factor, value.interval95[1] * factor],
  };
}

/** A share of the star, its own uncertainty added to the distances of the interval's ends. */
export function overStar(value: Measured, star: Quantity): Quantity {
  if (isAbsent(star)) return star;
  const relative = star.standardUncertainty / star.value;
  const share = value.value / star.value;
  const reach = (end: number): number =>
    Math.hypot(end - value.value, 1.96 * relative * value.value) / star.value;
  return {
    value: share,
    standardUncertainty: Math.hypot(value.standardUncertainty / star.value, share * relative),
    interval95: [share - reach(value.interval95[0]), share + reach(value.interval95[1])],
  };
}

/** A share of the star as magnitudes below it. */
export function toMagnitudes(share: Measured): Quantity {
  const [low, high] = share.interval95;
  if (!(share.value > 0 && low > 0)) return absent('not above 0 beyond its uncertainty');
  const value = -2.5 * Math.log10(share.value);
  return {
    value,
    standardUncertainty: (2.5 / Math.LN10) * (share.standardUncertainty / share.value),
    interval95: [-2.5 * Math.log10(high), -2.5 * Math.log10(low)],
  };
}

/** Counts a pixel as magnitudes per square arcsecond above the star's. */
export function surfaceQuantity(counts: Measured, units: HaloUnits): Quantity {
  if (typeof units.scale !== 'number') return units.scale;
  const share = overStar(counts, units.starCounts);
  return isAbsent(share) ? share : toMagnitudes(scaled(share, 1 / units.scale ** 2));
}

/** The same for a number without uncertainty. */
export function surfaceMagnitudes(counts: number, units: HaloUnits): number | { readonly absent: string } {
  if (typeof units.scale !== 'number') return units.scale;
  if (isAbsent(units.starCounts)) return units.starCounts;
  return -2.5 * Math.log10(counts / units.starCounts.value / units.scale ** 2);
}
