import type { CurveTable, Measurement } from '../measure/index.js';

/** Digits that every number of a result file is written to: more than any of them is worth. */
const DIGITS = 12;

/**
 * A measurement as the text of its file.
 *
 * @param measurement - the measurement
 * @returns JSON, indented, with a final line break
 */
export function measurementText(measurement: Measurement): string {
  const text = JSON.stringify(
    measurement,
    (_, value: unknown) => (typeof value === 'number' ? rounded(value) : value),
    1,
  );
  return `${text}\n`;
}

/**
 * A curve as a table of comma-separated values.
 *
 * @param curve - the curve
 * @returns header and one line per pixel, shortest wavelength first
 */
export function curveText(curve: CurveTable): string {
  const lines = ['wavelength_nm,transmittance,standard_uncertainty'];
  for (let i = 0; i < curve.wavelengthNm.length; i++) {
    const numbers = [curve.wavelengthNm[i]!, curve.transmittance[i]!, curve.standardUncertainty[i]!];
    lines.push(numbers.map((value) => String(Number(value.toPrecision(9)))).join(','));
  }
  return `${lines.join('\n')}\n`;
}

function rounded(value: number): number {
  if (!Number.isFinite(value)) throw new Error(`a result holds ${value}`);
  return Number(value.toPrecision(DIGITS));
}
