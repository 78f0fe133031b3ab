import type { AbsentHalo, HaloComparisonReport, HaloDiskReport, HaloReport } from '../measure/index.js';
import { type Absent, decimalsFor, formatQuantity, isAbsent, type Quantity } from '../metrics/index.js';
import { textColumns } from './textColumns.js';
import { wrapText } from './wrapText.js';

/**
 * A star through a filter, for the terminal: its disks, the faces that fit, the limits where there is none.
 *
 * @param halo - an entry of the measurement's `halos`
 * @param label - of the filter, for people
 * @returns lines of text
 */
export function starLines(halo: HaloReport | AbsentHalo, label: string): string[] {
  const head = `Bright star through ${label}: ${halo.image}`;
  if (isAbsent(halo)) return [head, ...wrapText(`halos: – (${halo.absent})`, '  ')];
  const { disks, coveredPixels, starCounts, judgements, assumed } = halo;
  const lines = [
    head,
    ...wrapText(
      `looked at from ${coveredPixels[0].toFixed(0)} to ${coveredPixels[1].toFixed(0)} pixels from it; light of the star ${isAbsent(starCounts) ? `– (${starCounts.absent})` : `${formatQuantity(starCounts)} counts`}`,
      '  ',
    ),
  ];
  if (disks.length > 0) lines.push(...diskTable(disks), ...disks.flatMap(diskNotes));
  else lines.push(...limitLines(halo));
  if (!('absent' in judgements))
    judgements.forEach(({ verdict, words }, k) => {
      const which = disks.length > 0 ? `halo ${k + 1}` : 'no halo';
      lines.push(
        ...wrapText(`${which}, against the limit (${limitWords(halo)}): ${verdict}: ${words}`, '  '),
      );
    });
  if (assumed.length > 0) lines.push(...wrapText(`taken for the limit: ${assumed.join('; ')}`, '  '));
  for (const note of halo.notes) lines.push(...wrapText(note, '  '));
  return lines;
}

/**
 * The filters on one star, for the terminal.
 *
 * @param comparison - an entry of the measurement's `haloComparisons`
 * @param labelOf - a filter's label by its id
 * @returns lines of text
 */
export function starComparisonLines(
  comparison: HaloComparisonReport,
  labelOf: (id: string) => string,
): string[] {
  const title = `The filters on ${comparison.star ?? 'one star (the session names none: taken to be the same)'}`;
  if ('absent' in comparison) return wrapText(`${title}: – (${comparison.absent})`, '');
  return [
    title,
    ...comparison.disks.flatMap(({ innerUm, outerUm, filters }) => {
      const head = ['filter', 'share of the star', 'over the first', '95 %', 'fainter by / mag'];
      const rows = filters.map(({ filter, shareOfStar, ratio, magnitudesFainter }) => [
        labelOf(filter),
        short(shareOfStar),
        short(ratio),
        interval(ratio),
        short(magnitudesFainter),
      ]);
      return [
        `  the same disk in each, ${innerUm.toFixed(0)} to ${outerUm.toFixed(0)} µm from the star`,
        ...textColumns([head, ...rows], '    '),
      ];
    }),
  ];
}

function diskTable(disks: readonly HaloDiskReport[]): string[] {
  const head = ['halo', ...disks.map((_, k) => String(k + 1))];
  const row = (name: string, of: (disk: HaloDiskReport) => Quantity, withInterval = false): string[] => [
    name,
    ...disks.map((disk) => `${shown(of(disk))}${withInterval ? ` ${interval(of(disk))}` : ''}`.trimEnd()),
  ];
  return textColumns(
    [
      head,
      row('outer radius / pixels', (disk) => disk.outerRadiusPixels),
      row('inner radius / pixels', (disk) => disk.innerRadiusPixels),
      row('share of the star, 95 %', (disk) => disk.shareOfStar, true),
      row('fainter than the star / mag', (disk) => disk.magnitudesFainter, true),
      row('spacing in air / mm', (disk) => disk.geometry.airSpacingMm),
    ],
    '  ',
  );
}

function diskNotes(disk: HaloDiskReport, k: number): string[] {
  const { faces, moved } = disk;
  const lines = wrapText(`halo ${k + 1}: ${'words' in faces ? faces.words : faces.absent}`, '  ');
  if (!('absent' in moved)) {
    const { sizeRatio, surfaceRatio, magnitudesFainter } = moved;
    const way = `${Math.abs(magnitudesFainter).toFixed(2)} mag arcsec⁻² ${magnitudesFainter > 0 ? 'fainter' : 'brighter'}`;
    lines.push(
      ...wrapText(
        `halo ${k + 1}, with the filter before the corrector: ${sizeRatio.toFixed(2)} times as wide, ${surfaceRatio.toPrecision(3)} times as bright on the surface (${way})`,
        '  ',
      ),
    );
  }
  return lines;
}

/** What could be there unseen, radius by radius. */
function limitLines({ limits }: HaloReport): string[] {
  if (limits.length === 0) return ['  no halo found'];
  const at = (value: number | Absent, text: (value: number) => string): string =>
    typeof value === 'number' ? text(value) : '–';
  const rows = [
    [
      'no halo found; at most (95 %), outer radius / pixels',
      ...limits.map((one) => one.outerRadiusPixels.toFixed(0)),
    ],
    ['share of the star', ...limits.map((one) => at(one.shareOfStar, rounded))],
    ['counts a pixel', ...limits.map((one) => rounded(one.surfaceCounts))],
  ];
  return textColumns(rows, '  ');
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(2)));
}

function limitWords({ tolerance }: HaloReport): string {
  if ('absent' in tolerance) return tolerance.absent;
  if (tolerance.kind === 'share') return `at most ${tolerance.atMost} of the star`;
  if (tolerance.kind === 'surface')
    return `at least ${tolerance.atLeast} mag arcsec⁻² above the star's magnitude`;
  return `signal to noise of ${tolerance.threshold ?? 5} in ${tolerance.pixels} pixels after ${tolerance.hours} h`;
}

function shown(value: Quantity): string {
  return isAbsent(value) ? `– (${value.absent})` : formatQuantity(value);
}

function short(value: Quantity): string {
  return isAbsent(value) ? '–' : formatQuantity(value);
}

function interval(value: Quantity): string {
  if (isAbsent(value) || value.standardUncertainty === 0) return '';
  const digits = decimalsFor(value.standardUncertainty);
  return `[${value.interval95[0].toFixed(digits)}, ${value.interval95[1].toFixed(digits)}]`;
}
