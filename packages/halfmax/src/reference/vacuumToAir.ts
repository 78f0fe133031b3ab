import { type AirState, airIndex } from './airIndex.js';

/**
 * Wavelength in air of light with a given wavelength in vacuum.
 *
 * @param vacuumNm - 230 to 1700 nm
 * @param state - of the air; standard when left out
 * @returns nm in air, shorter by about 0.028 %
 * @throws {RangeError} out of range
 *
 * Source: as {@link airIndex}.
 * @example
 * vacuumToAir(633).toFixed(8); // => '632.82500477'
 */
export function vacuumToAir(vacuumNm: number, state: AirState = {}): number {
  return vacuumNm / airIndex(vacuumNm, state);
}
