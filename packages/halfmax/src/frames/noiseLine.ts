import { median } from '../numeric/median.js';
import { medianAbsoluteDeviation } from '../numeric/medianAbsoluteDeviation.js';
import type { LevelPoint } from './levelSamples.js';
import type { NoiseModel } from './types.js';

/** A noise model with its own uncertainty. */
export interface NoiseEstimate extends NoiseModel {
  readonly readVarianceUncertainty: number;
  readonly gainUncertainty: number;
}

/** The same before it is known how it was found. */
export type NoiseLine = Omit<NoiseEstimate, 'method'>;

/** Values needed for an estimate: the variance of 100 normal values is known to 14 %. */
const enoughValues = 100;
/** The gain counts as found when its uncertainty is below a third of it. */
const foundShare = 1 / 3;

/**
 * Weighted straight line of variance against level; weights follow from the line itself, points far off it are left
 * out.
 *
 * @param light - points with light
 * @param dark - the point at no light, or null
 * @returns the line, or null where the points are too few or do not show one
 */
export function noiseLine(light: readonly LevelPoint[], dark: LevelPoint | null): NoiseLine | null {
  if (light.reduce((sum, point) => sum + point.freedom, 0) < enoughValues) return null;
  const points = dark === null ? light : [...light, dark];
  const top = Math.max(...points.map((point) => point.level));
  if (!(top > 0)) return null;
  if (points.every((point) => point.variance <= 1e-18 * top * top)) {
    return { readVariance: 0, gain: 0, readVarianceUncertainty: 0, gainUncertainty: 0 };
  }
  const smallest = 1e-6 * median(points.map((point) => point.variance)) + Number.MIN_VALUE;
  // the first weights come from medians, which slices far off the line cannot pull
  const dim = points.filter((point) => point.level <= 0.01 * top).map((point) => point.variance);
  const start = dim.length > 0 ? median(dim) : Math.min(...points.map((point) => point.variance));
  const bright = points.filter((point) => point.level > 0.05 * top);
  const slope = Math.max(0, median(bright.map((point) => (point.variance - start) / point.level)));
  let fitted = points.map((point) => Math.max(start + slope * point.level, smallest));
  let kept = points.map(() => true);
  let line: NoiseLine | null = null;
  for (let pass = 0; pass < 8; pass++) {
    line = weightedLine(points, fitted, kept);
    if (line === null) return null;
    const { readVariance, gain } = line;
    fitted = points.map((point) => Math.max(readVariance + gain * point.level, smallest));
    const pulls = points.map((point, i) => (point.variance / fitted[i]! - 1) / Math.sqrt(2 / point.freedom));
    const spread = Math.max(1, medianAbsoluteDeviation(pulls.filter((_, i) => points[i]!.freedom > 0)));
    kept = pulls.map((pull) => Math.abs(pull) < 5 * spread);
  }
  return line !== null && line.gain > 0 && line.gainUncertainty < foundShare * line.gain ? line : null;
}

function weightedLine(
  points: readonly LevelPoint[],
  fitted: readonly number[],
  kept: readonly boolean[],
): NoiseLine | null {
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  const weights = points.map((point, i) => (kept[i]! ? point.freedom / (2 * fitted[i]! ** 2) : 0));
  points.forEach((point, i) => {
    sum += weights[i]!;
    sumX += weights[i]! * point.level;
    sumY += weights[i]! * point.variance;
  });
  if (!(sum > 0)) return null;
  const meanX = sumX / sum;
  const meanY = sumY / sum;
  let sumXX = 0;
  let sumXY = 0;
  points.forEach((point, i) => {
    sumXX += weights[i]! * (point.level - meanX) ** 2;
    sumXY += weights[i]! * (point.level - meanX) * (point.variance - meanY);
  });
  if (!(sumXX > 0)) return null;
  const gain = sumXY / sumXX;
  const readVariance = meanY - gain * meanX;
  // scatter of the points beyond their own weights widens the uncertainty
  let squares = 0;
  let used = 0;
  points.forEach((point, i) => {
    squares += weights[i]! * (point.variance - readVariance - gain * point.level) ** 2;
    if (weights[i]! > 0) used++;
  });
  const widen = used > 3 ? Math.max(1, Math.sqrt(squares / (used - 2))) : 1;
  if (readVariance >= 0) {
    return {
      readVariance,
      gain,
      readVarianceUncertainty: widen * Math.sqrt(1 / sum + meanX ** 2 / sumXX),
      gainUncertainty: widen / Math.sqrt(sumXX),
    };
  }
  // a negative read variance has no meaning: the line through the origin
  let originXX = 0;
  let originXY = 0;
  points.forEach((point, i) => {
    originXX += weights[i]! * point.level ** 2;
    originXY += weights[i]! * point.level * point.variance;
  });
  return {
    readVariance: 0,
    gain: originXY / originXX,
    readVarianceUncertainty: widen * Math.sqrt(1 / sum + meanX ** 2 / sumXX),
    gainUncertainty: widen / Math.sqrt(originXX),
  };
}
