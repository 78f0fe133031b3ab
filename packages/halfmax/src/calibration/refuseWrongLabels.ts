import { BadInputError, type InputProblem } from '../errors.js';
import type { Warning } from '../frames/types.js';
import { knownLamps, type LampLine, lampLines, lampSpecies } from '../reference/index.js';
import { explainedShare } from './explainedShare.js';
import { typicalWidthPixels } from './lineWidths.js';
import type { LabelledLamp, RoughScale } from './roughScale.js';

/** A lamp whose stronger lines are laid on known ones by less than this share has the wrong label. */
const LEAST_EXPLAINED = 0.2;
/** Lines of a lamp from which a wrong label can be told. */
const ENOUGH_TO_TELL = 4;

/** With a scale that rests on the other lamps, a lamp with the wrong label shows. */
export function refuseWrongLabels(
  lamps: readonly LabelledLamp[],
  scale: RoughScale,
  warnings: Warning[],
): void {
  const problems: InputProblem[] = [];
  const toleranceNm = Math.max(0.4, 0.25 * widthNm(lamps, scale));
  for (const { lamp, known } of lamps) {
    const where = 'session.json';
    if (lamp.lines.length === 0) {
      warnings.push({
        where: lamp.where,
        what: `no line of the ${lamp.label} lamp rises above the noise: it was not used`,
      });
      continue;
    }
    const share = explainedShare(scale, lamp.lines, known, toleranceNm);
    const enough = lamp.lines.length >= ENOUGH_TO_TELL;
    const others = knownLamps.filter(
      (label) => !lampSpecies(label)!.every((species) => known.some((k) => k.species === species)),
    );
    const better = others
      .map((label) => ({ label, share: explainedShare(scale, lamp.lines, strongLines(label), toleranceNm) }))
      .sort((p, q) => q.share - p.share)[0];
    const contains =
      better !== undefined && lampSpecies(lamp.label)!.every((s) => lampSpecies(better.label)!.includes(s));
    const wrong =
      enough && better !== undefined && !contains && better.share >= 0.6 && better.share > share + 0.3;
    if (!wrong && (share >= LEAST_EXPLAINED || !enough)) continue;
    const fits = better !== undefined && better.share >= 0.7 ? `; they fit a ${better.label} lamp` : '';
    problems.push({
      where,
      place: lamp.where,
      what: `most lines of the lamp labelled "${lamp.label}" are not those of that lamp${fits}`,
      fix: fits === '' ? 'check the label and the frames' : 'correct the label',
    });
  }
  if (problems.length > 0) throw new BadInputError(problems);
}

function strongLines(label: string): LampLine[] {
  const species = lampSpecies(label) ?? [];
  return lampLines.filter((line) => species.includes(line.species) && !line.weak);
}

function widthNm(lamps: readonly LabelledLamp[], scale: RoughScale): number {
  return (typicalWidthPixels(lamps) * Math.abs(scale.coefficients[1]!)) / scale.pixelScale;
}
