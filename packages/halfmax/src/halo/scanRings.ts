import type { RawCandidate } from './diskCandidates.js';
import type { DiskStart } from './diskShape.js';
import { diskColumns } from './diskShape.js';
import type { RingTable } from './ringTable.js';
import { type DiskScan, scanDisks } from './scanDisks.js';
import { type ReferenceProfile, ringColumns, wingModel, wingTerms } from './wings.js';

/** What a search for disks goes by. */
export interface SearchOptions {
  /** Standard deviation of the disks' edges with which they are looked for, pixels; then it is fitted. */
  readonly blur: number;
  /** Probability of naming a disk where there is none. */
  readonly falseAlarm: number;
  readonly mostDisks: number;
  /** Hole to expect, as a share of the outer radius; left out: any. */
  readonly hole?: number;
  /** Wings from another frame; left out: modelled. */
  readonly reference?: ReferenceProfile;
}

/** Numbers of terms that the wings may have on these rings; 0 with a reference. */
export function termsFor(table: RingTable, options: SearchOptions): readonly number[] {
  if (options.reference !== undefined) return [0];
  const n = table.radius.length;
  return wingTerms(table.radius[0]!, table.radius[n - 1]!, n);
}

/** The best of the candidates; without any, only the wings that suit the rings as they are. */
export function scanRings(
  table: RingTable,
  disks: readonly DiskStart[],
  options: SearchOptions,
  raw: readonly RawCandidate[],
): DiskScan {
  const { reference } = options;
  const n = table.radius.length;
  const extra = disks.flatMap((disk) => knownColumns(table, disk));
  return scanDisks(
    table.radius,
    table.mean,
    withReference(table, reference),
    termsFor(table, options),
    (terms) =>
      ringColumns(table.radius, wingModel(table.radius[0]!, table.radius[n - 1]!, terms, reference), extra),
    raw,
  );
}

/** A disk and its derivatives by its radii, as the rings show them. */
export function knownColumns(table: RingTable, disk: DiskStart): Float64Array[] {
  return diskColumns(disk, table.radius, table.width, disk.blur).filter((column) =>
    column.some((value) => value !== 0),
  );
}

/** Two frames of a star are alike to this share of their light at best: seeing and focus change. */
const LIKENESS = 0.02;

/** Variance of the rings with that of the reference scaled to them. */
export function withReference(table: RingTable, reference: ReferenceProfile | undefined): Float64Array {
  if (reference === undefined) return table.meanVariance;
  const inner = reference.radius.findIndex((r) => r >= table.radius[0]!);
  const k = Math.max(0, inner);
  const floor = table.mean[table.mean.length - 1]!;
  const scale = (table.mean[0]! - floor) / (reference.counts[k]! || 1);
  return table.meanVariance.map((variance, i) => {
    let at = 0;
    while (at < reference.radius.length - 1 && reference.radius[at + 1]! <= table.radius[i]!) at++;
    return variance + scale * scale * (reference.variance[at]! + (LIKENESS * reference.counts[at]!) ** 2);
  });
}
