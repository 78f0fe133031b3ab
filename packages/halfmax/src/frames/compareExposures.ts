import { type ExposureSpectrum, type RatePoint, relativeRates } from './relativeRates.js';
import { softLevel } from './softLevel.js';
import type { Warning } from './types.js';
import { percent, plainNumber } from './wording.js';

/** What the exposures say of each other. */
export interface ExposureComparison {
  /** Raw counts at and above which the rate falls; null where it does not. */
  readonly softCounts: number | null;
  /** Pixels not to be used, by entry: 1 where a shorter exposure says something else altogether; all of an open scan. */
  readonly dropped: ReadonlyMap<number, Uint8Array>;
  readonly warnings: readonly Warning[];
}

/** Share of the saturation counts, or of the brightest counts where those are fewer, below which a pixel is dim. */
const lowShare = 0.6;
/** Where the brightest pixel stays far below the limit stated, its rate must fall by this: non-linearity reaches it. */
const fallFarBelow = 0.05;
/** Rates of two exposures of the open beam or a filter that differ by more than this are reported. */
const rateShare = 0.05;
/** Rates that differ by more than this are no drift of a lamp: the longer exposure is not used there. */
const dropShare = 0.2;

/**
 * Compares the rates (counts per ms) of several exposures of the same light: a detector that saturates softly gives
 * a lower rate in bright pixels than in dim ones.
 *
 * The rates of two exposures are divided pixel by pixel, then by their own value in dim pixels, see
 * {@link relativeRates}. So a lamp that drifts as a whole, changes colour slowly, or whose lines warm up one by one,
 * does not look like saturation. What is dim is judged by the brightest counts seen, where they lie far below the
 * limit stated: a limit stated far too high would make all pixels dim.
 *
 * Two exposures of the open beam or a filter whose rates differ by more than a fifth do not belong together; the longer
 * one is dropped in the pixels that both show clearly, or altogether if it is one of the open beam.
 *
 * @param spectra - all entries that are not dark
 * @param saturationCounts - the detector's stated limit, raw counts
 * @returns level above which rates fall by more than 1 % and 5 standard deviations (and 5 % among the brightest, where
 *   those lie far below the limit), pixels not to be used, and warnings
 * Source: a real unit with no pixel at its limit showed rates falling from 775 to 623 counts/ms, softly from about
 * 60 000 counts (open measured data); the limits are common practice, no source.
 */
export function compareExposures(
  spectra: readonly ExposureSpectrum[],
  saturationCounts: number,
): ExposureComparison {
  const warnings: Warning[] = [];
  const points: RatePoint[] = [];
  const dropped = new Map<number, Uint8Array>();
  const brightest = brightestOf(spectra);
  const isFarBelow = brightest < lowShare * saturationCounts;
  const reference = isFarBelow ? brightest : saturationCounts;
  for (const [shorter, longer] of pairs(spectra)) {
    const { found, level, clear } = relativeRates(shorter, longer, lowShare * reference);
    points.push(...found);
    if (longer.role !== 'lamp' && level !== null && Math.abs(level - 1) > rateShare) {
      const isApart = Math.abs(level - 1) > dropShare;
      // an open scan of which only dim pixels stayed would have no level of its own
      if (isApart) dropped.set(longer.entry, longer.role === 'open' ? clear.fill(1) : clear);
      warnings.push({
        where: nameOf(longer),
        what:
          `the rate (counts per ms) at ${plainNumber(longer.exposureMs)} ms is ${percent(Math.abs(level - 1))} ` +
          `${level > 1 ? 'above' : 'below'} that at ${plainNumber(shorter.exposureMs)} ms: the lamp changed between ` +
          `the entries, or an exposure time is wrong${isApart ? `; ${leftOut(longer)}` : ''}`,
      });
    }
  }
  const soft = softLevel(points, reference, isFarBelow ? fallFarBelow : 0);
  if (soft === null) return { softCounts: null, dropped, warnings };
  const worst = soft.above.reduce((best, point) => (point.ratio < best.ratio ? point : best));
  const rate = (spectrum: ExposureSpectrum): string =>
    plainNumber(spectrum.counts[worst.pixel]! / spectrum.exposureMs, 3);
  warnings.push({
    where: nameOf(worst.longer),
    what:
      `the detector saturates softly: pixel ${worst.pixel}'s rate falls from ${rate(worst.shorter)} to ` +
      `${rate(worst.longer)} counts/ms above ${plainNumber(soft.level, 3)} counts; pixels above that level are left out`,
  });
  return { softCounts: soft.level, dropped, warnings };
}

function brightestOf(spectra: readonly ExposureSpectrum[]): number {
  let brightest = 0;
  for (const { raw } of spectra) for (const value of raw) if (value > brightest) brightest = value;
  return brightest;
}

function leftOut({ role }: ExposureSpectrum): string {
  return role === 'open' ? 'the longer exposure is left out' : 'the longer is left out where both show light';
}

function nameOf(spectrum: ExposureSpectrum): string {
  return spectrum.filter ?? spectrum.lamp ?? spectrum.role;
}

/** Each entry with the entry of the next shorter exposure of the same light that stands nearest in the session. */
function pairs(spectra: readonly ExposureSpectrum[]): [ExposureSpectrum, ExposureSpectrum][] {
  const out: [ExposureSpectrum, ExposureSpectrum][] = [];
  for (const longer of spectra) {
    const shorter = spectra.filter(
      (other) =>
        other.role === longer.role &&
        other.lamp === longer.lamp &&
        other.filter === longer.filter &&
        other.exposureMs < longer.exposureMs * 0.999,
    );
    if (shorter.length === 0) continue;
    const next = Math.max(...shorter.map((other) => other.exposureMs));
    const nearest = shorter
      .filter((other) => other.exposureMs >= next * 0.999)
      .reduce((best, other) =>
        Math.abs(other.entry - longer.entry) < Math.abs(best.entry - longer.entry) ? other : best,
      );
    out.push([nearest, longer]);
  }
  return out;
}
