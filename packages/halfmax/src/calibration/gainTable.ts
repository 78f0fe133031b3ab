/** Log-likelihood gain of a found line against wavelength, tabulated. */
export interface GainTable {
  readonly fromNm: number;
  readonly stepNm: number;
  readonly values: Float64Array;
  /** Gain outside the table. */
  readonly outside: number;
}

/** A stretch of wavelengths. */
export interface Stretch {
  readonly fromNm: number;
  readonly toNm: number;
}

/**
 * Stretches between neighbouring known lines that are nearer than a width: the line spread joins them, and what is
 * found lies anywhere between.
 *
 * @param wavelengthsNm - known lines, ascending
 * @param widthNm - line spread
 * @returns the stretches, ascending
 */
export function blendStretches(wavelengthsNm: readonly number[], widthNm: number): Stretch[] {
  return wavelengthsNm.slice(1).flatMap((toNm, k) => {
    const fromNm = wavelengthsNm[k]!;
    return toNm - fromNm < widthNm ? [{ fromNm, toNm }] : [];
  });
}

const FROM_NM = 290;
const TO_NM = 1010;
const STEP_NM = 0.05;
/** Share of found lines that are expected to be foreign to the lamp's table. */
const FOREIGN_SHARE = 0.15;
/** Half width over which the density of known lines is averaged, nm. */
const DENSITY_REACH_NM = 20;

/**
 * How much a found line speaks for a scale that puts it at a wavelength: the logarithm of the likelihood under "it is
 * one of the known lines, placed with an error of toleranceNm, or foreign" over that under "it lies there by chance,
 * as lines of this density do".
 *
 * @param wavelengthsNm - known lines, ascending
 * @param toleranceNm - standard deviation of the placing error, nm
 * @param blends - stretches between known lines that the line spread joins to one: a line may lie anywhere in them
 * @returns gain(wavelengthNm), at least log(0.15)
 */
export function lineGain(
  wavelengthsNm: readonly number[],
  toleranceNm: number,
  blends: readonly Stretch[] = [],
): (wavelengthNm: number) => number {
  const outside = Math.log(FOREIGN_SHARE);
  if (wavelengthsNm.length === 0) return () => outside;
  const height = (1 - FOREIGN_SHARE) / (Math.sqrt(2 * Math.PI) * toleranceNm);
  return (at) => {
    const next = firstAtLeast(wavelengthsNm, at);
    const above = next < wavelengthsNm.length ? wavelengthsNm[next]! - at : Number.POSITIVE_INFINITY;
    const below = next > 0 ? at - wavelengthsNm[next - 1]! : Number.POSITIVE_INFINITY;
    const distance = Math.min(above, below) / toleranceNm;
    const blend = blends.find((stretch) => at > stretch.fromNm && at < stretch.toNm);
    if (distance > 6 && blend === undefined) return outside;
    const within =
      firstAtLeast(wavelengthsNm, at + DENSITY_REACH_NM) - firstAtLeast(wavelengthsNm, at - DENSITY_REACH_NM);
    const density = Math.max(within, 0.4) / (2 * DENSITY_REACH_NM);
    // Twice the density: a chance line has a known one on either side.
    const single = height * Math.exp(-0.5 * distance * distance);
    const joined =
      blend === undefined ? 0 : (1 - FOREIGN_SHARE) / (blend.toNm - blend.fromNm + 2 * toleranceNm);
    return Math.log(Math.max(single, joined) / (2 * density) + FOREIGN_SHARE);
  };
}

/**
 * A gain in a table of 0.05 nm steps, for searches that ask for it a million times.
 *
 * @param gain - gain(wavelengthNm)
 * @returns table over 290 to 1010 nm
 */
export function gainTable(gain: (wavelengthNm: number) => number): GainTable {
  const length = Math.round((TO_NM - FROM_NM) / STEP_NM) + 1;
  const values = Float64Array.from({ length }, (_, n) => gain(FROM_NM + n * STEP_NM));
  return { fromNm: FROM_NM, stepNm: STEP_NM, values, outside: Math.log(FOREIGN_SHARE) };
}

/** The gain at a wavelength, nearest entry. */
export function gainAt(table: GainTable, wavelengthNm: number): number {
  const at = Math.round((wavelengthNm - table.fromNm) / table.stepNm);
  return at >= 0 && at < table.values.length ? table.values[at]! : table.outside;
}

/** Position of the first entry that is not below a value. */
function firstAtLeast(ascending: readonly number[], value: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ascending[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Known lines nearer than so many widths may be found as one. */
const BLEND_WIDTHS = 1.1;

/** Stretches in which the line spread joins neighbouring lines. */
export function joinedStretches(ascendingNm: readonly number[], widthNm: number): Stretch[] {
  return blendStretches(ascendingNm, BLEND_WIDTHS * widthNm);
}
