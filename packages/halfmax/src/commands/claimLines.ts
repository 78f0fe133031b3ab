import type { BandReport, ClaimReport } from '../measure/index.js';
import { formatQuantity, quantity } from '../metrics/index.js';
import { textColumns } from './textColumns.js';
import { wrapText } from './wrapText.js';

/**
 * The claims on a band and what became of them, as lines for the terminal.
 *
 * @param band - the band
 * @returns lines of text, none where nothing is claimed
 */
export function claimLines({ claims, target }: Pick<BandReport, 'claims' | 'target'>): string[] {
  if (claims.length === 0) return [];
  const rows = claims.map((report) => [
    nameOf(report, target[0]),
    claimText(report),
    deviationText(report),
    report.verdict,
    chanceText(report),
  ]);
  const heads = ['claim', 'data sheet', 'deviation', 'verdict', 'chance met'];
  const onMeasured = claims.filter(
    ({ basis, quantity, measured }) => basis === 'measured' && !isDensity(quantity) && 'value' in measured,
  );
  const names = onMeasured.map((report) => nameOf(report, target[0]));
  return [
    ...textColumns([heads, ...rows], '    '),
    ...(names.length === 0 ? [] : wrapText(`judged by the number as measured: ${names.join(', ')}`, '    ')),
    ...claims.flatMap((report) => densityPlace(report)),
  ];
}

function isDensity(quantity: string): boolean {
  return quantity.startsWith('opticalDensity');
}

function nameOf({ quantity }: ClaimReport, line: string | undefined): string {
  switch (quantity) {
    case 'fwhmNm':
      return 'FWHM / nm';
    case 'centreNm':
      return 'centre / nm';
    case 'peakTransmittance':
      return 'peak transmittance';
    case 'transmittanceAtLine':
      return `transmittance at ${line ?? 'line'}`;
    default:
      return quantity.replace('opticalDensity', 'optical density');
  }
}

function claimText({ claim }: ClaimReport): string {
  if ('atLeast' in claim) return `at least ${claim.atLeast}`;
  if ('atMost' in claim) return `at most ${claim.atMost}`;
  if (claim.tolerance === undefined) return `${claim.value}`;
  if (typeof claim.tolerance === 'number') return `${claim.value} ± ${claim.tolerance}`;
  return `${claim.value} −${claim.tolerance[0]}/+${claim.tolerance[1]}`;
}

function deviationText({ deviation }: ClaimReport): string {
  if ('absent' in deviation) return '–';
  const { value, standardUncertainty } = deviation;
  const size = formatQuantity(quantity(Math.abs(value), standardUncertainty));
  // a deviation that rounds to zero has no sign
  const isZero = !/^[^±]*[1-9]/.test(size);
  return `${isZero ? '' : value < 0 ? '−' : '+'}${size}`;
}

function chanceText({ probabilityMet }: ClaimReport): string {
  if (typeof probabilityMet !== 'number') return '–';
  const percent = 100 * probabilityMet;
  return percent > 99.9 ? '> 99.9 %' : percent < 0.1 ? '< 0.1 %' : `${percent.toFixed(1)} %`;
}

/** What a claim of optical density was judged by. */
function densityPlace({ quantity, measured }: ClaimReport): string[] {
  if (!isDensity(quantity)) return [];
  const place = measured.atNm === undefined ? '' : `, at ${measured.atNm.toFixed(1)} nm`;
  return wrapText(
    `optical density is judged by the worst place of its range${place}: ${found(measured)}`,
    '    ',
  );
}

function found(measured: ClaimReport['measured']): string {
  if ('absent' in measured) return measured.absent;
  if ('atLeast' in measured) return `at least ${measured.atLeast.toFixed(2)} (${measured.why})`;
  return formatQuantity(quantity(measured.value, measured.standardUncertainty));
}
