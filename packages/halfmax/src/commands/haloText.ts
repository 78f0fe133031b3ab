import type { HaloComparison } from '../halo/index.js';
import type { HaloReport } from '../measure/index.js';
import { formatQuantity, isAbsent, type Quantity } from '../metrics/index.js';
import { textColumns } from './textColumns.js';
import { wrapText } from './wrapText.js';

/**
 * Halos as text for the terminal.
 *
 * @param reports - one for each image
 * @param comparison - of the images; null for one alone
 * @param showsMove - whether to say what moving the filter before the corrector would change
 * @returns lines, each ended
 */
export function haloText(
  reports: readonly HaloReport[],
  comparison: HaloComparison | { readonly absent: string } | null,
  showsMove: boolean,
): string {
  const lines = reports.flatMap((report, k) => [...(k > 0 ? [''] : []), ...imageLines(report, showsMove)]);
  if (comparison !== null) lines.push('', ...comparisonLines(comparison));
  lines.push('A number after ± is one standard uncertainty; [ ] is the interval of 95 %.');
  return `${lines.join('\n')}\n`;
}

function imageLines(report: HaloReport, showsMove: boolean): string[] {
  const { centre, background, masked, coveredPixels } = report;
  const lines = [
    `${report.image}: ${report.frame[0]} x ${report.frame[1]} pixels`,
    `  star at ${formatQuantity(centre.x)}, ${formatQuantity(centre.y)}${report.saturated ? ' (saturated)' : ''}, looked at from ${coveredPixels[0].toFixed(0)} to ${coveredPixels[1].toFixed(0)} pixels from it`,
    `  background ${formatQuantity(background.counts)} counts, noise ${typeof background.noise === 'number' ? background.noise.toPrecision(3) : '–'} a pixel; left out: ${masked.saturated} saturated, ${masked.hot} hot, ${masked.neighbours} beside neighbours, ${masked.undefined} undefined`,
    `  light of the star ${isAbsent(report.starCounts) ? `– (${report.starCounts.absent})` : `${formatQuantity(report.starCounts)} counts`}`,
  ];
  report.disks.forEach((disk, k) => {
    const row = (name: string, value: Quantity): string[] => [
      name,
      isAbsent(value) ? `– (${value.absent})` : formatQuantity(value),
      isAbsent(value) ? '' : interval(value),
    ];
    const { x, y } = disk.displacementPixels;
    lines.push(
      `  halo ${k + 1}, significance ${disk.significance.toFixed(1)}`,
      ...textColumns(
        [
          row('outer radius / pixels', disk.outerRadiusPixels),
          row('inner radius / pixels', disk.innerRadiusPixels),
          row('outer diameter / µm', disk.outerDiameterUm),
          row('outer radius / arcsec', disk.outerRadiusArcsec),
          row('share of the star', disk.shareOfStar),
          row('fainter than the star / mag', disk.magnitudesFainter),
          row('surface / mag arcsec⁻² above the star', disk.surfaceMagnitudes),
          row('light / counts', disk.fluxCounts),
          row('spacing in air / mm', disk.geometry.airSpacingMm),
          row('thickness in glass / mm', disk.geometry.glassThicknessMm),
          row('hole over disk', disk.geometry.holeShare),
          ...(disk.displaced ? [row('displaced in x / pixels', x), row('displaced in y / pixels', y)] : []),
        ],
        '    ',
      ),
      ...wrapText('words' in disk.faces ? disk.faces.words : disk.faces.absent, '    '),
      ...(showsMove ? movedLines(disk.moved) : []),
    );
  });
  if (report.disks.length === 0) lines.push('  no halo found');
  lines.push(...limitLines(report));
  if (!('absent' in report.judgements)) {
    for (const { verdict, words } of report.judgements) lines.push(...wrapText(`${verdict}: ${words}`, '  '));
  }
  for (const words of report.assumed) lines.push(...wrapText(`taken for the limit: ${words}`, '  '));
  for (const note of report.notes) lines.push(...wrapText(note, '  '));
  return lines;
}

/** What moving the filter before the corrector would change. */
function movedLines(moved: HaloReport['disks'][number]['moved']): string[] {
  if ('absent' in moved) return wrapText(`before the corrector: – (${moved.absent})`, '    ');
  const { diameterUm, movedDiameterUm, magnitudesFainter } = moved;
  const change = `${Math.abs(magnitudesFainter).toFixed(2)} mag arcsec⁻² ${magnitudesFainter < 0 ? 'brighter' : 'fainter'}`;
  return wrapText(
    `before the corrector: ${movedDiameterUm.toFixed(0)} µm across instead of ${diameterUm.toFixed(0)} µm, its surface ${change}`,
    '    ',
  );
}

function limitLines(report: HaloReport): string[] {
  if (report.limits.length === 0) return [];
  const head = [
    'upper limits at 95 %: radius / pixels',
    'counts a pixel',
    'share of the star',
    'mag arcsec⁻²',
  ];
  const rows = report.limits.map((limit) => [
    limit.outerRadiusPixels.toFixed(0),
    limit.surfaceCounts.toPrecision(3),
    typeof limit.shareOfStar === 'number' ? limit.shareOfStar.toPrecision(2) : '–',
    typeof limit.surfaceMagnitudes === 'number' ? limit.surfaceMagnitudes.toFixed(2) : '–',
  ]);
  return textColumns([head, ...rows], '  ');
}

function comparisonLines(comparison: HaloComparison | { readonly absent: string }): string[] {
  if ('absent' in comparison) return wrapText(`comparison: – (${comparison.absent})`, '');
  const head = ['image', 'share of the star', 'over the first', 'fainter by / mag'];
  const rows = comparison.filters.map(({ label, shareOfStar, ratio, magnitudesFainter }) => [
    label,
    formatQuantity(shareOfStar),
    isAbsent(ratio) ? `– (${ratio.absent})` : `${formatQuantity(ratio)} ${interval(ratio)}`,
    formatQuantity(magnitudesFainter),
  ]);
  return [
    `the same disk in each, ${comparison.innerUm.toFixed(0)} to ${comparison.outerUm.toFixed(0)} µm from the star`,
    ...textColumns([head, ...rows], '  '),
  ];
}

function interval(value: Exclude<Quantity, { absent: string }>): string {
  const [low, high] = value.interval95;
  if (value.standardUncertainty === 0) return '';
  const digits = Math.max(0, Math.min(12, 2 - Math.ceil(Math.log10(value.standardUncertainty))));
  return `[${low.toFixed(digits)}, ${high.toFixed(digits)}]`;
}
