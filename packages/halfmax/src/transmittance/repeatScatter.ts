import type { CleanSpectrum } from '../frames/index.js';

/** Scatter of repeated filtered scans. */
export interface RepeatScatter {
  /** Standard deviation of the level between scans beyond what noise gives, relative. */
  readonly relative: number;
  /** Scans compared. */
  readonly repeats: number;
}

/**
 * How much repeated scans of a filter at one exposure differ in level beyond noise: mounting, lamp, coupling.
 *
 * The level of each scan is the ratio of the sums of its counts and of the open beam's over the bright part of the
 * band (above half of its brightest transmittance).
 *
 * @param filtered - scans of one filter and one exposure
 * @param openCounts - what the open beam gives at the time and exposure of each, counts
 * @param transmittance - the curve, to find the bright part
 * @param usable - 1 where the curve has a number
 * @returns scatter, or null with fewer than two scans or no bright part
 */
export function repeatScatter(
  filtered: readonly CleanSpectrum[],
  openCounts: readonly Float64Array[],
  transmittance: Float64Array,
  usable: Uint8Array,
): RepeatScatter | null {
  if (filtered.length < 2) return null;
  let top = 0;
  const clear = (i: number): boolean =>
    usable[i] === 1 && filtered.every((spectrum) => spectrum.masked[i] === 0);
  for (let i = 0; i < transmittance.length; i++) if (clear(i)) top = Math.max(top, transmittance[i]!);
  if (top === 0) return null;
  const levels: number[] = [];
  let expected = 0;
  filtered.forEach((spectrum, k) => {
    let counts = 0;
    let open = 0;
    let variance = 0;
    for (let i = 0; i < transmittance.length; i++) {
      if (!(transmittance[i]! > top / 2) || !clear(i)) continue;
      counts += spectrum.counts[i]!;
      open += openCounts[k]![i]!;
      variance += spectrum.noise[i]! ** 2;
    }
    levels.push(counts / open);
    expected += variance / counts ** 2 / filtered.length;
  });
  const mean = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  const variance = levels.reduce((sum, level) => sum + (level / mean - 1) ** 2, 0) / (levels.length - 1);
  return { relative: Math.sqrt(Math.max(0, variance - expected)), repeats: levels.length };
}
