import type { StarFlux } from './starFlux.js';
import type { Place } from './starImage.js';
import type { ReferenceProfile } from './wings.js';

/** What is known of an image of a star. */
export interface HaloSetup {
  /** Of the image, for messages. */
  readonly name: string;
  readonly pixelSizeUm: number;
  readonly fNumber: number;
  readonly saturationCounts: number;
  /** For arcseconds; left out: none are given. */
  readonly focalLengthMm?: number;
  /** Central obstruction as a share of the aperture's diameter, 0 to below 1. */
  readonly obstruction?: number;
  /** Light of the star in this exposure; left out: measured where the star is not saturated. */
  readonly star?: StarFlux;
  /** Wings from another frame, see `wingReference`; left out: modelled. */
  readonly reference?: ReferenceProfile;
  /** Where the star is, roughly, pixels of the image from (0, 0); left out: the brightest. */
  readonly near?: Place;
  /** How far from the star to look, pixels; left out: as far as the image goes. */
  readonly outerRadiusPixels?: number;
  /** Standard deviation of the disks' edges, pixels; left out: 1.5. */
  readonly edgeBlurPixels?: number;
  /** Probability of naming a disk where there is none; left out: 0.002. */
  readonly falseAlarm?: number;
  /** Draws of the bootstrap; left out: 1000. */
  readonly draws?: number;
  /** Left out: 5. */
  readonly mostDisks?: number;
}

/** Refuses a setup out of range. */
export function requireHaloSetup(setup: HaloSetup): void {
  const positive: readonly [string, number | undefined][] = [
    ['pixelSizeUm', setup.pixelSizeUm],
    ['fNumber', setup.fNumber],
    ['saturationCounts', setup.saturationCounts],
    ['focalLengthMm', setup.focalLengthMm],
    ['outerRadiusPixels', setup.outerRadiusPixels],
    ['edgeBlurPixels', setup.edgeBlurPixels],
    ['star.counts', setup.star?.counts],
  ];
  for (const [field, value] of positive) {
    if (value !== undefined && !(value > 0 && value < Infinity)) {
      throw new RangeError(`measureHalo requires ${field} above 0, got ${value}`);
    }
  }
  const { obstruction = 0, falseAlarm = 0.002, draws = 1000, mostDisks = 5 } = setup;
  if (!(obstruction >= 0 && obstruction < 1))
    throw new RangeError(`measureHalo requires an obstruction from 0 to below 1, got ${obstruction}`);
  if (!(falseAlarm > 0 && falseAlarm <= 0.2))
    throw new RangeError(`measureHalo requires a false-alarm probability up to 0.2, got ${falseAlarm}`);
  if (!(Number.isInteger(draws) && draws >= 100))
    throw new RangeError(`measureHalo requires at least 100 draws, got ${draws}`);
  if (!(Number.isInteger(mostDisks) && mostDisks >= 0))
    throw new RangeError(`measureHalo requires a whole number of disks, got ${mostDisks}`);
}
