/** State of the air; dry, with 450 parts per million of carbon dioxide. */
export interface AirState {
  /** @default 15 */
  readonly temperatureC?: number;
  /** @default 101325 */
  readonly pressurePa?: number;
}

/**
 * Refractive index of dry air.
 *
 * @param vacuumNm - vacuum wavelength, 230 to 1700 nm
 * @param state - temperature and pressure; without it the standard air of wavelength tables
 * @returns above 1, about 1.00028
 * @throws {RangeError} a wavelength, temperature or pressure out of range
 *
 * Source: Ciddor, Applied Optics 35, 1566 (1996), eq. 1 and, for the density, eq. 4 and appendix A.
 * @example
 * airIndex(633).toFixed(9); // => '1.000276530'
 */
export function airIndex(vacuumNm: number, state: AirState = {}): number {
  const { temperatureC = 15, pressurePa = 101325 } = state;
  if (!(vacuumNm >= 230 && vacuumNm <= 1700)) {
    throw new RangeError(`airIndex requires a wavelength from 230 to 1700 nm, got ${vacuumNm}`);
  }
  if (!(temperatureC >= -40 && temperatureC <= 100) || !(pressurePa >= 0 && pressurePa <= 140000)) {
    throw new RangeError(
      `airIndex requires -40 to 100 C and 0 to 140000 Pa, got ${temperatureC}, ${pressurePa}`,
    );
  }
  const perMicrometreSquared = (1000 / vacuumNm) ** 2;
  const standard =
    0.05792105 / (238.0185 - perMicrometreSquared) + 0.00167917 / (57.362 - perMicrometreSquared);
  return 1 + (standard * molarDensity(temperatureC, pressurePa)) / molarDensity(15, 101325);
}

/** Pressure over compressibility and temperature, Pa/K: dry air by the equation of state that the paper uses. */
function molarDensity(temperatureC: number, pressurePa: number): number {
  const kelvin = temperatureC + 273.15;
  const ratio = pressurePa / kelvin;
  const compressibility =
    1 -
    ratio * (1.58123e-6 + temperatureC * (-2.9331e-8 + temperatureC * 1.1043e-10)) +
    ratio * ratio * 1.83e-11;
  return ratio / compressibility;
}
