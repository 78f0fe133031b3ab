import type { Detector, FrameEntry, Warning } from '../frames/types.js';
import type { Claim } from '../verdict/claim.js';

export type { Claim };

/** What a data sheet says of a filter. */
export interface FilterClaims {
  readonly fwhmNm?: Claim;
  readonly centreNm?: Claim;
  readonly peakTransmittance?: Claim;
  readonly transmittanceAtLine?: Claim;
  readonly opticalDensity?: Claim & { readonly fromNm: number; readonly toNm: number };
}

/** A filter as the session describes it. */
export interface FilterEntry {
  readonly id: string;
  readonly label: string;
  /** Names from the emission-line table. */
  readonly lines: readonly string[];
  readonly claims: FilterClaims;
  readonly price: { readonly amount: number; readonly currency: string } | null;
}

/** A bench session read from its folder: plain data, no file handles. */
export interface BenchSession {
  readonly title: string;
  readonly recorded: string | null;
  readonly detector: Detector;
  readonly entries: readonly FrameEntry[];
  readonly filters: readonly FilterEntry[];
  /** The manifest as it stood, unknown fields and all. */
  readonly manifest: Readonly<Record<string, unknown>>;
  /** SHA-256 of every file read, in the order of the file names. */
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
  readonly warnings: readonly Warning[];
}
