import { evaluatePolynomial } from '../numeric/index.js';
import type { LampLine } from '../reference/index.js';
import type { RoughScale } from './roughScale.js';
import type { FoundLine } from './types.js';

/** Lines below this share of the lamp's brightest need no explanation. */
const EXPLAINED_SHARE = 0.02;

/**
 * Share of the stronger lines of a lamp that a scale lays on known lines.
 *
 * @param scale - rough scale
 * @param lines - found lines
 * @param known - known lines of a label, any order
 * @param toleranceNm - largest distance
 * @returns 0 to 1; 0 where there are no lines
 */
export function explainedShare(
  scale: Pick<RoughScale, 'coefficients' | 'pivotPixel' | 'pixelScale'>,
  lines: readonly FoundLine[],
  known: readonly LampLine[],
  toleranceNm: number,
): number {
  const brightest = Math.max(...lines.map((line) => line.height));
  const strong = strongest(lines, 12).filter((line) => line.height >= EXPLAINED_SHARE * brightest);
  if (strong.length === 0) return 0;
  const laid = strong.filter((line) => {
    const at = evaluatePolynomial(scale.coefficients, (line.pixel - scale.pivotPixel) / scale.pixelScale);
    return known.some((candidate) => Math.abs(candidate.wavelengthNm - at) <= toleranceNm);
  });
  return laid.length / strong.length;
}

/** The lines that stand out most, without those narrower than the line spread. */
export function strongest(lines: readonly FoundLine[], count: number): FoundLine[] {
  const real = lines.filter((line) => line.trouble === null || !line.trouble.startsWith('narrower'));
  return [...real].sort((a, b) => b.height - a.height).slice(0, count);
}
