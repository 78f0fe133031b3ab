import type { Detector, FrameEntry, Warning } from '../frames/types.js';
import type { SkySpectrum } from '../sky/index.js';
import type { Claim } from '../verdict/claim.js';
import type { DecisionRule } from '../verdict/index.js';

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

/** How the filters stood on the bench, as far as the session says; null where it does not. */
export interface BenchConditions {
  /** F-number of the light through the filter: a ray at an angle sees the band further to the blue. */
  readonly fNumber: number | null;
  readonly temperatureC: number | null;
  /** Place and size of the lit spot, in the session's words. */
  readonly spot: string | null;
}

/** A bench session read from its folder: plain data, no file handles. */
export interface BenchSession {
  readonly title: string;
  readonly recorded: string | null;
  readonly detector: Detector;
  readonly entries: readonly FrameEntry[];
  readonly filters: readonly FilterEntry[];
  /** How a measurement becomes a verdict; null where the session leaves it to the default. */
  readonly decision: DecisionRule | null;
  readonly bench: BenchConditions;
  /** A measured spectrum of the site's sky; null or left out where the session names none. */
  readonly skySpectrum?: SkySpectrum | null;
  /** The manifest as it stood, unknown fields and all. */
  readonly manifest: Readonly<Record<string, unknown>>;
  /** SHA-256 of every file read, in the order of the file names. */
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
  readonly warnings: readonly Warning[];
}
