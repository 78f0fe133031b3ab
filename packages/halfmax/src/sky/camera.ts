import { ARCSEC2_SR } from './photonRates.js';
import type { Response } from './types.js';

/** A camera behind a telescope, as far as the light of an extended source needs it. */
export interface Camera {
  /** Focal ratio at the sensor, above 0. */
  readonly fNumber: number;
  readonly pixelUm: number;
  /** Diameter of the obstruction over that of the aperture. @default 0 */
  readonly centralObstruction?: number;
  /** Share of the light that mirrors, lenses and windows let through, filter left out. @default 1 */
  readonly opticsTransmittance?: number;
  readonly quantumEfficiency: Response;
  /** Electrons. */
  readonly readNoise: number;
  /** Electrons per second and pixel. */
  readonly darkCurrent: number;
  /** Channels of a colour camera with their share of the pixels; left out for a monochrome one. */
  readonly channels?: readonly ColourChannel[];
}

/** A colour of a colour camera. */
export interface ColourChannel {
  readonly name: string;
  /** Of the pixels, above 0; those of all channels add up to 1. */
  readonly share: number;
  /** Of the colour layer: comes on top of the quantum efficiency. */
  readonly response: Response;
}

/**
 * Light that a pixel gathers: aperture area times the pixel's piece of sky, which depends on the focal ratio alone.
 *
 * @param camera - camera and telescope
 * @returns square metre times square arcsecond, optics' losses included
 * @throws {RangeError} a value out of range
 * Source: geometry: pi / 4 (1 - e^2) (pixel / N)^2 steradian.
 * @example
 * const camera = { fNumber: 5, pixelUm: 3.76, quantumEfficiency: 1, readNoise: 0, darkCurrent: 0 };
 * pixelGrasp(camera).toFixed(5); // => '0.01890'
 */
export function pixelGrasp(camera: Camera): number {
  const {
    fNumber,
    pixelUm,
    centralObstruction = 0,
    opticsTransmittance = 1,
    readNoise,
    darkCurrent,
  } = camera;
  const refuse = (what: string, found: number): never => {
    throw new RangeError(`pixelGrasp requires ${what}, got ${found}`);
  };
  if (!(fNumber > 0 && fNumber < Infinity)) refuse('an f-number above 0', fNumber);
  if (!(pixelUm > 0 && pixelUm < Infinity)) refuse('a pixel above 0', pixelUm);
  if (!(centralObstruction >= 0 && centralObstruction < 1))
    refuse('a central obstruction from 0 to below 1', centralObstruction);
  if (!(opticsTransmittance > 0 && opticsTransmittance <= 1))
    refuse('optics that let through above 0 and at most 1', opticsTransmittance);
  if (!(readNoise >= 0 && readNoise < Infinity)) refuse('a read noise of 0 or more', readNoise);
  if (!(darkCurrent >= 0 && darkCurrent < Infinity)) refuse('a dark current of 0 or more', darkCurrent);
  const sr = (Math.PI / 4) * (1 - centralObstruction ** 2) * ((pixelUm * 1e-6) / fNumber) ** 2;
  return (opticsTransmittance * sr) / ARCSEC2_SR;
}

/**
 * Channels of a camera: those of a colour camera, or one for a monochrome one.
 *
 * @param camera - the camera
 * @returns at least one channel; shares add up to 1
 * @throws {RangeError} shares not above 0, or that do not add up to 1
 */
export function channelsOf(camera: Camera): readonly ColourChannel[] {
  const { channels = [] } = camera;
  if (channels.length === 0) return [{ name: 'all', share: 1, response: 1 }];
  let total = 0;
  for (const { name, share } of channels) {
    if (!(share > 0 && share <= 1))
      throw new RangeError(`channelsOf requires shares above 0, got ${share} for ${name}`);
    total += share;
  }
  if (Math.abs(total - 1) > 1e-6)
    throw new RangeError(`channelsOf requires shares that add up to 1, got ${total}`);
  return channels;
}
