import { type AirState, airIndex } from './airIndex.js';

/**
 * Wavelength in vacuum of light with a given wavelength in air: the inverse of `vacuumToAir`, to 1e-9 nm and better.
 *
 * @param airNm - 230 to 1699 nm
 * @param state - of the air; standard when left out
 * @returns nm in vacuum, longer by about 0.028 %
 * @throws {RangeError} out of range
 *
 * Source: as {@link airIndex}; the index varies so little that each round gains four to five digits.
 * @example
 * airToVacuum(632.82500477).toFixed(6); // => '633.000000'
 */
export function airToVacuum(airNm: number, state: AirState = {}): number {
  let vacuumNm = airNm;
  for (let round = 0; round < 5; round++) vacuumNm = airNm * airIndex(vacuumNm, state);
  return vacuumNm;
}
