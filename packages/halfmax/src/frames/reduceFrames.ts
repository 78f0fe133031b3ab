import { BadInputError, type InputProblem } from '../errors.js';
import { checkDarks } from './checkDarks.js';
import { compareExposures } from './compareExposures.js';
import { type DarkLevel, darkAt } from './darkAt.js';
import { type DarkNoise, estimateNoise, type FrameGroup, type NoiseEstimate } from './estimateNoise.js';
import { findUnlit } from './findUnlit.js';
import { inspectFrames } from './inspectFrames.js';
import { type FlickerEntry, lampFlicker } from './lampFlicker.js';
import { type MeanSpectrum, meanSpectrum } from './meanSpectrum.js';
import { type OpenedEntry, openEntry } from './openEntry.js';
import { resolutionVariance } from './resolutionVariance.js';
import { type DarkStack, stackDarks } from './stackDarks.js';
import type { Detector, FrameEntry, ReducedFrames, RejectedScan, Warning } from './types.js';
import { percent, plainNumber } from './wording.js';

/** Scatter between frames beyond this multiple of the expected is reported. */
const reportedExcess = 1.5;

/**
 * Raw frames to clean spectra: linearity, dark, saturation, bad frames, mean and noise, one spectrum for every
 * entry that is not dark.
 *
 * Counts are averaged, never ratios. The noise of each pixel comes from one model of variance against level for the
 * whole session, scaled up for an entry whose frames scatter more than it allows; never from the few values of the
 * pixel itself.
 *
 * @param entries - the session's frames, raw counts, `detector.pixels` values each
 * @param detector - number of pixels, saturation, linearity
 * @returns spectra in the order of the entries, the noise model, the lamp's flicker, frames left out with reasons, and warnings
 * @throws {BadInputError} no darks; an entry in which no frame shows light, or all of it is saturated
 * @throws {RangeError} a frame of another length than the detector, or an entry without frames
 */
export function reduceFrames(entries: readonly FrameEntry[], detector: Detector): ReducedFrames {
  requireShapes(entries, detector);
  const stacks = stackDarks(entries, detector);
  if (stacks.length === 0) {
    throw new BadInputError([
      {
        where: 'session.json',
        place: 'frames',
        what: 'no entry has the role "dark"',
        fix: 'add frames with the light off, at the exposures of the scans',
      },
    ]);
  }
  const warnings: Warning[] = checkDarks(stacks);
  const rejected: RejectedScan[] = [];
  const problems: InputProblem[] = [];

  // dark taken off, unlit frames out
  const opened: OpenedEntry[] = [];
  for (const entry of entries) {
    if (entry.role === 'dark') continue;
    const dark = darkAt(stacks, entry.exposureMs, 0);
    if (dark.warning !== null) warnings.push({ where: nameOf(entry), what: dark.warning });
    const whole = openEntry(entry, dark, detector);
    const found = findUnlit(
      whole.frames.map((frame) => frame.counts),
      stacks[0]!.variance ?? whole.pixelVariance,
      typical(dark.standardUncertainty),
    );
    if (whole.frames.every((frame) => frame.masked.every((value) => value === 1))) {
      problems.push(
        problemOf(
          entry,
          'every pixel of every frame is saturated',
          'take the scan again with a shorter exposure, or remove the entry',
        ),
      );
      continue;
    }
    if (found.nothing) {
      problems.push(
        problemOf(
          entry,
          'no frame shows light above the dark',
          'take the scan again with the lamp on, or remove the entry',
        ),
      );
      continue;
    }
    for (const [k, reason] of found.unlit) reject(rejected, whole, k, reason);
    opened.push({ ...whole, frames: whole.frames.filter((_, k) => !found.unlit.has(k)) });
  }
  if (problems.length > 0) throw new BadInputError(problems);

  // bad frames out, by a first noise model; the final one from the good frames
  const rounding = resolutionVariance(entries);
  const darkNoises = stacks.flatMap(darkNoise);
  const first = estimateNoise(opened.map(groupOf), darkNoises, rounding);
  const good = opened.map((entry) => {
    const { warmCounts } = darkAt(stacks, entry.entry.exposureMs, 0);
    const found = inspectFrames(
      entry.frames.map((frame) => frame.compared),
      entry.entry.role,
      first,
      entry.excessVariance.map((value, i) => Math.max(value, first.gain * warmCounts[i]!)),
    );
    for (const [k, reason] of found.rejected) reject(rejected, entry, k, reason);
    for (const what of found.warnings) warnings.push({ where: nameOf(entry.entry), what });
    for (const [k, pixels] of found.hits) {
      warnings.push({
        where: entry.frames[k]!.scan.file,
        what: `struck by a particle at pixel ${pixels.slice(0, 8).join(', ')}${pixels.length > 8 ? ', ...' : ''}: those pixels of the frame are left out`,
      });
    }
    const frames = entry.frames.map((frame, k) => ({ ...frame, hits: found.hits.get(k) ?? [] }));
    return { ...entry, frames: frames.filter((_, k) => !found.rejected.has(k)) };
  });
  const noise = estimateNoise(good.map(groupOf), darkNoises, rounding);

  const means = good.map((entry) => {
    const dark: DarkLevel = darkAt(stacks, entry.entry.exposureMs, noise.readVariance, noise.gain);
    const mean = meanSpectrum(entry, dark, noise);
    if (mean.excess > reportedExcess) {
      warnings.push({
        where: nameOf(entry.entry),
        what: `the frames scatter ${plainNumber(mean.excess, 2)} times as much as their noise: uncertainty scaled up`,
      });
    }
    return mean;
  });
  const compared = compareExposures(
    means.map(({ spectrum, raw }) => ({
      ...spectrum,
      raw,
      uncertainty: spectrum.noise.map((value, i) => Math.hypot(value, spectrum.darkNoise[i]!)),
    })),
    detector.saturationCounts,
  );
  warnings.push(...compared.warnings);
  const spectra = means.map(({ spectrum, raw }) => {
    const limit = compared.softCounts ?? Number.POSITIVE_INFINITY;
    const masked = spectrum.masked.map((value, i) => (raw[i]! >= limit ? 1 : value));
    const keep = (values: Float64Array): Float64Array =>
      values.map((value, i) => (masked[i] === 1 ? 0 : value));
    return {
      ...spectrum,
      masked,
      counts: keep(spectrum.counts),
      noise: keep(spectrum.noise),
      darkNoise: keep(spectrum.darkNoise),
    };
  });
  spectra.forEach((spectrum, at) => {
    const { entry } = good[at]!;
    if (!spectrum.masked.every((value) => value === 1)) return;
    problems.push(
      problemOf(
        entry,
        'every pixel is saturated or undefined',
        'take the scan again with a shorter exposure, or remove the entry',
      ),
    );
  });
  if (problems.length > 0) throw new BadInputError(problems);
  const shining = good.flatMap((entry, at) =>
    entry.entry.role === 'lamp' ? [] : [flickerEntry(entry, means[at]!)],
  );
  return { spectra, noise: modelOf(noise), flicker: lampFlicker(shining, noise), rejected, warnings };
}

function flickerEntry(entry: OpenedEntry, { spectrum }: MeanSpectrum): FlickerEntry {
  return {
    frames: groupOf(entry).frames,
    places: entry.frames.map((frame) => entry.entry.scans.indexOf(frame.scan)),
    mean: spectrum.counts,
    masked: spectrum.masked,
  };
}

function modelOf(noise: NoiseEstimate): ReducedFrames['noise'] {
  const share = noise.gain > 0 ? `; gain known to ${percent(noise.gainUncertainty / noise.gain)}` : '';
  return { readVariance: noise.readVariance, gain: noise.gain, method: noise.method + share };
}

function requireShapes(entries: readonly FrameEntry[], detector: Detector): void {
  for (const entry of entries) {
    if (entry.scans.length === 0) {
      throw new RangeError(
        `reduceFrames requires at least 1 scan in each entry, got 0 in entry ${entry.index}`,
      );
    }
    for (const scan of entry.scans) {
      if (scan.counts.length !== detector.pixels) {
        throw new RangeError(
          `reduceFrames requires ${detector.pixels} pixels, got ${scan.counts.length} in ${scan.file}`,
        );
      }
    }
  }
}

function nameOf(entry: FrameEntry): string {
  const light = entry.filter ?? entry.lamp ?? entry.role;
  return `frames[${entry.index}] (${light}, ${plainNumber(entry.exposureMs)} ms)`;
}

function problemOf(entry: FrameEntry, what: string, fix: string): InputProblem {
  const files = [...new Set(entry.scans.map((scan) => scan.file))];
  return { where: files.join(', '), place: `frames[${entry.index}]`, what, fix };
}

function reject(rejected: RejectedScan[], entry: OpenedEntry, frame: number, reason: string): void {
  const { scan } = entry.frames[frame]!;
  rejected.push({ file: scan.file, column: scan.column, reason });
}

function groupOf(entry: OpenedEntry): FrameGroup {
  return {
    frames: entry.frames.map((frame) => {
      const counts = frame.counts.slice();
      for (let i = 0; i < counts.length; i++) if (frame.masked[i] === 1) counts[i] = Number.NaN;
      for (const i of frame.hits) counts[i] = Number.NaN;
      return counts;
    }),
    excessVariance: entry.excessVariance,
    smooth: entry.entry.role === 'open',
    lines: entry.entry.role === 'lamp',
  };
}

function darkNoise(stack: DarkStack): DarkNoise[] {
  if (stack.variance === null) return [];
  return [{ variance: stack.variance, degreesOfFreedom: (stack.scans.length - 1) * stack.counts.length }];
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
