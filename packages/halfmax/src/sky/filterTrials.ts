import {
  type Beam,
  beamRays,
  curveInBeam,
  type IndexRange,
  lineReader,
  rangeDistribution,
  raysBetween,
  requireIndex,
  type StretchTrials,
  trialOverlay,
} from '../beam/index.js';
import { type Absent, absent, type Curve } from '../metrics/index.js';
import { splitStream } from '../numeric/index.js';
import { filterAngleTable } from '../reference/index.js';
import { propagate, type UncertainInput } from '../uncertainty/index.js';
import { backgroundNoise, backgroundTable, readBackground } from './backgroundTable.js';
import { skyWeights } from './skyWeights.js';
import type { Sky } from './types.js';
import type { DetectedParts } from './uncertainSky.js';

/** What a filter's curve leaves open, and how it is used. */
export interface FilterTrialOptions {
  /** The beam at the filter. @default parallel light along the normal */
  readonly beam?: Beam;
  readonly measuredIn?: Beam;
  /** @default the range of the table filter-angle */
  readonly effectiveIndex?: IndexRange;
  /** Standard uncertainty of the wavelength scale, nm. @default 0 */
  readonly scaleNm?: number;
  /** Relative standard uncertainty common to all transmittances. @default 0 */
  readonly level?: number;
  /** Stretches whose trials are given, such as a band with the line spread taken out; left out: noise alone. */
  readonly trials?: readonly StretchTrials[];
  /** What the camera sees at all, nm. @default 400 to 700 */
  readonly range?: { readonly fromNm: number; readonly toNm: number };
  readonly seed: number;
  /** Trials of the Monte Carlo. @default 2000 */
  readonly draws?: number;
}

/** Trials of a filter: the k-th value of every array is of the same trial. */
export interface FilterTrials {
  /** Transmittance in the beam, a line each. */
  readonly transmittance: readonly Float64Array[];
  /** Electrons or photons of each sky behind the filter, per second, square metre and square arcsecond. */
  readonly background: readonly Float64Array[];
  /** The same under the sky as stated: what the curve alone leaves open. */
  readonly sameSky: readonly Float64Array[];
  /** The same without a filter over the whole range, and its value under the sky as stated. */
  readonly open: readonly Float64Array[];
  readonly openSameSky: readonly number[];
  /** Part of the range that the curve does not cover, nm: taken as dark. */
  readonly unseenNm: number;
}

/** Indices at which the background is worked out; between them it is taken as straight. */
const INDICES = 5;
const DRAWS = 2000;
const VISIBLE = { fromNm: 400, toNm: 700 };

/**
 * Trials of what a filter passes of lines and of skies, with noise, scale, level and effective index of the curve.
 *
 * @param curve - as measured
 * @param linesNm - lines inside the curve, air, nm
 * @param skies - as a camera detects them, with trials of their strength: one, or one for each channel
 * @param options - beam, uncertainties, trials
 * @returns trials, or why there are none: a line that the beam moves off the scan
 * @throws {RangeError} a value out of range, or a sky that does not cover the range
 * Source: Monte Carlo of JCGM 101:2008. The noise of a line's pixels and that of the background are taken as
 * independent: a line stands on a few of the many pixels that a background is summed over. Trials of a stretch move its
 * lines alone: they share out the light of a band, whose sum is known far better. The k-th trial is under the k-th
 * strength of the sky (from the start again where those are fewer), so that filters under one sky share it.
 */
export function filterTrials(
  curve: Curve,
  linesNm: readonly number[],
  skies: readonly DetectedParts[],
  options: FilterTrialOptions,
): FilterTrials | Absent {
  const { beam = { fNumber: Number.POSITIVE_INFINITY }, measuredIn, scaleNm = 0, level = 0 } = options;
  const range = options.range ?? VISIBLE;
  if (!(range.fromNm > 0 && range.fromNm < range.toNm))
    throw new RangeError(`filterTrials requires a range, got ${range.fromNm} to ${range.toNm} nm`);
  const [low, high] = requireIndex(
    'filterTrials',
    options.effectiveIndex ?? (filterAngleTable.effectiveIndex as readonly [number, number]),
  );
  const direct = beamRays(beam);
  const rays = measuredIn === undefined ? direct : raysBetween(direct, beamRays(measuredIn)).rays;
  const readers = linesNm.map((line) => lineReader(curve, line, rays, low, 6 * scaleNm));
  const off = readers.indexOf(null);
  if (off >= 0) {
    return absent(`the beam would need the curve beyond its end to see ${linesNm[off]!.toFixed(2)} nm`);
  }

  const count = low === high ? 1 : INDICES;
  const seen = Array.from({ length: count }, (_, k) => {
    const effectiveIndex = count === 1 ? low : low + ((high - low) * k) / (count - 1);
    return curveInBeam(curve, beam, { effectiveIndex, ...(measuredIn === undefined ? {} : { measuredIn }) });
  });
  const [nearest, farthest] = [seen[0]!, seen[count - 1]!].map((one) => one.wavelengthNm);
  const covered =
    Math.min(range.toNm, farthest![farthest!.length - 1]!, nearest![nearest!.length - 1]!) -
    Math.max(range.fromNm, nearest![0]!, farthest![0]!);
  const step = Math.max(scaleNm, 0);
  const parts = skies.flatMap(({ trials }, channel) => trials.map((part) => ({ ...part, channel })));
  const tables = parts.map(({ sky }) => backgroundTable(seen, sky, range, step));
  // The noise of a pixel is one for all parts of the light that it passes: it is told of their sum.
  const noise = skies.map(({ sky }) => backgroundNoise(curve, sky, range));
  const openOf = (sky: Sky): number =>
    skyWeights(Float64Array.of(range.fromNm, range.toNm), sky, range).reduce((a, b) => a + b, 0);

  const pixels = readers.map((reader) => reader!.pixels);
  const offsets = pixels.map((_, k) =>
    pixels.slice(0, k).reduce((sum, one) => sum + one.transmittance.length, 0),
  );
  const shared = pixels.reduce((sum, one) => sum + one.transmittance.length, 0);
  const overlays = pixels.map((one) => trialOverlay(curve, one, options.trials ?? []));
  const drawn = pixels.map((one) => new Float64Array(one.transmittance.length));
  const inputs: UncertainInput[] = [
    ...pixels.map(
      (one): UncertainInput => ({
        source: 'noise',
        distribution: {
          kind: 'independentNormal',
          mean: one.transmittance,
          standardUncertainty: one.standardUncertainty,
        },
      }),
    ),
    {
      source: 'effective index',
      distribution: rangeDistribution(low, high),
    },
    { source: 'scale', distribution: { kind: 'normal', mean: 0, standardUncertainty: scaleNm } },
    { source: 'level', distribution: { kind: 'normal', mean: 0, standardUncertainty: level } },
    {
      source: 'noise of the background',
      distribution: { kind: 'normal', mean: 0, standardUncertainty: 1 },
    },
    ...(overlays.every((overlay) => overlay === null)
      ? []
      : [{ source: 'shape', distribution: { kind: 'rectangular', lower: 0, upper: 1 } } as const]),
  ];
  const model = (x: Float64Array, out: Float64Array): void => {
    const index = x[shared]!;
    const shift = x[shared + 1]!;
    const scale = 1 + x[shared + 2]!;
    readers.forEach((reader, k) => {
      const from = offsets[k]!;
      const values = drawn[k]!;
      values.set(x.subarray(from, from + values.length));
      overlays[k]?.(values, x[shared + 4]!);
      out[k] = scale * reader!.read(values, linesNm[k]! - shift, rays, index);
    });
    const place = count === 1 ? 0 : ((index - low) / (high - low)) * (count - 1);
    tables.forEach((table, part) => {
      out[readers.length + part] = scale * readBackground(table, place, shift);
    });
    skies.forEach((_, channel) => {
      out[readers.length + tables.length + channel] = scale * noise[channel]! * x[shared + 3]!;
    });
  };
  const { samples } = propagate(model, inputs, {
    outputs: linesNm.length + tables.length + skies.length,
    streams: (block) => splitStream(options.seed, block),
    draws: options.draws ?? DRAWS,
    allowedFailures: 0.5,
  });
  const behind = samples.slice(linesNm.length, linesNm.length + tables.length);
  const noises = samples.slice(linesNm.length + tables.length);
  const draws = noises[0]?.length ?? 0;
  const openOfPart = parts.map(({ sky }) => openOf(sky));
  /** Sum over the parts of a channel: `of` gives a part's light in trial k, at its strength or as stated. */
  const sum = (channel: number, k: number, of: (p: number) => number, isDrawn: boolean): number =>
    parts.reduce((total, part, p) => {
      if (part.channel !== channel) return total;
      return total + of(p) * (isDrawn ? part.factors[k % part.factors.length]! : 1);
    }, 0);
  const each = (of: (channel: number, k: number) => number): Float64Array[] =>
    skies.map((_, channel) => Float64Array.from({ length: draws }, (_, k) => of(channel, k)));
  const open = each((channel, k) => sum(channel, k, (p) => openOfPart[p]!, true));
  const openSameSky = skies.map(({ sky }) => openOf(sky));
  return {
    transmittance: samples.slice(0, linesNm.length),
    background: each(
      (channel, k) =>
        sum(channel, k, (p) => behind[p]![k]!, true) +
        // The noise goes with the light that makes it up.
        (noises[channel]![k]! * open[channel]![k]!) / openSameSky[channel]!,
    ),
    sameSky: each((channel, k) => sum(channel, k, (p) => behind[p]![k]!, false) + noises[channel]![k]!),
    open,
    openSameSky,
    unseenNm: Math.max(0, range.toNm - range.fromNm - Math.max(0, covered)),
  };
}
