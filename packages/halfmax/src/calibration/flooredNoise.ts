import { quantile } from '../numeric/index.js';
import type { LampSpectrum } from './types.js';

/**
 * Noise per pixel, never below what the quiet half of the spectrum shows.
 *
 * @param spectrum - counts per ms, uncertainty and mask
 * @returns standard uncertainty of each pixel, counts per ms
 */
export function flooredNoise(spectrum: LampSpectrum): Float64Array {
  const { countsPerMs: counts, standardUncertainty, masked } = spectrum;
  const differences: number[] = [];
  for (let i = 2; i < counts.length; i++) {
    if (masked[i] || masked[i - 1] || masked[i - 2]) continue;
    differences.push(Math.abs(counts[i]! - 2 * counts[i - 1]! + counts[i - 2]!));
  }
  // Second differences of white noise have a deviation of sqrt(6); their lower third is free of lines.
  const floor = differences.length === 0 ? 0 : quantile(differences, 0.33) / 0.4261 / Math.sqrt(6);
  return standardUncertainty.map((u) => Math.max(u, floor, Number.MIN_VALUE));
}
