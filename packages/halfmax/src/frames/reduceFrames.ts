import { BadInputError, refuse } from '../errors.js';
import { checkDarks } from './checkDarks.js';
import { checkLinearity } from './checkLinearity.js';
import { darkAt } from './darkAt.js';
import { dropBadFrames } from './dropBadFrames.js';
import { entryName, entryProblem } from './entryName.js';
import { type DarkNoise, estimateNoise } from './estimateNoise.js';
import { findCeiling } from './findCeiling.js';
import { frameGroup } from './frameGroup.js';
import { keepAgreeing } from './keepAgreeing.js';
import { type FlickerEntry, lampFlicker } from './lampFlicker.js';
import { type MeanSpectrum, meanSpectrum } from './meanSpectrum.js';
import type { NoiseEstimate } from './noiseLine.js';
import type { OpenedEntry } from './openEntry.js';
import { openLight } from './openLight.js';
import { resolutionVariance } from './resolutionVariance.js';
import { type DarkStack, stackDarks } from './stackDarks.js';
import type { Detector, FrameEntry, ReducedFrames, Warning } from './types.js';
import { percent, plainNumber } from './wording.js';

/** Scatter between frames beyond this multiple of the expected is reported. */
const reportedExcess = 1.5;

/**
 * Raw frames to clean spectra: linearity, dark, saturation, bad frames, mean and noise, one spectrum for every
 * entry that is not dark.
 *
 * Counts are averaged, never ratios. The noise of each pixel comes from one model of variance against level for the
 * whole session, scaled up for an entry whose frames scatter more than it allows; never from the few values of the
 * pixel itself. Where the frames show that the converter clips below the saturation stated, that level is used.
 *
 * @param entries - the session's frames, raw counts, `detector.pixels` values each
 * @param detector - number of pixels, saturation, linearity
 * @returns spectra in the order of the entries (an exposure that contradicts a shorter one is left out), the noise model, the lamp's flicker, frames left out with reasons, and warnings
 * @throws {BadInputError} no darks; an entry in which no frame shows light, or all of it is saturated; a linearity
 *   polynomial that turns back within the counts used
 * @throws {RangeError} a frame of another length than the detector, or an entry without frames
 */
export function reduceFrames(entries: readonly FrameEntry[], detector: Detector): ReducedFrames {
  requireShapes(entries, detector);
  if (!entries.some((entry) => entry.role === 'dark')) {
    const fix = 'add frames with the light off, at the exposures of the scans';
    refuse('session.json', 'frames', 'no entry has the role "dark"', fix);
  }
  const ceiling = findCeiling(entries, detector.saturationCounts);
  const used = ceiling === null ? detector : { ...detector, saturationCounts: ceiling.counts };
  checkLinearity(entries, used);
  const stacks = stackDarks(entries, used);
  const warnings: Warning[] = checkDarks(stacks);
  if (ceiling !== null) warnings.push({ where: 'session.json', what: ceiling.what });

  const light = openLight(entries, stacks, used);
  // bad frames out, by a first noise model; the final one from the good frames
  const rounding = resolutionVariance(entries);
  const darkNoises = stacks.flatMap(darkNoise);
  const first = estimateNoise(light.opened.map(frameGroup), darkNoises, rounding);
  const { good, ...left } = dropBadFrames(light.opened, stacks, first);
  warnings.push(...light.warnings, ...left.warnings);
  const noise = estimateNoise(good.map(frameGroup), darkNoises, rounding);

  const means = good.map((entry) => {
    const mean = meanSpectrum(
      entry,
      darkAt(stacks, entry.entry.exposureMs, noise.readVariance, noise.gain),
      noise,
    );
    if (mean.excess > reportedExcess) {
      warnings.push({
        where: entryName(entry.entry),
        what: `the frames scatter ${plainNumber(mean.excess, 2)} times as much as their noise: uncertainty scaled up`,
      });
    }
    return mean;
  });
  const kept = keepAgreeing(means, used.saturationCounts);
  warnings.push(...kept.warnings);
  const problems = kept.spectra.flatMap((spectrum) =>
    spectrum.masked.every((value) => value === 1)
      ? [
          entryProblem(
            entries.find((entry) => entry.index === spectrum.entry)!,
            'every pixel is saturated or undefined',
            'take the scan again with a shorter exposure, or remove the entry',
          ),
        ]
      : [],
  );
  if (problems.length > 0) throw new BadInputError(problems);
  const shining = good.flatMap((entry, at) =>
    entry.entry.role === 'lamp' ? [] : [flickerEntry(entry, means[at]!)],
  );
  return {
    spectra: kept.spectra,
    noise: modelOf(noise),
    flicker: lampFlicker(shining, noise),
    rejected: [...light.rejected, ...left.rejected],
    warnings,
  };
}

function flickerEntry(entry: OpenedEntry, { spectrum }: MeanSpectrum): FlickerEntry {
  return {
    frames: frameGroup(entry).frames,
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

function darkNoise(stack: DarkStack): DarkNoise[] {
  if (stack.variance === null) return [];
  return [{ variance: stack.variance, degreesOfFreedom: (stack.scans.length - 1) * stack.counts.length }];
}
