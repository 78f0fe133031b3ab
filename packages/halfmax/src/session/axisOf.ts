import { median } from '../numeric/index.js';

/** What a leading column of a table counts along. */
export type Axis = { readonly kind: 'pixel' } | { readonly kind: 'wavelength'; readonly nmPerUnit: number };

/** Ranges, in the unit, in which a spectrometer's wavelengths lie, with the unit in nm. */
export const wavelengthUnits: readonly {
  name: string;
  nmPerUnit: number;
  from: number;
  to: number;
  header: RegExp;
}[] = [
  { name: 'nm', nmPerUnit: 1, from: 150, to: 2500, header: /(?:^|[^a-z])nm(?:$|[^a-z])|nanomet/i },
  {
    name: 'um',
    nmPerUnit: 1000,
    from: 0.15,
    to: 2.5,
    header: /(?:^|[^a-z])[uµμ]m(?:$|[^a-z])|micron|micromet/i,
  },
  {
    name: 'Angstrom',
    nmPerUnit: 0.1,
    from: 2500,
    to: 25000,
    header: /[åÅ]|angstr|(?:^|[^a-z])A(?:$|[^a-z])/,
  },
];

/** Whether every value lies beyond the one before it, in one direction. */
export function isStrictlyMonotonic(values: Float64Array): boolean {
  const sign = Math.sign(values[1]! - values[0]!);
  if (sign === 0 || !Number.isFinite(sign)) return false;
  for (let i = 1; i < values.length; i++) if (Math.sign(values[i]! - values[i - 1]!) !== sign) return false;
  return true;
}

/** Whether the values are whole numbers that step by 1 or by -1 throughout. */
export function isPixelNumber(values: Float64Array): boolean {
  const step = values[1]! - values[0]!;
  if (Math.abs(step) !== 1 || !Number.isInteger(values[0]!)) return false;
  for (let i = 1; i < values.length; i++) if (values[i]! - values[i - 1]! !== step) return false;
  return true;
}

/** The coarsest of 1, 0.1, ... 1e-6 that all values are written to. */
function writtenTo(values: Float64Array): number {
  for (let digits = 0; digits < 6; digits++) {
    const scale = 10 ** digits;
    if (values.every((v) => Math.abs(v * scale - Math.round(v * scale)) < 1e-6 * Math.max(1, scale * 1e-3)))
      return 1 / scale;
  }
  return 1e-6;
}

/** Whether the steps change slowly, as along a dispersion; the rounding of the written values is allowed for. */
function stepsSmoothly(values: Float64Array): boolean {
  const steps = new Float64Array(values.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = Math.abs(values[i + 1]! - values[i]!);
  const allowance = 0.2 * median(steps) + 2.5 * writtenTo(values);
  for (let i = 1; i < steps.length; i++) if (Math.abs(steps[i]! - steps[i - 1]!) > allowance) return false;
  return true;
}

/**
 * Whether a leading column of a table is an axis: pixel numbers (whole, one by one) or wavelengths (one direction,
 * even steps, within a range that a spectrometer can have). The header is believed where the numbers allow both.
 *
 * @param values - the column, at least 3 values
 * @param name - its name in the header, may be empty
 * @returns the axis, or null where it is none
 * Source: ranges by common practice, no source.
 */
export function axisOf(values: Float64Array, name: string): Axis | null {
  if (values.length < 3 || !isStrictlyMonotonic(values)) return null;
  const first = Math.min(values[0]!, values[values.length - 1]!);
  const last = Math.max(values[0]!, values[values.length - 1]!);
  const units = wavelengthUnits.filter((unit) => first >= unit.from && last <= unit.to);
  const unit = units.find((candidate) => candidate.header.test(name)) ?? units[0];
  const saysWavelength =
    /wave|lambda|λ|^wl\b/i.test(name) || wavelengthUnits.some((candidate) => candidate.header.test(name));
  if (isPixelNumber(values) && !(saysWavelength && unit !== undefined)) {
    const saysPixel = /pix|index|^px|chan|^#|^n[or]\b|number/i.test(name);
    if (saysPixel || unit === undefined || first <= 1) return { kind: 'pixel' };
  }
  return unit !== undefined && stepsSmoothly(values)
    ? { kind: 'wavelength', nmPerUnit: unit.nmPerUnit }
    : null;
}
