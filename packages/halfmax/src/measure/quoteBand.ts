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

/** Numbers of a band that are quoted, with the words and the unit for each. */
const QUOTED: Readonly<
  Record<BandQuote['quantity'], { name: string; short: string; unit: string; definition: string }>
> = {
  fwhmNm: {
    name: 'FWHM',
    short: 'outermost half-peak crossings',
    unit: ' nm',
    definition: "between the outermost crossings of half of the band's own peak",
  },
  centreNm: {
    name: 'centre',
    short: 'midpoint of the outermost half-peak crossings',
    unit: ' nm',
    definition: "midpoint of the outermost crossings of half of the band's own peak",
  },
  peakTransmittance: {
    name: 'peak transmittance',
    short: 'maximum of the smooth curve',
    unit: '',
    definition: 'maximum of the smoothed or fitted curve',
  },
  transmittanceAtLine: {
    name: 'transmittance',
    short: 'at the line',
    unit: '',
    definition: "transmittance at the wavelength in air of the band's first target line",
  },
};

/**
 * A number of a band as a sentence to be quoted, with all that a reader needs to compare it, and the same as data.
 *
 * The number with the line spread taken out where there is one, else the number as measured, which is then said.
 * The uncertainty has two significant digits; value and interval end at the same decimal.
 *
 * @param band - the band's numbers
 * @param context - filter, bench, frames
 * @param quantity - which number; left out: the width
 * @returns the quote, or why there is none
 * Source: JCGM 100:2008, 7.2.4 (what to state) and 7.2.6 (digits).
 */
export function quoteBand(
  band: Pick<
    BandReport,
    'target' | 'asMeasured' | 'corrected' | 'lineSpreadNm' | 'extrapolated' | 'monteCarlo'
  >,
  context: QuoteContext,
  quantity: BandQuote['quantity'] = 'fwhmNm',
): BandQuote | { readonly absent: string } {
  const { name, short, unit, definition } = QUOTED[quantity];
  const basis = isAbsent(band.corrected[quantity]) ? 'measured' : 'corrected';
  const number = basis === 'corrected' ? band.corrected[quantity] : band.asMeasured[quantity];
  if (isAbsent(number)) return number;
  if (!(number.standardUncertainty > 0)) return { absent: `the ${name} has no uncertainty` };
  const decimals = decimalsFor(number.standardUncertainty);
  const [value, uncertainty, low, high] = [
    number.value,
    number.standardUncertainty,
    ...number.interval95,
  ].map((one) => one.toFixed(decimals)) as [string, string, string, string];
  const spread = `line spread of ${band.lineSpreadNm.value.toFixed(2)} nm`;
  const target = band.target.length === 0 ? 'band without a named line' : `${band.target.join(', ')} band`;
  const { scans, frames, bench } = context;
  const text = [
    `${context.label}: ${name} (${target}, ${short}, ${spread} ` +
      `${basis === 'corrected' ? 'taken out' : 'not taken out'}) ${value}${unit} ` +
      `with a standard uncertainty of ${uncertainty}${unit}`,
    `95 % interval ${low} to ${high}${unit}`,
    `${counted(frames, 'frame')} in ${counted(scans, 'scan')}, ${band.monteCarlo.draws} Monte Carlo draws`,
    ...(band.extrapolated ? ['wavelengths extrapolated beyond the lamp lines'] : []),
    conditionsText(bench),
  ].join('; ');
  return {
    text: `${text}.`,
    quantity,
    definition,
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

/**
 * The sentences of a band beside that of its width: centre, peak and transmittance at the line, where there are such.
 *
 * @param band - the band's numbers
 * @param context - filter, bench, frames
 * @returns quotes
 */
export function furtherQuotes(band: Parameters<typeof quoteBand>[0], context: QuoteContext): BandQuote[] {
  const rest = ['centreNm', 'peakTransmittance', 'transmittanceAtLine'] as const;
  return rest
    .map((quantity) => quoteBand(band, context, quantity))
    .filter((quote): quote is BandQuote => !('absent' in quote));
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
