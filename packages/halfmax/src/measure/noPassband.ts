import type { CleanSpectrum } from '../frames/index.js';
import { percent } from '../frames/index.js';
import type { ScaledCurve } from './curveOnScale.js';

/** So many neighbouring pixels that are clipped may hide a band. */
const hidingPixels = 3;
/** A band must reach this transmittance, and stand so many standard uncertainties out of the noise: see findBands. */
const leastPeak = 0.05;
const leastDeviations = 8;
/** A lamp too weak in this share of the pixels is worth a word. */
const weakShare = 0.1;

/**
 * Why no passband was found in a filter's scans.
 *
 * @param filtered - the filter's scans
 * @param open - scans of the open beam
 * @param scaled - the filter's curve on the wavelength scale, perhaps with few points
 * @param pixelNm - wavelength of a pixel
 * @returns a phrase that names saturation, too little light, or how little the filter lets through
 */
export function noPassband(
  filtered: readonly CleanSpectrum[],
  open: readonly CleanSpectrum[],
  scaled: Pick<ScaledCurve, 'curve'>,
  pixelNm: (pixel: number) => number,
): string {
  const reasons: string[] = [];
  const pixels = filtered[0]!.masked.length;
  for (const [name, spectra] of [
    ['the scans of the filter', filtered],
    ['the open scans', open],
  ] as const) {
    const run = longestRun(pixels, (i) => spectra.every((spectrum) => spectrum.masked[i] === 1));
    if (run.length < hidingPixels) continue;
    const ends = [pixelNm(run.from), pixelNm(run.from + run.length - 1)].sort((a, b) => a - b);
    reasons.push(
      `${name} are saturated in every exposure from ${ends[0]!.toFixed(1)} to ${ends[1]!.toFixed(1)} nm: ` +
        'take them with a shorter exposure too',
    );
  }
  const seen = scaled.curve.wavelengthNm.length;
  const clipped = [...filtered[0]!.masked.keys()].filter((i) =>
    [filtered, open].some((spectra) => spectra.every((spectrum) => spectrum.masked[i] === 1)),
  ).length;
  const weak = (pixels - seen - clipped) / pixels;
  if (weak > weakShare) reasons.push(`the open beam is too weak in ${percent(weak)} of the pixels`);
  if (reasons.length === 0 || seen >= hidingPixels) reasons.push(highestOf(scaled));
  return reasons.join('; ');
}

/** The highest place of the curve, by the median of three pixels, and what it lacks. */
function highestOf({ curve }: Pick<ScaledCurve, 'curve'>): string {
  const { wavelengthNm, transmittance, standardUncertainty } = curve;
  let best = { value: Number.NEGATIVE_INFINITY, u: 0, atNm: 0 };
  for (let i = 1; i + 1 < transmittance.length; i++) {
    const [, value] = [transmittance[i - 1]!, transmittance[i]!, transmittance[i + 1]!].sort((a, b) => a - b);
    if (value! > best.value) best = { value: value!, u: standardUncertainty[i]!, atNm: wavelengthNm[i]! };
  }
  if (best.value === Number.NEGATIVE_INFINITY) return 'too few pixels have a transmittance';
  const where = `its highest transmittance, ${best.value.toFixed(3)} at ${best.atNm.toFixed(1)} nm,`;
  if (best.value < leastPeak && best.value + leastDeviations * best.u < leastPeak) {
    return `${where} stays below the ${percent(leastPeak)} from which on a band is looked for`;
  }
  if (best.value < leastDeviations * best.u) {
    const times = Math.max(0, best.value / best.u).toFixed(1);
    return (
      `too little light: ${where} stands ${times} standard uncertainties out of the noise, ${leastDeviations} are ` +
      'asked for; take longer exposures or more frames'
    );
  }
  if (best.value < leastPeak)
    return `${where} stays below the ${percent(leastPeak)} from which on a band is looked for`;
  return `${where} belongs to nothing as wide as three pixels`;
}

function longestRun(
  pixels: number,
  isHit: (pixel: number) => boolean,
): { readonly from: number; readonly length: number } {
  let best = { from: 0, length: 0 };
  let length = 0;
  for (let i = 0; i < pixels; i++) {
    length = isHit(i) ? length + 1 : 0;
    if (length > best.length) best = { from: i - length + 1, length };
  }
  return best;
}
