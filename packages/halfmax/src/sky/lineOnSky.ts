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
  /** Trials of the sky in electrons per second and pixel, a channel each; the same without a filter. */
  readonly background: readonly Float64Array[];
  readonly open: readonly number[];
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
  const { camera, arriving, transmittance, background, open, frameS, openFrameS, goal } = context;
  const channels = channelsOf(camera);
  const { darkCurrent: dark, readNoise } = camera;
  const reads = channels.map(({ response }) =>
    responseReader('lineOnSky', response).read(target.wavelengthNm),
  );
  const mean = (of: (channel: number) => number): number =>
    channels.reduce((sum, { share }, channel) => sum + share * of(channel), 0);
  const colourShare = mean((channel) => reads[channel]!);
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
  const openLimited = limited(1, (channel) => open[channel]!);

  const trials = (of: (passed: number, k: number) => number): Float64Array =>
    transmittance.map((passed, k) => (Number.isFinite(passed) ? of(passed, k) : Number.NaN));
  const signal = trials((passed) => passed * arriving * colourShare);
  const quality = trials((passed, k) => qualityOf(passed, (channel) => background[channel]![k]!, frameS));
  const contrast = signal.map((value, k) => {
    const sky = mean((channel) => background[channel]![k]!);
    return sky > 0 ? value / sky : Number.NaN;
  });
  const gain = trials((passed, k) =>
    background.every((one, channel) => reads[channel] === 0 || one[k]! > 0)
      ? Math.sqrt(limited(Math.max(0, passed), (channel) => background[channel]![k]!) / openLimited)
      : Number.NaN,
  );
  return {
    name: target.name,
    wavelengthNm: target.wavelengthNm,
    transmittance: summaryOf(transmittance, 'the beam would need the curve beyond its end'),
    signalPerPixel: summaryOf(signal, DARK),
    contrast: summaryOf(contrast, FAINT),
    gain: summaryOf(gain, FAINT),
    hours: summaryOf(
      quality.map((value) => (value > 0 ? goal ** 2 / value / 3600 : Number.NaN)),
      DARK,
    ),
    quality,
    openQuality: qualityOf(1, (channel) => open[channel]!, openFrameS),
    colourShare,
  };
}
