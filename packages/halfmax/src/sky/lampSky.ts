import { photometryTable } from '../reference/index.js';
import { knownLightSources, lightSource } from './lightSource.js';
import { PHOTON_ENERGY_J_NM } from './photonRates.js';
import { type Aerosol, clearAir, opticalDepth } from './scattering.js';
import { skyGrid } from './skyGrid.js';
import { tableReader } from './tableReader.js';
import type { LampShare, Sky } from './types.js';

/**
 * Lamplight scattered back by the air, on a scale of its own.
 *
 * @param mix - lamps and their shares of the luminous flux, relative; at least one above 0
 * @param aerosol - dust and haze
 * @returns the sky, to be set to a brightness
 * @throws {RangeError} an unknown lamp, a share below 0, or none above 0
 * Source: own model: light scattered once goes with the optical depth of molecules and aerosol together.
 */
export function lampSky(mix: readonly LampShare[], aerosol: Aerosol = clearAir): Sky {
  const eye = tableReader(photometryTable.luminousEfficiency);
  const photons = new Float64Array(skyGrid.length);
  const lines: { wavelengthNm: number; photons: number }[] = [];
  const air = skyGrid.map((at) => scattered(at, aerosol));
  let total = 0;
  for (const { source, share } of mix) {
    if (!(share >= 0 && share < Infinity))
      throw new RangeError(`lampSky requires shares of 0 or more, got ${share} of ${source}`);
    const lamp = lightSource(source);
    if (lamp === null)
      throw new RangeError(`lampSky requires one of ${knownLightSources.join(', ')}, got ${source}`);
    total += share;
    if (share === 0) continue;
    const power = skyGrid.map(lamp.powerAt);
    let flux = power.reduce((sum, value, i) => sum + 0.5 * value * eye(skyGrid[i]!), 0);
    for (const line of lamp.lines) flux += line.power * eye(line.wavelengthNm);
    const scale = share / flux / PHOTON_ENERGY_J_NM;
    for (let i = 0; i < photons.length; i++) photons[i]! += scale * power[i]! * skyGrid[i]! * air[i]!;
    for (const { wavelengthNm, power: of } of lamp.lines) {
      lines.push({
        wavelengthNm,
        photons: scale * of * wavelengthNm * scattered(wavelengthNm, aerosol),
      });
    }
  }
  if (!(total > 0)) throw new RangeError(`lampSky requires a share above 0, got ${total}`);
  return { wavelengthNm: skyGrid, photons, lines };
}

function scattered(wavelengthNm: number, aerosol: Aerosol): number {
  const depth = opticalDepth(wavelengthNm, aerosol);
  return depth.rayleigh + depth.aerosol;
}
