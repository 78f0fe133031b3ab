/** Electrons per second and pixel, and what the exposure is made of. */
export interface Rates {
  /** Of the target, in all pixels together. */
  readonly signal: number;
  /** Of the sky behind the filter, a pixel. */
  readonly sky: number;
  /** A pixel. */
  readonly dark: number;
  /** Electrons of read noise, a pixel and exposure. */
  readonly readNoise: number;
  /** Pixels that the signal falls on. @default 1 */
  readonly pixels?: number;
}

/**
 * Signal to noise of an exposure.
 *
 * @param rates - electrons per second
 * @param exposureS - whole exposure time, s, above 0
 * @param frames - count of frames that it is split into. @default 1
 * @returns ratio, 0 or more
 * @throws {RangeError} a value out of range
 * Source: S t / sqrt(S t + n (B + D) t + n R^2), the usual equation of CCD photometry.
 * @example
 * signalToNoise({ signal: 2, sky: 2, dark: 0.01, readNoise: 3, pixels: 25 }, 600).toFixed(4); // => '6.7532'
 */
export function signalToNoise(rates: Rates, exposureS: number, frames = 1): number {
  requireRates('signalToNoise', rates);
  if (!(exposureS > 0 && exposureS < Infinity))
    throw new RangeError(`signalToNoise requires an exposure above 0, got ${exposureS}`);
  if (!(frames >= 1 && frames < Infinity))
    throw new RangeError(`signalToNoise requires 1 frame or more, got ${frames}`);
  const { signal, sky, dark, readNoise, pixels = 1 } = rates;
  if (signal === 0) return 0;
  const variance = (signal + pixels * (sky + dark)) * exposureS + frames * pixels * readNoise ** 2;
  return (signal * exposureS) / Math.sqrt(variance);
}

/**
 * Exposure time that reaches a signal to noise in one frame.
 *
 * @param rates - electrons per second; the signal above 0
 * @param goal - signal to noise, above 0
 * @returns seconds
 * @throws {RangeError} a value out of range
 * Source: the positive root of the equation of `signalToNoise`.
 * @example
 * exposureFor({ signal: 2, sky: 2, dark: 0.01, readNoise: 3, pixels: 25 }, 20).toFixed(3); // => '5229.303'
 */
export function exposureFor(rates: Rates, goal: number): number {
  requireRates('exposureFor', rates);
  const { signal, sky, dark, readNoise, pixels = 1 } = rates;
  if (!(signal > 0)) throw new RangeError(`exposureFor requires a signal above 0, got ${signal}`);
  if (!(goal > 0 && goal < Infinity))
    throw new RangeError(`exposureFor requires a goal above 0, got ${goal}`);
  const photon = goal ** 2 * (signal + pixels * (sky + dark));
  const read = goal ** 2 * pixels * readNoise ** 2;
  return (photon + Math.sqrt(photon ** 2 + 4 * signal ** 2 * read)) / (2 * signal ** 2);
}

/**
 * Total exposure time that reaches a signal to noise in frames of a set length.
 *
 * @param rates - electrons per second; the signal above 0
 * @param goal - signal to noise, above 0
 * @param frameS - length of a frame, s, above 0
 * @returns seconds, not rounded to whole frames
 * @throws {RangeError} a value out of range
 * Source: the equation of `signalToNoise` with t / frameS frames.
 */
export function exposureInFrames(rates: Rates, goal: number, frameS: number): number {
  if (!(frameS > 0 && frameS < Infinity))
    throw new RangeError(`exposureInFrames requires a frame above 0, got ${frameS}`);
  if (!(goal > 0 && goal < Infinity))
    throw new RangeError(`exposureInFrames requires a goal above 0, got ${goal}`);
  const { signal } = rates;
  if (!(signal > 0)) throw new RangeError(`exposureInFrames requires a signal above 0, got ${signal}`);
  return goal ** 2 / qualityRate(rates, frameS);
}

/**
 * Square of the signal to noise gained per second of exposure in frames of a set length.
 *
 * @param rates - electrons per second
 * @param frameS - length of a frame, s, above 0; Infinity where the read noise does not matter
 * @returns per second, 0 or more
 * @throws {RangeError} a value out of range
 */
export function qualityRate(rates: Rates, frameS: number): number {
  requireRates('qualityRate', rates);
  if (!(frameS > 0)) throw new RangeError(`qualityRate requires a frame above 0, got ${frameS}`);
  const { signal, sky, dark, readNoise, pixels = 1 } = rates;
  if (signal === 0) return 0;
  return signal ** 2 / (signal + pixels * (sky + dark + readNoise ** 2 / frameS));
}

/**
 * Length of a frame in which the sky drowns the read noise.
 *
 * @param skyPerPixel - electrons per second, above 0
 * @param readNoise - electrons
 * @param excess - by how much the read noise may raise the noise, relative, above 0. @default 0.05
 * @returns seconds
 * @throws {RangeError} a value out of range
 * Source: R^2 / (B ((1 + E)^2 - 1)).
 * @example
 * skyLimitedFrame(1, 1.5).toFixed(3); // => '21.951'
 */
export function skyLimitedFrame(skyPerPixel: number, readNoise: number, excess = 0.05): number {
  if (!(skyPerPixel > 0 && skyPerPixel < Infinity))
    throw new RangeError(`skyLimitedFrame requires a sky above 0, got ${skyPerPixel}`);
  if (!(readNoise >= 0 && readNoise < Infinity))
    throw new RangeError(`skyLimitedFrame requires a read noise of 0 or more, got ${readNoise}`);
  if (!(excess > 0 && excess < Infinity))
    throw new RangeError(`skyLimitedFrame requires an excess above 0, got ${excess}`);
  return readNoise ** 2 / (skyPerPixel * ((1 + excess) ** 2 - 1));
}

function requireRates(caller: string, rates: Rates): void {
  const { signal, sky, dark, readNoise, pixels = 1 } = rates;
  for (const [name, value] of Object.entries({ signal, sky, dark, readNoise })) {
    if (!(value >= 0 && value < Infinity))
      throw new RangeError(`${caller} requires a ${name} of 0 or more, got ${value}`);
  }
  if (!(pixels >= 1 && pixels < Infinity))
    throw new RangeError(`${caller} requires 1 pixel or more, got ${pixels}`);
}
