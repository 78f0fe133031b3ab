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
import { backgroundTable, readBackground } from './backgroundTable.js';
import { skyWeights } from './skyWeights.js';
import type { Sky } from './types.js';

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
  /** The same without a filter over the whole range. */
  readonly open: readonly number[];
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
 * @param skies - as a camera detects them: one, or one for each channel
 * @param options - beam, uncertainties, trials
 * @returns trials, or why there are none: a line that the beam moves off the scan
 * @throws {RangeError} a value out of range, or a sky that does not cover the range
 * Source: Monte Carlo of JCGM 101:2008. The noise of a line's pixels and that of the background are taken as
 * independent: a line stands on a few of the many pixels that a background is summed over. Trials of a stretch move its
 * lines alone: they share out the light of a band, whose sum is known far better.
 */
export function filterTrials(
  curve: Curve,
  linesNm: readonly number[],
  skies: readonly Sky[],
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
  const tables = skies.map((sky) => backgroundTable(curve, seen, sky, range, step));
  const open = skies.map((sky) =>
    skyWeights(Float64Array.of(range.fromNm, range.toNm), sky, range).reduce((a, b) => a + b, 0),
  );

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
    tables.forEach((table, channel) => {
      out[readers.length + channel] = scale * readBackground(table, place, shift, x[shared + 3]!);
    });
  };
  const { samples } = propagate(model, inputs, {
    outputs: linesNm.length + skies.length,
    streams: (block) => splitStream(options.seed, block),
    draws: options.draws ?? DRAWS,
    allowedFailures: 0.5,
  });
  return {
    transmittance: samples.slice(0, linesNm.length),
    background: samples.slice(linesNm.length),
    open,
    unseenNm: Math.max(0, range.toNm - range.fromNm - Math.max(0, covered)),
  };
}
