import type { ComparedFilter, Comparison } from '../measure/index.js';
import { formatQuantity, isAbsent, type Quantity } from '../metrics/index.js';
import { textColumns } from './textColumns.js';
import { wrapText } from './wrapText.js';

/**
 * A comparison as tables for the terminal, one a line.
 *
 * @param comparison - the comparison
 * @returns text with a final line break
 */
export function comparisonText(comparison: Comparison): string {
  const { site, fNumber, goal, nightHours, nights } = comparison;
  const several =
    new Set(comparison.lines.flatMap(({ filters }) => filters.map(({ from }) => from))).size > 1;
  const parts = site.parts.map(({ name, vMagnitude }) => `${name} ${vMagnitude.toFixed(2)}`).join(', ');
  const lines = wrapText(
    `Sky of V ${site.vMagnitude.toFixed(2)} per square arcsecond (${parts}), light of f/${Number(fNumber.toFixed(2))} ` +
      `at the filter; hours to a signal to noise of ${goal} in each pixel; a clear night has ${nightHours} h` +
      `${nights === 1 ? '' : `, prices are spread over ${nights} nights`}.`,
    '',
  );
  for (const { line, wavelengthNm, filters } of comparison.lines) {
    const head = [
      '',
      'filter',
      ...(several ? ['from'] : []),
      'T in the beam',
      'sky width / nm',
      'gain',
      'over the first',
      'hours, same sky',
      'hours',
      'hours for a night',
      'price per hour saved',
    ];
    const rows = filters.map((filter) => [
      placeOf(filter),
      filter.label,
      ...(several ? [filter.from] : []),
      formatQuantity(filter.transmittance),
      formatQuantity(filter.effectiveWidthNm),
      formatQuantity(filter.gain),
      formatQuantity(filter.gainOverFirst),
      formatQuantity(filter.hoursSameSky),
      formatQuantity(filter.hours),
      formatQuantity(filter.hoursToEqualNight),
      priceOf(filter),
    ]);
    lines.push('', `${line} (${wavelengthNm.toFixed(2)} nm)`, ...textColumns([head, ...rows], '  '));
    for (const filter of filters) {
      if (filter.tiedWith.length > 0)
        lines.push(...wrapText(`${filter.label}: not told apart from ${filter.tiedWith.join(', ')}`, '  '));
    }
  }
  if (comparison.lines.length === 0) lines.push('', 'No filter could be compared.');
  lines.push(
    '',
    ...wrapText(
      'A number after ± is one standard uncertainty, from the curve, the effective index and the strengths of sky and ' +
        'target; hours under the same sky leave the last two out, since they are common to all filters. Filters whose ' +
        '95 % intervals of those hours overlap share a place (=). Gain: signal to noise over that without a filter in ' +
        'equal time, limited by the sky; over the first: the same over the filter on the first place. Prices as ' +
        'stated, nothing is converted.',
      '',
    ),
  );
  for (const { from, label, why } of comparison.leftOut)
    lines.push(...wrapText(`Left out: ${label} (${from}): ${why}`, ''));
  if (comparison.assumed.length > 0) {
    lines.push('Not stated, so assumed:');
    for (const words of comparison.assumed) lines.push(...wrapText(words, '  '));
  }
  return `${lines.join('\n')}\n`;
}

/**
 * A comparison as comma-separated values: a row for each filter and line, each number with its 95 % interval.
 *
 * @param comparison - the comparison
 * @returns text with a header and a final line break; a number that is absent leaves its cells empty
 */
export function comparisonCsv(comparison: Comparison): string {
  const numbers = [
    ['transmittance', (f: ComparedFilter) => f.transmittance],
    ['effective_width_nm', (f: ComparedFilter) => f.effectiveWidthNm],
    ['contrast', (f: ComparedFilter) => f.contrast],
    ['gain', (f: ComparedFilter) => f.gain],
    ['gain_over_first', (f: ComparedFilter) => f.gainOverFirst],
    ['hours', (f: ComparedFilter) => f.hours],
    ['hours_same_sky', (f: ComparedFilter) => f.hoursSameSky],
    ['hours_to_equal_night', (f: ComparedFilter) => f.hoursToEqualNight],
    ['hours_saved_per_night', (f: ComparedFilter) => f.hoursSavedPerNight],
    ['price_per_hour_saved', (f: ComparedFilter) => f.pricePerHourSaved],
  ] as const;
  const head = [
    'line',
    'wavelength_nm',
    'rank',
    'filter',
    'label',
    'from',
    'tied_with',
    ...numbers.flatMap(([name]) => [name, `${name}_low95`, `${name}_high95`]),
    'price',
    'currency',
  ];
  const rows = comparison.lines.flatMap(({ line, wavelengthNm, filters }) =>
    filters.map((filter) =>
      [
        line,
        String(wavelengthNm),
        filter.rank === null ? '' : String(filter.rank),
        filter.id,
        filter.label,
        filter.from,
        filter.tiedWith.join('; '),
        ...numbers.flatMap(([, of]) => cells(of(filter))),
        filter.price === null ? '' : String(filter.price.amount),
        filter.price?.currency ?? '',
      ]
        .map(quoted)
        .join(','),
    ),
  );
  return `${[head.join(','), ...rows].join('\n')}\n`;
}

function placeOf({ rank, tiedWith }: ComparedFilter): string {
  if (rank === null) return '–';
  return tiedWith.length > 0 ? `${rank}=` : String(rank);
}

function priceOf({ pricePerHourSaved: price }: ComparedFilter): string {
  if (isAbsent(price)) return `– (${price.absent})`;
  return `${formatQuantity(price)} ${price.currency ?? ''}`.trimEnd();
}

function cells(number: Quantity): string[] {
  if (isAbsent(number)) return ['', '', ''];
  return [number.value, ...number.interval95].map((value) => String(Number(value.toPrecision(6))));
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
