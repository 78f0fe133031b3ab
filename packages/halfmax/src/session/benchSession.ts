import type { Detector, FrameEntry, Warning } from '../frames/types.js';
import type { HaloTolerance, Layer, NoiseTolerance, Place, StarImage } from '../halo/index.js';
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

/** An image of a star with the name of its file and its exposure. */
export interface StarPicture {
  readonly file: string;
  readonly image: StarImage;
  /** Seconds, as the session or the header states it; null where neither does. */
  readonly exposureS: number | null;
}

/** How the session tells the light of a star. */
export type StarLight =
  | {
      readonly kind: 'short';
      readonly picture: StarPicture;
      /** Exposure of the long image over that of the short one. */
      readonly exposureRatio: number;
    }
  | {
      readonly kind: 'magnitude';
      readonly magnitude: number;
      readonly zeroPoint: number;
      readonly uncertainty: number;
    };

/** A halo limit of the session; what its kind `noise` leaves out comes from the site and from the image. */
export type StarLimit =
  | Exclude<HaloTolerance, { readonly kind: 'noise' }>
  | (Pick<NoiseTolerance, 'hours' | 'electronsPerCount'> &
      Partial<Omit<NoiseTolerance, 'exposureS'>> & { readonly kind: 'noise' });

/** An image of a bright star through a filter, as the session states it; null where it does not. */
export interface StarEntry {
  /** Place in the session's `stars`, from 0. */
  readonly index: number;
  /** Id of the filter. */
  readonly filter: string;
  /** Name of the star: images of one star are compared. */
  readonly star: string | null;
  readonly picture: StarPicture;
  readonly pixelSizeUm: number;
  /** Of the light at the sensor. */
  readonly fNumber: number;
  readonly fNumberUncertainty: number;
  readonly saturationCounts: number;
  readonly focalLengthMm: number | null;
  readonly obstruction: number | null;
  /** Rough place of the star, pixels of the full frame from (0, 0). */
  readonly near: Place | null;
  readonly light: StarLight | null;
  /** Another image of the star, which the wings are taken from. */
  readonly reference: StarPicture | null;
  readonly layers: readonly Layer[] | null;
  readonly limit: StarLimit | null;
  readonly fNumberBefore: number | null;
  readonly movedSpacingMm: number | null;
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
  /** Images of bright stars; left out where the session names none. */
  readonly stars?: readonly StarEntry[];
  /** The manifest as it stood, unknown fields and all. */
  readonly manifest: Readonly<Record<string, unknown>>;
  /** SHA-256 of every file read, in the order of the file names. */
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
  readonly warnings: readonly Warning[];
}
