import type { Quantity } from '../metrics/index.js';
import { type Camera, channelsOf } from './camera.js';
import type { LineOnSky, TargetLine } from './onSkyTypes.js';
import { responseReader } from './responseReader.js';
import { qualityRate } from './signalToNoise.js';
import { summaryOf } from './summaryOf.js';

/** What the trials of a filter say of one line, and what the camera makes of it. */
export interface LineOnSkyContext {
  readonly camera: Camera;
  /** Electrons per second and pixel of the line without a filter, where a pixel has no colour layer. */
  readonly arriving: number;
  /** Trials of the line's transmittance in the beam. */
  readonly transmittance: Float64Array;
  /** Trials of its brightness over the value stated; from the start again where they are fewer. */
  readonly strength: Float64Array;
  /** Trials of the sky in electrons per second and pixel, a channel each: drawn, as stated, without a filter. */
  readonly background: readonly Float64Array[];
  readonly sameSky: readonly Float64Array[];
  readonly open: readonly Float64Array[];
  /** Length of a frame with and without the filter, s; Infinity where the read noise does not matter. */
  readonly frameS: number;
  readonly openFrameS: number;
  readonly goal: number;
}

const FAINT = 'the sky behind the filter does not stand out of the noise of its curve';
const DARK = 'the line does not pass the filter';

/**
 * A line behind a filter: contrast, gain and hours from the trials.
 *
 * @param target - the line
 * @param context - trials and camera
 * @returns numbers with intervals, or why there are none
 * @throws {RangeError} a response or rate out of range
 */
export function lineOnSky(target: TargetLine, context: LineOnSkyContext): LineOnSky {
  const { camera, arriving, strength, transmittance, background, sameSky, open, goal } = context;
  const { frameS, openFrameS } = context;
  const channels = channelsOf(camera);
  const { darkCurrent: dark, readNoise } = camera;
  const reads = channels.map(({ response }) =>
    responseReader('lineOnSky', response).read(target.wavelengthNm),
  );
  const mean = (of: (channel: number) => number): number =>
    channels.reduce((sum, { share }, channel) => sum + share * of(channel), 0);
  const colourShare = mean((channel) => reads[channel]!);
  const brightness = (k: number): number => strength[k % strength.length]!;
  const qualityOf = (passed: number, sky: (channel: number) => number, length: number): number =>
    mean((channel) =>
      qualityRate(
        {
          signal: Math.max(0, passed * arriving * reads[channel]!),
          sky: Math.max(0, sky(channel)),
          dark,
          readNoise,
        },
        length,
      ),
    );
  // Where only the sky counts: squares of signal over sky, channel by channel.
  const limited = (passed: number, sky: (channel: number) => number): number =>
    mean((channel) => (reads[channel] === 0 ? 0 : (passed * reads[channel]!) ** 2 / sky(channel)));

  const trials = (of: (passed: number, k: number) => number): Float64Array =>
    transmittance.map((passed, k) => (Number.isFinite(passed) ? of(passed, k) : Number.NaN));
  const signal = trials((passed, k) => passed * brightness(k) * arriving * colourShare);
  const quality = trials((passed, k) =>
    qualityOf(passed * brightness(k), (channel) => background[channel]![k]!, frameS),
  );
  const sameQuality = trials((passed, k) => qualityOf(passed, (channel) => sameSky[channel]![k]!, frameS));
  const openQuality = trials((_, k) => qualityOf(brightness(k), (channel) => open[channel]![k]!, openFrameS));
  const contrast = signal.map((value, k) => {
    const sky = mean((channel) => background[channel]![k]!);
    return sky > 0 ? value / sky : Number.NaN;
  });
  const gain = trials((passed, k) =>
    background.every((one, channel) => reads[channel] === 0 || one[k]! > 0)
      ? Math.sqrt(
          limited(Math.max(0, passed), (channel) => background[channel]![k]!) /
            limited(1, (channel) => open[channel]![k]!),
        )
      : Number.NaN,
  );
  const hoursOf = (trialsOf: Float64Array): Quantity =>
    summaryOf(
      trialsOf.map((value) => (value > 0 ? goal ** 2 / value / 3600 : Number.NaN)),
      DARK,
    );
  return {
    name: target.name,
    wavelengthNm: target.wavelengthNm,
    transmittance: summaryOf(transmittance, 'the beam would need the curve beyond its end'),
    signalPerPixel: summaryOf(signal, DARK),
    contrast: summaryOf(contrast, FAINT),
    gain: summaryOf(gain, FAINT),
    hours: hoursOf(quality),
    hoursSameSky: hoursOf(sameQuality),
    quality,
    openQuality,
    colourShare,
  };
}
