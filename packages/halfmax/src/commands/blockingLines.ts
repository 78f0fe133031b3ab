import { formatQuantity, isAbsent, type OutOfBand, quantity } from '../metrics/index.js';
import { wrapText } from './wrapText.js';

/**
 * Blocking outside the bands, as lines for the terminal: the mean, where it was seen, and one line for each leak.
 *
 * @param blocking - of a filter
 * @param indent - before each line
 * @returns lines of text
 */
export function blockingLines(blocking: OutOfBand | { readonly absent: string }, indent: string): string[] {
  if (isAbsent(blocking)) return wrapText(`out of band: ${blocking.absent}`, indent);
  const { seenFromNm, seenToNm, meanOpticalDensity: mean } = blocking;
  const seen =
    seenFromNm === null || seenToNm === null
      ? ''
      : `, seen from ${seenFromNm.toFixed(0)} to ${seenToNm.toFixed(0)} nm`;
  const lines = wrapText(`out of band${seen}: ${meanText(mean)}`, indent);
  if (blocking.ranges.length > 1) {
    for (const range of blocking.ranges) {
      const worst = densityText(range.worstOpticalDensity);
      const at =
        'atNm' in range.worstOpticalDensity ? ` at ${range.worstOpticalDensity.atNm.toFixed(1)} nm` : '';
      lines.push(
        ...wrapText(
          `${range.name}, ${range.fromNm.toFixed(0)} to ${range.toNm.toFixed(0)} nm: mean ` +
            `${densityText(range.meanOpticalDensity)}, worst ${worst}${at}`,
          `${indent}  `,
        ),
      );
    }
  }
  for (const { peakNm, peakTransmittance, standardUncertainty } of blocking.leaks) {
    const height = formatQuantity(quantity(peakTransmittance, standardUncertainty));
    lines.push(`${indent}  leak at ${peakNm.toFixed(1)} nm: transmittance ${height}`);
  }
  return lines;
}

function meanText(mean: OutOfBand['meanOpticalDensity']): string {
  if ('absent' in mean) return mean.absent;
  if ('atLeast' in mean) return `mean optical density at least ${mean.atLeast.toFixed(2)} (${mean.why})`;
  return `mean optical density ${formatQuantity(quantity(mean.value, mean.standardUncertainty))}`;
}

/** An optical density in few words. */
function densityText(density: OutOfBand['meanOpticalDensity']): string {
  if ('absent' in density) return `– (${density.absent})`;
  if ('atLeast' in density) return `at least ${density.atLeast.toFixed(2)}`;
  return formatQuantity(quantity(density.value, density.standardUncertainty));
}
