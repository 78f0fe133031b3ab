import { LEAST_OWN_SHARE, ownSquare, type RawCandidate } from './diskCandidates.js';
import { dot, dotFrom, leastSquares } from './leastSquares.js';

/** The best disk together with the wings that suit it. */
export interface DiskScan {
  /** Powers in the wings with the disk. */
  readonly terms: number;
  /** Those that serve best without a further disk. */
  readonly termsWithout: number;
  readonly candidate: { readonly inner: number; readonly outer: number; readonly surface: number } | null;
  /** Root of the fall of Schwarz's criterion that the disk brings, its own cost left out. */
  readonly significance: number;
}

/**
 * Looks for the best disk under wings of every stiffness: wings free enough to imitate a disk pay for each of their
 * coefficients by Schwarz's criterion, with the disk and without it.
 *
 * @param radius - of the rings, pixels
 * @param counts - of the rings
 * @param variance - of the rings
 * @param choices - numbers of powers to try
 * @param columns - background, wings of so many powers, and known disks
 * @param raw - what to look for; nothing: only the wings are chosen
 * @returns the best disk and what it brings over the best wings without it
 *
 * Source: Schwarz, Ann. Stat. 6, 461 (1978).
 */
export function scanDisks(
  radius: Float64Array,
  counts: Float64Array,
  variance: Float64Array,
  choices: readonly number[],
  columns: (terms: number) => readonly Float64Array[],
  raw: readonly RawCandidate[],
): DiskScan {
  let without = Number.POSITIVE_INFINITY;
  let termsWithout = choices[0]!;
  let withDisk = Number.POSITIVE_INFINITY;
  let terms = choices[0]!;
  let candidate: DiskScan['candidate'] = null;
  const lengths = raw.map(({ column }) => dot(column, column));
  for (const choice of choices) {
    const base = leastSquares(columns(choice), counts, variance);
    if (base.orthonormal.length > radius.length / 2) continue;
    const score = base.sum + base.orthonormal.length * Math.log(radius.length);
    if (score < without) {
      without = score;
      termsWithout = choice;
    }
    for (let c = 0; c < raw.length; c++) {
      const { first, column, inner, outer } = raw[c]!;
      const along = dotFrom(column, base.residuals, first);
      // Cheap test first: even without what the wings imitate it would not be better.
      if (along <= 0) continue;
      const least = LEAST_OWN_SHARE * lengths[c]!;
      if (score - (along * along) / least >= withDisk) continue;
      const own = ownSquare(column, first, base.orthonormal, lengths[c]!, least);
      if (!(own > least)) continue;
      const fall = (along * along) / own;
      if (score - fall < withDisk) {
        withDisk = score - fall;
        terms = choice;
        candidate = { inner, outer, surface: along / own };
      }
    }
  }
  const fall = candidate === null ? 0 : Math.max(0, without - withDisk);
  return { terms, termsWithout, candidate, significance: Math.sqrt(fall) };
}
