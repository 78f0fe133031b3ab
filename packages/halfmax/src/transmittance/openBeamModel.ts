import {
  type CleanSpectrum,
  type JoinedExposures,
  joinExposures,
  type LevelRatio,
  levelRatio,
} from '../frames/index.js';

/** One scan of the open beam against the shape common to all. */
export interface OpenScan extends LevelRatio {
  /** Mean time of its entries; null where one has none. */
  readonly timeMs: number | null;
  readonly countsPerMs: Float64Array;
  readonly noisePerMs: Float64Array;
  readonly masked: Uint8Array;
}

/** The open beam: one shape, and a level along the pixels for each scan. */
export interface OpenBeam {
  readonly scans: readonly OpenScan[];
  /** Rate at level 1, counts per ms. */
  readonly countsPerMs: Float64Array;
  readonly noisePerMs: Float64Array;
  readonly darkPerMs: Float64Array;
  /** Of the dark, what all pixels share with every other spectrum: standard uncertainty with its sign. */
  readonly sharedPerMs: Float64Array;
  readonly masked: Uint8Array;
  /** Counts above dark in the exposure used, mean over the scans. */
  readonly counts: Float64Array;
  /** Exposure used in all scans, ms; 0 where the scans differ. */
  readonly exposureMs: Float64Array;
  /** True where every scan is the shape times its level, within noise. */
  readonly consistent: boolean;
}

/** Passes of shape and levels in turn, at most, and the change at which they have settled. */
const passes = 6;
const settled = 1e-9;
/** A millionth of the light stands in for noise where there is none. */
const leastRelative = 1e-6;
/** Chi-squared per pixel beyond which the scans have not one shape: the noise may be off by a tenth. */
const shapeLimit = 1.2;

/**
 * The open beam as one shape along the pixels times a level for every scan, the level a straight line along the
 * pixels: a lamp that changes in brightness and slowly in colour. The shape is the weighted mean of all scans, each
 * divided by its level, and so less noisy than any of them.
 *
 * @param scans - entries of the open beam by scan, at least one
 * @returns shape, levels about 1, and whether they describe the scans
 */
export function openBeamModel(scans: readonly (readonly CleanSpectrum[])[]): OpenBeam {
  const joined = scans.map(joinExposures);
  let levels: LevelRatio[] = joined.map(() => ({ level: 1, tilt: 0 }));
  let mean = meanOverScans(joined, levels);
  for (let pass = 0; pass < passes && joined.length > 1; pass++) {
    const before = levels;
    levels = joined.map((scan) => levelRatio(scan.countsPerMs, mean.shape, weightsOf(scan, mean.shape)));
    mean = meanOverScans(joined, levels);
    if (levels.every((one, s) => isSettled(one, before[s]!))) break;
  }
  const { shape, noisePerMs, darkPerMs, sharedPerMs, masked } = mean;
  return {
    scans: joined.map((scan, s) => ({
      ...levels[s]!,
      timeMs: meanTime(scans[s]!),
      countsPerMs: scan.countsPerMs,
      noisePerMs: scan.noisePerMs,
      masked: scan.masked,
    })),
    countsPerMs: shape,
    noisePerMs,
    darkPerMs,
    sharedPerMs,
    masked,
    counts: meanOf(joined.map((scan) => scan.counts)),
    exposureMs: Float64Array.from(shape, (_, i) => {
      const first = joined[0]!.exposureMs[i]!;
      return joined.every((scan) => scan.exposureMs[i] === first) ? first : 0;
    }),
    consistent: joined.every((scan, s) => isConsistent(scan, shape, noisePerMs, levels[s]!)),
  };
}

function isSettled(one: LevelRatio, before: LevelRatio): boolean {
  return Math.abs(one.level - before.level) < settled && Math.abs(one.tilt - before.tilt) < settled;
}

function weightsOf(scan: JoinedExposures, shape: Float64Array): Float64Array {
  const weights = new Float64Array(shape.length);
  for (let i = 0; i < weights.length; i++) {
    if (scan.masked[i] === 1) continue;
    weights[i] = 1 / (scan.noisePerMs[i]! ** 2 + (leastRelative * shape[i]!) ** 2 + Number.MIN_VALUE);
  }
  return weights;
}

function meanOverScans(
  joined: readonly JoinedExposures[],
  levels: readonly LevelRatio[],
): Pick<OpenBeam, 'noisePerMs' | 'darkPerMs' | 'sharedPerMs' | 'masked'> & { shape: Float64Array } {
  const pixels = joined[0]!.countsPerMs.length;
  const sum = new Float64Array(pixels);
  const shape = new Float64Array(pixels);
  const noisePerMs = new Float64Array(pixels);
  const darkPerMs = new Float64Array(pixels);
  const sharedPerMs = new Float64Array(pixels);
  const masked = new Uint8Array(pixels);
  joined.forEach((scan, s) => {
    const { level, tilt } = levels[s]!;
    for (let i = 0; i < pixels; i++) {
      if (scan.masked[i] === 1) continue;
      const at = level + tilt * ((2 * i) / Math.max(1, pixels - 1) - 1);
      const rate = scan.countsPerMs[i]! / at;
      const own = scan.noisePerMs[i]! / at;
      const w = 1 / (own * own + (leastRelative * rate) ** 2 + Number.MIN_VALUE);
      sum[i] = sum[i]! + w;
      shape[i] = shape[i]! + w * rate;
      noisePerMs[i] = noisePerMs[i]! + (w * own) ** 2;
      darkPerMs[i] = darkPerMs[i]! + (w * scan.darkPerMs[i]!) / at;
      sharedPerMs[i] = sharedPerMs[i]! + (w * scan.sharedPerMs[i]!) / at;
    }
  });
  for (let i = 0; i < pixels; i++) {
    if (sum[i] === 0) {
      masked[i] = 1;
      continue;
    }
    shape[i] = shape[i]! / sum[i]!;
    noisePerMs[i] = Math.sqrt(noisePerMs[i]!) / sum[i]!;
    darkPerMs[i] = darkPerMs[i]! / sum[i]!;
    sharedPerMs[i] = sharedPerMs[i]! / sum[i]!;
  }
  return { shape, noisePerMs, darkPerMs, sharedPerMs, masked };
}

function isConsistent(
  scan: { countsPerMs: Float64Array; noisePerMs: Float64Array; masked: Uint8Array },
  shape: Float64Array,
  shapeNoise: Float64Array,
  { level, tilt }: LevelRatio,
): boolean {
  let chiSquared = 0;
  let values = 0;
  const pixels = shape.length;
  for (let i = 0; i < pixels; i++) {
    if (scan.masked[i] === 1) continue;
    const at = level + tilt * ((2 * i) / Math.max(1, pixels - 1) - 1);
    // the scan is itself part of the shape
    const own = scan.noisePerMs[i]! ** 2 - (at * shapeNoise[i]!) ** 2;
    const variance = Math.max(own, (leastRelative * shape[i]!) ** 2 + Number.MIN_VALUE);
    // the only scan that sees a pixel is the shape there
    if (own < 0.01 * scan.noisePerMs[i]! ** 2) continue;
    chiSquared += (scan.countsPerMs[i]! - at * shape[i]!) ** 2 / variance;
    values++;
  }
  return values < 10 || chiSquared / values < shapeLimit + 5 * Math.sqrt(2 / values);
}

function meanTime(scan: readonly CleanSpectrum[]): number | null {
  let sum = 0;
  for (const spectrum of scan) {
    if (spectrum.takenAtMs === null) return null;
    sum += spectrum.takenAtMs;
  }
  return sum / scan.length;
}

function meanOf(arrays: readonly Float64Array[]): Float64Array {
  return Float64Array.from(arrays[0]!, (_, i) => {
    let sum = 0;
    for (const array of arrays) sum += array[i]!;
    return sum / arrays.length;
  });
}
