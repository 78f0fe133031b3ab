import { nightSkyTable } from '../reference/index.js';

/** Moon and place looked at. */
export interface MoonPlace {
  /** 0 new, 1 full. */
  readonly illuminatedFraction: number;
  readonly altitudeDeg: number;
  /** Angle between the moon and the place looked at. */
  readonly separationDeg: number;
  /** Of the place looked at. @default 1 */
  readonly airmass?: number;
}

/**
 * Brightness that the moon adds to the sky in V.
 *
 * @param place - moon and place looked at
 * @returns V magnitudes per square arcsecond of moonlight scattered by molecules and by aerosol; Infinity where the
 *   moon is below the horizon or new
 * @throws {RangeError} a fraction outside 0 to 1, an angle or airmass out of range
 * Source: Krisciunas, Schaefer, PASP 103, 1033 (1991), equations 3, 15 and 18 to 21; good to some 8 to 23 % there.
 */
export function moonBrightness(place: MoonPlace): { molecules: number; aerosol: number; together: number } {
  const { illuminatedFraction, altitudeDeg, separationDeg, airmass = 1 } = place;
  const refuse = (what: string, found: number): never => {
    throw new RangeError(`moonBrightness requires ${what}, got ${found}`);
  };
  if (!(illuminatedFraction >= 0 && illuminatedFraction <= 1))
    refuse('an illuminated fraction from 0 to 1', illuminatedFraction);
  if (!(altitudeDeg >= -90 && altitudeDeg <= 90)) refuse('an altitude from -90 to 90 degrees', altitudeDeg);
  if (!(separationDeg >= 0 && separationDeg <= 180))
    refuse('a separation from 0 to 180 degrees', separationDeg);
  if (!(airmass >= 1 && airmass <= 40)) refuse('an airmass from 1 to 40', airmass);
  const dark = Number.POSITIVE_INFINITY;
  if (altitudeDeg <= 0 || illuminatedFraction === 0)
    return { molecules: dark, aerosol: dark, together: dark };
  const { moon } = nightSkyTable;
  const phaseDeg = (Math.acos(2 * illuminatedFraction - 1) * 180) / Math.PI;
  const illuminance =
    10 ** (-0.4 * (moon.phaseConstant + moon.phaseLinear * phaseDeg + moon.phaseFourth * phaseDeg ** 4));
  const cosine = Math.cos((separationDeg * Math.PI) / 180);
  const byMolecules = 10 ** moon.rayleighLog * (1.06 + cosine * cosine);
  // Close to the moon the aerosol's part rises with the inverse square of the angle.
  const byAerosol =
    separationDeg >= 10
      ? 10 ** (moon.mieLog - separationDeg / moon.mieDegrees)
      : 6.2e7 / Math.max(separationDeg, 0.25) ** 2;
  const path = (1 - 0.96 * Math.cos((altitudeDeg * Math.PI) / 180) ** 2) ** -0.5;
  const reaching = 10 ** (-0.4 * moon.extinction * path);
  const scattered = 1 - 10 ** (-0.4 * moon.extinction * airmass);
  const magnitude = (nanolambert: number): number => (20.7233 - Math.log(nanolambert / 34.08)) / 0.92104;
  const light = illuminance * reaching * scattered;
  return {
    molecules: magnitude(byMolecules * light),
    aerosol: magnitude(byAerosol * light),
    together: magnitude((byMolecules + byAerosol) * light),
  };
}
