/** The star's own light about its core: smooth in the radius, linear in its coefficients. */
export interface WingModel {
  readonly size: number;
  /** Fills `out` from `offset` with the functions at a radius (pixels). */
  readonly at: (radius: number, out: Float64Array, offset: number) => void;
}

/** A profile of a star without the filter, or with another one: background taken out. */
export interface ReferenceProfile {
  /** Pixels, increasing. */
  readonly radius: Float64Array;
  readonly counts: Float64Array;
  readonly variance: Float64Array;
}

/**
 * Numbers of terms that are tried. The fewest leave at most a seventh of a standard uncertainty of a disk to the wings
 * of simulated stars (Moffat cores with aureoles); fewer look good enough by Schwarz's criterion and are not.
 *
 * @param from - innermost radius
 * @param to - outermost radius, same unit
 * @param rings - number of rings that must carry them
 * @returns numbers of terms, rising
 */
export function wingTerms(from: number, to: number, rings: number): readonly number[] {
  const least = to / from > 40 ? 8 : to / from > 4 ? 6 : 5;
  return [least, least + 2, least + 4].filter((terms, k) => k === 0 || terms <= rings / 5);
}

/**
 * Wings as a sum of falling powers of the radius: free near the core, stiff far out, where a disk is to be told from
 * them. Or as a reference profile times a straight line in the logarithm.
 *
 * The powers -1.75, -2.25, -2.75, ... are combined into Chebyshev polynomials of the inverse root of the radius: the
 * same curves, better conditioned. Slower than about the inverse square no far profile falls off for long, for its
 * light would not be finite.
 *
 * @param from - innermost radius, pixels, > 0
 * @param to - outermost radius, pixels
 * @param terms - number of powers, >= 1; without use for a reference
 * @param reference - profile to take in their place
 * @returns the functions
 *
 * Source: a far profile falls no faster than the inverse square of the radius: Sandin, A&A 567, A97 (2014),
 * doi:10.1051/0004-6361/201423429; King, PASP 83, 199 (1971).
 */
export function wingModel(from: number, to: number, terms: number, reference?: ReferenceProfile): WingModel {
  if (reference !== undefined) {
    const start = Math.log(from);
    const span = Math.log(to) - start;
    return {
      size: 2,
      at: (radius, out, offset) => {
        const light = interpolate(reference, radius);
        out[offset] = light;
        out[offset + 1] = light * ((2 * (Math.log(radius) - start)) / span - 1);
      },
    };
  }
  const least = Math.sqrt(from / to);
  return {
    size: terms,
    at: (radius, out, offset) => {
      const root = Math.sqrt(from / radius);
      const t = (2 * (root - least)) / (1 - least) - 1;
      const light = root ** 3.5;
      let before = light;
      let here = light * t;
      for (let j = 0; j < terms; j++) {
        out[offset + j] = before;
        const next = 2 * t * here - before;
        before = here;
        here = next;
      }
    },
  };
}

/** Background, wings and further columns on the rings. */
export function ringColumns(
  radius: Float64Array,
  wings: WingModel,
  extra: readonly Float64Array[],
): Float64Array[] {
  const n = radius.length;
  const columns = Array.from({ length: 1 + wings.size }, () => new Float64Array(n));
  const row = new Float64Array(wings.size);
  for (let i = 0; i < n; i++) {
    columns[0]![i] = 1;
    wings.at(radius[i]!, row, 0);
    for (let j = 0; j < wings.size; j++) columns[1 + j]![i] = row[j]!;
  }
  return [...columns, ...extra];
}

function interpolate(profile: ReferenceProfile, at: number): number {
  const { radius, counts } = profile;
  let low = 0;
  let high = radius.length - 1;
  if (at <= radius[0]!) return counts[0]!;
  if (at >= radius[high]!) return counts[high]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (radius[middle]! <= at) low = middle;
    else high = middle;
  }
  const [r0, r1, a, b] = [radius[low]!, radius[high]!, counts[low]!, counts[high]!];
  // Along a power of the radius where both are bright, for the light near the core is steep.
  const isBright = Math.min(a, b) > 10 * Math.sqrt(Math.max(profile.variance[low]!, profile.variance[high]!));
  if (isBright) return a * (at / r0) ** (Math.log(b / a) / Math.log(r1 / r0));
  return a + ((at - r0) / (r1 - r0)) * (b - a);
}
