import { type Absent, absent, type Curve, isAbsent } from '../metrics/index.js';
import { channelsOf, pixelGrasp } from './camera.js';
import { filterTrials } from './filterTrials.js';
import { lineOnSky } from './lineOnSky.js';
import type { FilterOnSky, FilterOnSkyOptions, TargetLine } from './onSkyTypes.js';
import { linePhotons } from './photonRates.js';
import { responseReader } from './responseReader.js';
import { airTransmission, clearAir } from './scattering.js';
import { skyLimitedFrame } from './signalToNoise.js';
import { summaryOf } from './summaryOf.js';
import type { Sky } from './types.js';
import { detectedParts, type UncertainSky } from './uncertainSky.js';

const FAINT = 'the sky behind the filter does not stand out of the noise of its curve';

/**
 * What a filter does for a target under a sky: contrast, gain, hours, each with uncertainty from curve, sky and target.
 *
 * @param curve - as measured
 * @param targets - lines of the target inside the curve, 1 or more
 * @param sky - as it reaches the telescope: exact, or with trials of its strength
 * @param options - camera, beam, goal, trials
 * @returns numbers with intervals, or why there are none
 * @throws {RangeError} a value out of range, or a sky or response that does not cover the range
 * Source: the equation of CCD photometry; channels of a colour camera are combined by their signal to noise, which
 * adds in squares.
 */
export function filterOnSky(
  curve: Curve,
  targets: readonly TargetLine[],
  sky: Sky | UncertainSky,
  options: FilterOnSkyOptions,
): FilterOnSky | Absent {
  const { camera, goal = 10, airmass = 1, aerosol = clearAir, frameS: asked } = options;
  if (!(goal > 0 && goal < Infinity))
    throw new RangeError(`filterOnSky requires a goal above 0, got ${goal}`);
  if (targets.length === 0) throw new RangeError('filterOnSky requires at least 1 line, got 0');
  if (asked !== undefined && !(asked > 0 && asked < Infinity))
    throw new RangeError(`filterOnSky requires a frame above 0, got ${asked}`);
  const grasp = pixelGrasp(camera);
  const channels = channelsOf(camera);
  const efficiency = responseReader('filterOnSky', camera.quantumEfficiency);
  const skies = channels.map(({ response }) => detectedParts(sky, camera.quantumEfficiency, response));
  const lines = targets.map(({ wavelengthNm }) => wavelengthNm);
  const trials = filterTrials(curve, lines, skies, options);
  if (isAbsent(trials)) return trials;

  const inPixel = (all: readonly Float64Array[]): Float64Array[] =>
    all.map((one) => one.map((value) => value * grasp));
  const background = inPixel(trials.background);
  const sameSky = inPixel(trials.sameSky);
  const open = inPixel(trials.open);
  const meanOver = (of: (channel: number) => number): number =>
    channels.reduce((sum, { share }, channel) => sum + share * of(channel), 0);
  const openSky = meanOver((channel) => trials.openSameSky[channel]! * grasp);
  if (!(openSky > 0)) return absent('the camera sees no light of the sky');
  const passed = background[0]!.map((_, k) => meanOver((channel) => background[channel]![k]!));
  const skyLimitedFrameS = summaryOf(
    passed.map((value) => (value > 0 ? skyLimitedFrame(value, camera.readNoise) : Number.NaN)),
    FAINT,
  );
  // Without read noise, or with a sky too faint to drown it, no length of a frame is better than another.
  const frameS = asked ?? ('absent' in skyLimitedFrameS ? 0 : skyLimitedFrameS.value);
  const openFrameS = asked ?? skyLimitedFrame(openSky, camera.readNoise);
  const endless = (length: number): number => (length > 0 ? length : Number.POSITIVE_INFINITY);
  const { fromNm, toNm } = options.range ?? { fromNm: 400, toNm: 700 };
  const share = passed.map((value, k) => value / meanOver((channel) => open[channel]![k]!));
  return {
    skyTransmittance: summaryOf(share, FAINT),
    effectiveWidthNm: summaryOf(
      share.map((value) => value * (toNm - fromNm)),
      FAINT,
    ),
    skyPerPixel: summaryOf(passed, FAINT),
    lines: withGroups(
      targets.map((target, line) => ({
        target,
        arriving:
          linePhotons(target.brightness, target.wavelengthNm) *
          airTransmission(target.wavelengthNm, airmass, aerosol) *
          efficiency.read(target.wavelengthNm) *
          grasp,
        strength: target.strength ?? Float64Array.of(1),
        transmittance: trials.transmittance[line]!,
      })),
    ).map(({ target, arriving, strength, transmittance }) =>
      lineOnSky(target, {
        camera,
        arriving,
        strength,
        transmittance,
        background,
        sameSky,
        open,
        frameS: endless(frameS),
        openFrameS: endless(openFrameS),
        goal,
      }),
    ),
    skyLimitedFrameS,
    frameS,
    openFrameS,
    unseenNm: trials.unseenNm,
  };
}

/** A line, or several as one, with its light and the trials of its transmittance. */
interface Arriving {
  readonly target: TargetLine;
  readonly arriving: number;
  readonly strength: Float64Array;
  readonly transmittance: Float64Array;
}

/** Lines, and after them each group of several as one line: its light is the sum, its transmittance their mean by light. */
function withGroups(lines: readonly Arriving[]): Arriving[] {
  const groups = [...new Set(lines.flatMap(({ target }) => target.group ?? []))];
  const together = groups.flatMap((group): Arriving[] => {
    const own = lines.filter(({ target }) => target.group === group);
    if (own.length < 2) return [];
    const arriving = own.reduce((sum, one) => sum + one.arriving, 0);
    const weighted = (of: (one: Arriving) => number): number =>
      own.reduce((sum, one) => sum + one.arriving * of(one), 0) / arriving;
    const [first] = own;
    const wavelengthNm = weighted(({ target }) => target.wavelengthNm);
    const strengthAt = (one: Arriving, k: number): number => one.strength[k % one.strength.length]!;
    const count = Math.max(...own.map(({ strength }) => strength.length));
    const strength = Float64Array.from({ length: count }, (_, k) => weighted((one) => strengthAt(one, k)));
    return [
      {
        target: { name: group, wavelengthNm, brightness: first!.target.brightness },
        arriving,
        strength,
        transmittance: first!.transmittance.map(
          (_, k) => weighted((one) => strengthAt(one, k) * one.transmittance[k]!) / strength[k % count]!,
        ),
      },
    ];
  });
  return [...lines, ...together];
}
