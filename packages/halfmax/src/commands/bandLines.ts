import type { BandReport } from '../measure/index.js';
import { formatDigits, formatQuantity, isAbsent, type Quantity } from '../metrics/index.js';
import { claimLines } from './claimLines.js';
import { textColumns } from './textColumns.js';
import { wrapText } from './wrapText.js';

/**
 * A peak whose place is uncertain by more than this share of the band's width lies on a flat top: common practice, no
 * source.
 */
const FLAT_TOP = 0.04;

/**
 * A passband as lines for the terminal: numbers as measured and corrected, why a number is missing, what makes the
 * width uncertain, and the claims.
 *
 * @param band - the band
 * @returns lines of text
 */
export function bandLines(band: BandReport): string[] {
  const rows = rowsOf(band);
  const target =
    band.target.length === 0 ? 'band without a named line' : `band for ${band.target.join(', ')}`;
  const spread = band.lineSpreadNm.value.toFixed(2);
  const cells = rows.map(({ name, measured, corrected, isPlace }) => [
    name,
    ...[measured, corrected].map((number) => formatQuantity(number) + (isPlace ? flatTop(number, band) : '')),
  ]);
  return [
    `  ${target}; line spread of the instrument there: ${spread} nm`,
    ...textColumns([['', 'as measured', 'corrected'], ...cells], '    '),
    ...missing(rows),
    ...largestShares(band),
    ...claimLines(band),
  ];
}

interface Row {
  readonly name: string;
  readonly measured: Quantity;
  readonly corrected: Quantity;
  readonly isPlace?: boolean;
}

function rowsOf({ asMeasured, corrected, lines, target }: BandReport): Row[] {
  const pair = (key: keyof typeof asMeasured): Pick<Row, 'measured' | 'corrected'> => ({
    measured: asMeasured[key],
    corrected: corrected[key],
  });
  const atLines = lines.map((line) => ({
    name: `transmittance at ${line.name}`,
    measured: line.transmittance,
    corrected: line.corrected,
  }));
  const isNamed = target.length > 0;
  return [
    { name: 'FWHM / nm', ...pair('fwhmNm') },
    { name: 'centre / nm', ...pair('centreNm') },
    { name: 'peak at / nm', ...pair('peakNm'), isPlace: true },
    { name: 'peak transmittance', ...pair('peakTransmittance') },
    ...(isNamed ? [] : [{ name: 'transmittance at line', ...pair('transmittanceAtLine') }]),
    ...atLines,
  ];
}

function flatTop(place: Quantity, { asMeasured: { fwhmNm } }: BandReport): string {
  if (isAbsent(place) || isAbsent(fwhmNm)) return '';
  return place.standardUncertainty > FLAT_TOP * fwhmNm.value ? ' (flat top)' : '';
}

/** Why there are dashes: each reason once, with the rows that it holds for unless it holds for all of a column. */
function missing(rows: readonly Row[]): string[] {
  return (['measured', 'corrected'] as const).flatMap((column) => {
    const reasons = new Map<string, string[]>();
    for (const row of rows) {
      const number = row[column];
      if (isAbsent(number)) reasons.set(number.absent, [...(reasons.get(number.absent) ?? []), row.name]);
    }
    return [...reasons].flatMap(([why, names]) => {
      const which = names.length === rows.length ? '' : `, ${names.join(', ')}`;
      return wrapText(`– ${column === 'measured' ? 'as measured' : 'corrected'}${which}: ${why}`, '    ');
    });
  });
}

function largestShares({ budget, corrected }: BandReport): string[] {
  if (budget.length === 0) return [];
  const shares = budget
    .slice(0, 2)
    .map(
      ({ source, standardUncertaintyNm: share }) => `${source} ${formatDigits(share, share).uncertainty} nm`,
    );
  const which = isAbsent(corrected.fwhmNm) ? 'FWHM as measured' : 'corrected FWHM';
  return wrapText(`${which} uncertain most by: ${shares.join('; ')}`, '    ');
}
