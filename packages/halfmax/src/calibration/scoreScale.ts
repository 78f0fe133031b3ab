import { evaluatePolynomial } from '../numeric/index.js';
import { joinedStretches, lineGain } from './gainTable.js';
import type { RoughScale } from './roughScale.js';
import type { UsableLamp } from './usableLamp.js';

/** Lines found of which it is odd to be faint ones in the table. */
const STRONGEST = 6;
/** Cost of taking a found line for one that the table calls weak. */
const WEAK_TOLL = 0.7;

/** Gain over chance of all found lines, less a toll for known lines that nothing is found at. */
export function scoreScale(
  scale: Pick<RoughScale, 'coefficients' | 'pivotPixel' | 'pixelScale'>,
  lamps: readonly UsableLamp[],
  toleranceNm: number,
  widthNm: number,
  pixels: number,
): number {
  const at = (pixel: number): number =>
    evaluatePolynomial(scale.coefficients, (pixel - scale.pivotPixel) / scale.pixelScale);
  const lower = Math.min(at(0), at(pixels - 1));
  const upper = Math.max(at(0), at(pixels - 1));
  let score = 0;
  for (const lamp of lamps) {
    const { strong, shares } = lamp;
    const gain = lampGain(lamp, toleranceNm, widthNm);
    const places = lamp.lines.map((line) => at(line.pixel));
    for (const place of places) score += gain(place);
    for (const place of places.slice(0, STRONGEST)) score -= surprise(place, lamp, toleranceNm);
    for (let k = 0; k < strong.length; k++) {
      const line = strong[k]!;
      const inside = Math.min(line.wavelengthNm - lower, upper - line.wavelengthNm) / (upper - lower);
      if (
        inside < 0.01 ||
        places.some((place) => Math.abs(place - line.wavelengthNm) < Math.max(1.2, 0.6 * widthNm))
      )
        continue;
      // The throughput falls at the ends of a detector: a line missed there says less.
      score -= (inside < 0.12 ? 0.5 : 1) * tollOf(shares[k]!);
    }
  }
  return score;
}

/** Gain of a found line over chance: as one of the lamp's strong lines, or at a toll as one that the table calls weak. */
export function lampGain(
  { strongNm, knownNm }: UsableLamp,
  toleranceNm: number,
  widthNm: number,
): (wavelengthNm: number) => number {
  const strong = lineGain(strongNm, toleranceNm, joinedStretches(strongNm, widthNm));
  const any = lineGain(knownNm, toleranceNm, joinedStretches(knownNm, widthNm));
  return (at) => Math.max(strong(at), any(at) - WEAK_TOLL);
}

/** Cost of one of the strongest lines found lying on a line that is faint in its species. */
function surprise(place: number, { strong, shares }: UsableLamp, toleranceNm: number): number {
  let share = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < strong.length; k++) {
    if (Math.abs(strong[k]!.wavelengthNm - place) < 3 * toleranceNm) share = Math.max(share, shares[k]!);
  }
  if (share === Number.NEGATIVE_INFINITY) return 0;
  return share >= 0.1 ? 0 : share >= 0.02 ? 0.7 : 1.5;
}

/** Cost of not seeing a line, by its strength among its species. */
function tollOf(share: number): number {
  return share >= 0.4 ? 1.6 : share >= 0.1 ? 0.7 : 0.1;
}
