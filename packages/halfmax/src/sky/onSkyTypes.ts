import type { Quantity } from '../metrics/index.js';
import type { Camera } from './camera.js';
import type { FilterTrialOptions } from './filterTrials.js';
import type { Aerosol } from './scattering.js';
import type { LineBrightness } from './types.js';

/** A line of the target. */
export interface TargetLine {
  readonly name: string;
  readonly wavelengthNm: number;
  readonly brightness: LineBrightness;
  /** Lines of one group, such as a doublet in one band, are also told together. */
  readonly group?: string;
  /** Trials of its brightness over the value stated; filters judged by one target share them. @default exact */
  readonly strength?: Float64Array;
}

/** How the target is looked at. */
export interface FilterOnSkyOptions extends FilterTrialOptions {
  readonly camera: Camera;
  /** Signal to noise in each pixel that is to be reached, above 0. @default 10 */
  readonly goal?: number;
  /** Length of a frame, s; left out, the shortest in which the sky drowns the read noise to 5 %. */
  readonly frameS?: number;
  /** Airmass of the target. @default 1 */
  readonly airmass?: number;
  /** Haze that dims the target. @default clear air of the table atmosphere */
  readonly aerosol?: Aerosol;
}

/** A line behind a filter under a sky. */
export interface LineOnSky {
  readonly name: string;
  readonly wavelengthNm: number;
  /** In the beam. */
  readonly transmittance: Quantity;
  /** Electrons per second and pixel of the line, mean over the channels. */
  readonly signalPerPixel: Quantity;
  /** Line over sky. */
  readonly contrast: Quantity;
  /** Signal to noise over that without a filter in equal time, limited by the sky. */
  readonly gain: Quantity;
  /** To the goal in one pixel: what sky and target leave open counts. */
  readonly hours: Quantity;
  /** The same under this very sky and target: what the curve alone leaves open, by which filters are told apart. */
  readonly hoursSameSky: Quantity;
  /** Trials of the square of signal to noise per second, and the same without a filter. */
  readonly quality: Float64Array;
  readonly openQuality: Float64Array;
  /** Share of the pixels, each with the response of its colour, that the line reaches; 1 for a monochrome camera. */
  readonly colourShare: number;
}

/** A filter under a sky. */
export interface FilterOnSky {
  /** Share of the detected sky that is left, over the whole range. */
  readonly skyTransmittance: Quantity;
  /** Width of a window of transmittance 1 that passes as much of an even sky of the same total. */
  readonly effectiveWidthNm: Quantity;
  /** Electrons per second and pixel of the sky, mean over the channels. */
  readonly skyPerPixel: Quantity;
  readonly lines: readonly LineOnSky[];
  /** Frame in which the sky drowns the read noise to 5 %, s. */
  readonly skyLimitedFrameS: Quantity;
  /** Frame that the hours are for, s: with the filter, and without it. */
  readonly frameS: number;
  readonly openFrameS: number;
  /** Part of the range that the curve does not cover, nm: taken as dark. */
  readonly unseenNm: number;
}
