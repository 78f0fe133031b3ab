import { BadInputError, type InputProblem } from '../errors.js';
import { darkAt } from './darkAt.js';
import { entryName, entryProblem } from './entryName.js';
import { findUnlit } from './findUnlit.js';
import { type OpenedEntry, openEntry } from './openEntry.js';
import type { DarkStack } from './stackDarks.js';
import type { Detector, FrameEntry, RejectedScan, Warning } from './types.js';

/** The entries that show light, dark taken off. */
export interface OpenedLight {
  readonly opened: readonly OpenedEntry[];
  readonly rejected: readonly RejectedScan[];
  readonly warnings: readonly Warning[];
}

/**
 * Takes the dark off every entry that is not dark, and leaves out the frames that show no light.
 *
 * @param entries - the session's frames
 * @param stacks - its darks, at least one
 * @param detector - saturation and linearity
 * @returns the entries in their order, frames left out, warnings of darks of other exposures
 * @throws {BadInputError} an entry in which no frame shows light, or all of it is saturated
 */
export function openLight(
  entries: readonly FrameEntry[],
  stacks: readonly DarkStack[],
  detector: Detector,
): OpenedLight {
  const problems: InputProblem[] = [];
  const warnings: Warning[] = [];
  const rejected: RejectedScan[] = [];
  const opened: OpenedEntry[] = [];
  for (const entry of entries) {
    if (entry.role === 'dark') continue;
    const dark = darkAt(stacks, entry.exposureMs, 0);
    if (dark.warning !== null) warnings.push({ where: entryName(entry), what: dark.warning });
    const whole = openEntry(entry, dark, detector);
    const found = findUnlit(
      whole.frames.map((frame) => frame.counts),
      stacks[0]!.variance ?? whole.pixelVariance,
      typical(dark.standardUncertainty),
    );
    if (whole.frames.every((frame) => frame.masked.every((value) => value === 1))) {
      const fix = 'take the scan again with a shorter exposure, or remove the entry';
      problems.push(entryProblem(entry, 'every pixel of every frame is saturated', fix));
      continue;
    }
    if (found.nothing) {
      const fix = 'take the scan again with the lamp on, or remove the entry';
      problems.push(entryProblem(entry, 'no frame shows light above the dark', fix));
      continue;
    }
    for (const [k, reason] of found.unlit) {
      const { file, column } = whole.frames[k]!.scan;
      rejected.push({ file, column, reason });
    }
    opened.push({ ...whole, frames: whole.frames.filter((_, k) => !found.unlit.has(k)) });
  }
  if (problems.length > 0) throw new BadInputError(problems);
  return { opened, rejected, warnings };
}

/** Root mean square over the defined pixels. */
function typical(values: Float64Array): number {
  let sum = 0;
  let n = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    sum += value * value;
    n++;
  }
  return n === 0 ? 0 : Math.sqrt(sum / n);
}
