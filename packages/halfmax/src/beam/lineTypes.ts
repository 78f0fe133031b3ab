import type { Quantity } from '../metrics/index.js';
import type { StretchTrials } from './stretchTrials.js';
import type { Beam, IndexRange } from './types.js';

/** The beam, what is known of the filter, and the trials. */
export interface LineInBeamOptions {
  /** Everything of the beam but its focal ratio. @default evenly lit, clear, along the normal */
  readonly beam?: Omit<Beam, 'fNumber'>;
  /** @default the range of the table filter-angle */
  readonly effectiveIndex?: IndexRange;
  /** The beam in which the curve was measured. @default parallel light along the normal */
  readonly measuredIn?: Beam;
  /** Temperature in use minus that at the measurement, K, and shift per kelvin or its range (left out: the table's). */
  readonly temperature?: { readonly differenceK: number; readonly nmPerK?: IndexRange };
  /** Standard uncertainty of the wavelength scale at the line, nm. @default 0 */
  readonly scaleNm?: number;
  /** Relative standard uncertainty common to all transmittances. @default 0 */
  readonly level?: number;
  /** Stretches whose trials are given, such as a band with the line spread taken out; left out: noise alone. */
  readonly trials?: readonly StretchTrials[];
  /** Share of the transmittance in parallel light that is to be kept, above 0 and below 1. @default 0.9 */
  readonly share?: number;
  readonly seed: number;
  /** Trials of the Monte Carlo. @default 2000 */
  readonly draws?: number;
}

/** A line's transmittance against focal ratio. */
export interface LineInBeam {
  readonly collimated: Quantity;
  readonly inBeam: readonly { readonly fNumber: number; readonly transmittance: Quantity }[];
  readonly fastest: {
    readonly share: number;
    readonly fNumber: Quantity;
    /** Chance that the share is kept down to the fastest ratio looked at, and that it is lost at the slowest already. */
    readonly beyondFast: number;
    readonly beyondSlow: number;
    /** Fastest and slowest ratio looked at. */
    readonly between: readonly [number, number];
  };
  /** The measuring cone was wider than the beam in use: what it softened stays soft. */
  readonly staysSoft: boolean;
}
