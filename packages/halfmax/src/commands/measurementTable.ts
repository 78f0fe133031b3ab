import type { BandReport, ClaimReport, Measurement } from '../measure/index.js';
import { decimalsFor, formatQuantity, isAbsent, type OutOfBand, type Quantity } from '../metrics/index.js';

const ROWS = [
  ['fwhmNm', 'FWHM / nm'],
  ['centreNm', 'centre / nm'],
  ['peakNm', 'peak at / nm'],
  ['peakTransmittance', 'peak transmittance'],
  ['transmittanceAtLine', 'transmittance at line'],
] as const;

/**
 * A measurement as a table for the terminal.
 *
 * @param measurement - the measurement
 * @param out - where it was written
 * @returns lines of text
 */
export function measurementTable(measurement: Measurement, out: string): string {
  const { calibration } = measurement;
  const used = calibration.lines.filter((line) => line.used).length;
  const lines = [
    measurement.title,
    '',
    `Wavelengths: order ${calibration.order}, ${used} of ${calibration.lines.length} lamp lines, ` +
      `${calibration.coveredNm[0].toFixed(1)} to ${calibration.coveredNm[1].toFixed(1)} nm, ` +
      `residual rms ${calibration.residualRmsNm.toFixed(4)} nm, leave-one-out rms ${calibration.leaveOneOutRmsNm.toFixed(4)} nm`,
    `Line spread: ${spreadText(calibration.lineSpread)}`,
  ];
  for (const filter of measurement.filters) {
    lines.push('', `${filter.label} (${filter.id})`);
    if (filter.bands.length === 0) lines.push('  no passband measured');
    for (const band of filter.bands) lines.push(...bandLines(band));
    lines.push(`  out of band: ${blockingText(filter.outOfBand)}`);
  }
  if (measurement.frames.rejected.length > 0) {
    lines.push('', 'Frames left out:');
    for (const scan of measurement.frames.rejected) {
      lines.push(`  ${scan.file}${scan.column === '' ? '' : ` (${scan.column})`}: ${scan.reason}`);
    }
  }
  if (measurement.warnings.length > 0) {
    lines.push('', 'Warnings:');
    for (const warning of measurement.warnings) lines.push(`  ${warning.where}: ${warning.what}`);
  }
  lines.push('', `Written to ${out}`, '');
  return lines.join('\n');
}

function spreadText(spread: Measurement['calibration']['lineSpread']): string {
  const ends = spread.length === 1 ? [spread[0]!] : [spread[0]!, spread[spread.length - 1]!];
  const at = ends.map((end) => `${end.fwhmNm.toFixed(2)} nm at ${end.wavelengthNm.toFixed(0)} nm`);
  return `FWHM ${at.join(', ')}, pixel included`;
}

function bandLines(band: BandReport): string[] {
  const target = band.target.length === 0 ? 'no named line' : band.target.join(', ');
  const rows = ROWS.map(([key, name]) => [
    name,
    formatQuantity(band.asMeasured[key]),
    formatQuantity(band.corrected[key]),
  ]);
  const lines = [
    `  band for ${target}; line spread ${band.lineSpreadNm.value.toFixed(2)} nm`,
    ...columns([['', 'as measured', 'corrected'], ...rows], '    '),
  ];
  const others = band.lines.slice(1).map((line) => `${line.name}: ${formatQuantity(line.transmittance)}`);
  if (others.length > 0) lines.push(`    transmittance at ${others.join('; ')}`);
  if (band.claims.length > 0) {
    const claims = band.claims.map((claim) => [
      claim.quantity,
      claimText(claim),
      deviationText(claim),
      verdictText(claim),
    ]);
    lines.push(...columns([['claim', 'data sheet', 'deviation', 'verdict'], ...claims], '    '));
  }
  return lines;
}

function claimText({ claim }: ClaimReport): string {
  if ('atLeast' in claim) return `at least ${claim.atLeast}`;
  if ('atMost' in claim) return `at most ${claim.atMost}`;
  if (claim.tolerance === undefined) return `${claim.value}`;
  if (typeof claim.tolerance === 'number') return `${claim.value} ± ${claim.tolerance}`;
  return `${claim.value} -${claim.tolerance[0]} +${claim.tolerance[1]}`;
}

function deviationText({ deviation, measured }: ClaimReport): string {
  if ('atLeast' in measured) return `measured: at least ${measured.atLeast.toFixed(2)}`;
  if ('absent' in deviation) return '–';
  const { value, standardUncertainty } = deviation;
  if (standardUncertainty === 0) return value.toPrecision(3);
  const decimals = decimalsFor(standardUncertainty);
  return `${value < 0 ? '' : '+'}${value.toFixed(decimals)} ± ${standardUncertainty.toFixed(decimals)}`;
}

function verdictText({ verdict, probabilityMet }: ClaimReport): string {
  if (typeof probabilityMet !== 'number') return verdict;
  const percent = 100 * probabilityMet;
  const shown = percent > 99.9 ? '> 99.9' : percent < 0.1 ? '< 0.1' : percent.toFixed(1);
  return `${verdict} (probability ${shown} %)`;
}

function blockingText(blocking: OutOfBand | { readonly absent: string }): string {
  if (isAbsent(blocking)) return blocking.absent;
  const parts: string[] = [];
  const mean = blocking.meanOpticalDensity;
  if ('value' in mean) {
    const shown: Quantity = { ...mean, interval95: [mean.value, mean.value] };
    parts.push(`mean optical density ${formatQuantity(shown)}`);
  } else if ('atLeast' in mean)
    parts.push(`mean optical density at least ${mean.atLeast.toFixed(2)} (${mean.why})`);
  else parts.push(mean.absent);
  if (blocking.seenFromNm !== null && blocking.seenToNm !== null) {
    parts.push(`seen from ${blocking.seenFromNm.toFixed(0)} to ${blocking.seenToNm.toFixed(0)} nm`);
  }
  for (const leak of blocking.leaks)
    parts.push(`leak at ${leak.peakNm.toFixed(1)} nm, transmittance ${leak.peakTransmittance.toFixed(4)}`);
  return parts.join('; ');
}

/** Rows as columns of equal width. */
function columns(rows: readonly (readonly string[])[], indent: string): string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => [...row[column]!].length)));
  return rows.map((row) => {
    const cells = row.map((cell, column) => cell + ' '.repeat(widths[column]! - [...cell].length));
    return `${indent}${cells.join('  ')}`.trimEnd();
  });
}
