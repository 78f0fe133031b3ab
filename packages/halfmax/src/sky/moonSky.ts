import { nightSkyTable } from '../reference/index.js';
import { mixSkies } from './mixSkies.js';
import { type MoonPlace, moonBrightness } from './moonBrightness.js';
import { planckPhotons } from './planckPhotons.js';
import { type Aerosol, clearAir, opticalDepth } from './scattering.js';
import { setBrightness } from './setBrightness.js';
import { skyGrid } from './skyGrid.js';
import type { Sky } from './types.js';

/**
 * Moonlight in the sky: sunlight scattered by molecules and by aerosol, each with a colour of its own.
 *
 * @param place - moon and place looked at
 * @param aerosol - dust and haze: its exponent gives the colour
 * @returns the sky that the moon adds
 * @throws {RangeError} a value out of range
 * Source: brightness by Krisciunas, Schaefer (1991); colour by an own model: the sun as a black body, times the
 * optical depth. The reddening by the moon itself and the lines of the sun are left out.
 */
export function moonSky(place: MoonPlace, aerosol: Aerosol = clearAir): Sky {
  const brightness = moonBrightness(place);
  const part = (kind: 'rayleigh' | 'aerosol', magnitude: number): Sky =>
    setBrightness(
      {
        wavelengthNm: skyGrid,
        photons: skyGrid.map(
          (at) =>
            planckPhotons(at, nightSkyTable.sunTemperatureK) *
            // Clear of aerosol the colour of its light does not matter, only its shape is needed.
            opticalDepth(at, { opticalDepth550: 1, exponent: aerosol.exponent })[kind],
        ),
        lines: [],
      },
      magnitude,
    );
  return mixSkies([
    { sky: part('rayleigh', brightness.molecules), factor: 1 },
    { sky: part('aerosol', brightness.aerosol), factor: 1 },
  ]);
}
