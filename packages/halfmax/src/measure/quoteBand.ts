import { decimalsFor, isAbsent } from '../metrics/index.js';
import type { BenchConditions } from '../session/benchSession.js';
import type { BandQuote, BandReport } from './measurement.js';

/** What a quote says of the measurement beside the band itself. */
export interface QuoteContext {
  /** The filter's name. */
  readonly label: string;
  readonly bench: BenchConditions;
  /** Entries of the session with filtered frames of this filter. */
  readonly scans: number;
  /** Good frames in them. */
  readonly frames: number;
}

const DEFINITION = "between the outermost crossings of half of the band's own peak";

/**
 * A band's width as a sentence to be quoted, with all that a reader needs to compare it, and the same as data.
 *
 * The width with the line spread taken out where there is one, else the width as measured, which is then said.
 * The uncertainty has two significant digits; value and interval end at the same decimal.
 *
 * @param band - the band's numbers
 * @param context - filter, bench, frames
 * @returns the quote, or why there is none
 * Source: JCGM 100:2008, 7.2.4 (what to state) and 7.2.6 (digits).
 */
export function quoteBand(
  band: Pick<
    BandReport,
    'target' | 'asMeasured' | 'corrected' | 'lineSpreadNm' | 'extrapolated' | 'monteCarlo'
  >,
  context: QuoteContext,
): BandQuote | { readonly absent: string } {
  const basis = isAbsent(band.corrected.fwhmNm) ? 'measured' : 'corrected';
  const width = basis === 'corrected' ? band.corrected.fwhmNm : band.asMeasured.fwhmNm;
  if (isAbsent(width)) return width;
  if (!(width.standardUncertainty > 0)) return { absent: 'the width has no uncertainty' };
  const decimals = decimalsFor(width.standardUncertainty);
  const [value, uncertainty, low, high] = [width.value, width.standardUncertainty, ...width.interval95].map(
    (number) => number.toFixed(decimals),
  ) as [string, string, string, string];
  const spread = `line spread of ${band.lineSpreadNm.value.toFixed(2)} nm`;
  const target = band.target.length === 0 ? 'band without a named line' : `${band.target.join(', ')} band`;
  const { scans, frames, bench } = context;
  const text = [
    `${context.label}: FWHM (${target}, outermost half-peak crossings, ${spread} ` +
      `${basis === 'corrected' ? 'taken out' : 'not taken out'}) ${value} nm ` +
      `with a standard uncertainty of ${uncertainty} nm`,
    `95 % interval ${low} to ${high} nm`,
    `${counted(frames, 'frame')} in ${counted(scans, 'scan')}, ${band.monteCarlo.draws} Monte Carlo draws`,
    ...(band.extrapolated ? ['wavelengths extrapolated beyond the lamp lines'] : []),
    conditionsText(bench),
  ].join('; ');
  return {
    text: `${text}.`,
    quantity: 'fwhmNm',
    definition: DEFINITION,
    basis,
    value: Number(value),
    standardUncertainty: Number(uncertainty),
    interval95: [Number(low), Number(high)],
    lineSpreadNm: Number(band.lineSpreadNm.value.toFixed(2)),
    scans,
    frames,
    draws: band.monteCarlo.draws,
    bench,
  };
}

function counted(count: number, name: string): string {
  return `${count} ${name}${count === 1 ? '' : 's'}`;
}

/** What is stated of the bench, then what is not. */
function conditionsText({ fNumber, temperatureC, spot }: BenchConditions): string {
  const parts = [
    { name: 'measuring beam', stated: fNumber === null ? null : `measuring beam f/${fNumber}` },
    { name: 'temperature', stated: temperatureC === null ? null : `${temperatureC} °C` },
    { name: 'spot', stated: spot === null ? null : `spot: ${spot}` },
  ];
  const known = parts.flatMap(({ stated }) => (stated === null ? [] : [stated]));
  const open = parts.filter(({ stated }) => stated === null).map(({ name }) => name);
  const last = open.pop();
  if (last === undefined) return known.join(', ');
  const list = open.length === 0 ? last : `${open.join(', ')} and ${last}`;
  return [...known, `${list} not stated`].join(', ');
}
