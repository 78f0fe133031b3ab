import type { LineInBeam } from '../beam/index.js';
import type { Absent, Quantity } from '../metrics/index.js';
import type { LineOnSky } from '../sky/index.js';

/** A line's transmittance in the telescope's beam: an entry of a filter's `beam` in measurement.json. */
export interface BeamLineReport extends LineInBeam {
  readonly line: string;
  readonly wavelengthNm: number;
  readonly effectiveIndex: readonly [number, number];
  readonly centralObstruction: number;
  readonly pupil: 'uniform' | { readonly gaussianEdge: number };
  readonly chiefRayDeg: number;
  readonly tiltDeg: number;
  /** Focal ratio of the light on the bench; null where the session does not say and parallel light is taken. */
  readonly measuredAtFNumber: number | null;
  /** Whether the line spread of the instrument is taken out of the band. */
  readonly corrected: boolean;
  /** In use minus on the bench, K; null where one of the two is not stated: no shift is taken then. */
  readonly temperatureDifferenceK: number | null;
}

/** A line in a filter's sky report: all of it but the trials. */
export interface SkyLineReport extends Omit<LineOnSky, 'quality' | 'openQuality'> {
  /** Hours that equal a clear night without a filter, hours saved of it, and the price of each over the nights. */
  readonly hoursToEqualNight: Quantity;
  readonly hoursSavedPerNight: Quantity;
  readonly pricePerHourSaved: (Quantity & { readonly currency?: string }) | Absent;
}

/** What a filter does under the site's sky: a filter's `sky` in measurement.json. */
export interface SkyReport {
  readonly fNumber: number;
  /** Whether the line spread of the instrument is taken out of the bands of all target lines. */
  readonly corrected: boolean;
  readonly skyTransmittance: Quantity;
  readonly effectiveWidthNm: Quantity;
  readonly skyPerPixel: Quantity;
  readonly skyLimitedFrameS: Quantity;
  /** Frame that the hours are for, s; 0 where no length is better than another. */
  readonly frameS: number;
  readonly lines: readonly SkyLineReport[];
  /** A target without lines of the sun's colour: share left, magnitudes lost, signal to noise against none. */
  readonly continuum: {
    readonly temperatureK: number;
    readonly share: number;
    /** Standard uncertainties from the noise, the level and the effective index. */
    readonly shareUncertainty: number;
    readonly magnitudesLost: number | Absent;
    readonly signalToNoise: number;
    readonly signalToNoiseUncertainty: number;
  };
  readonly rangeNm: readonly [number, number];
  readonly unseenNm: number;
}
