import type { Detector, Warning } from '../frames/types.js';
import { evaluatePolynomial } from '../numeric/index.js';
import { knownLamps, type LampLine, lampLines, lampSpecies } from '../reference/index.js';
import { identifyScale } from './identifyScale.js';
import { refuseLamps } from './refuseLamps.js';
import type { LabelledLamp, NominalRange, RoughScale } from './roughScale.js';

/**
 * The rough scale of a detector: near its nominal range where one is stated and fits, else blind.
 *
 * @param lamps - found lines and those of the labels
 * @param detector - length, nominal range
 * @param warnings - gets one where the nominal range does not fit
 * @returns the scale
 * @throws {BadInputError} no scale explains the lines; says which lamp they look like
 */
export function identifyLamps(
  lamps: readonly LabelledLamp[],
  detector: Detector,
  warnings: Warning[],
): RoughScale {
  const { wavelengthStartNm: startNm, wavelengthEndNm: endNm, pixels } = detector;
  const nominal: NominalRange | null = startNm !== null && endNm !== null ? { startNm, endNm } : null;
  const hinted = nominal === null ? null : identifyScale(lamps, pixels, nominal);
  if (hinted !== null && !('absent' in hinted)) return hinted;
  const blind = identifyScale(lamps, pixels, null);
  if (!('absent' in blind)) {
    if (nominal !== null) warnings.push({ where: 'detector', what: nominalIsWrong(nominal, blind, pixels) });
    return blind;
  }
  return refuseLamps(lamps, blind.absent, helpFor(lamps, pixels));
}

function nominalIsWrong(nominal: NominalRange, scale: RoughScale, pixels: number): string {
  const at = (pixel: number): string =>
    evaluatePolynomial(scale.coefficients, (pixel - scale.pivotPixel) / scale.pixelScale).toFixed(0);
  return (
    `the nominal range ${nominal.startNm} to ${nominal.endNm} nm does not fit the lamp lines, which run from ` +
    `${at(0)} to ${at(pixels - 1)} nm; it was not used`
  );
}

/** Tries other labels, so that a refusal can say which lamp the lines look like. */
function helpFor(lamps: readonly LabelledLamp[], pixels: number): string {
  const hints: string[] = [];
  for (const { lamp } of lamps) {
    for (const label of knownLamps) {
      if (label === lamp.label) continue;
      const trial = identifyScale([relabel(lamp, label)], pixels, null);
      if ('absent' in trial || (trial.explained[0] ?? 0) < 0.7) continue;
      hints.push(`the lines of ${lamp.where} ("${lamp.label}") fit a ${label} lamp`);
      break;
    }
  }
  return hints.length > 0
    ? `${hints.join(', and ')}: correct the label`
    : 'check the lamp labels, that the lamps were lit and warm, and that all frames come from one detector setting';
}

function relabel(lamp: LabelledLamp['lamp'], label: string): LabelledLamp {
  const species = lampSpecies(label) ?? [];
  return {
    lamp: { ...lamp, label },
    known: lampLines.filter((line: LampLine) => species.includes(line.species)),
  };
}
