// Made from shared/atmosphere.json by scripts/generate-tables.mjs; do not edit.
import type { AtmosphereTable } from './types.js';

export const atmosphereTable: AtmosphereTable = {
  title: "Scattering in air",
  medium: "air, sea level, 1013.25 hPa",
  unit: "optical depth; wavelength in micrometres in the formula",
  edition: "standard atmosphere",
  source: [
    "Rayleigh: Hansen, Travis, Space Sci. Rev. 16, 527 (1974), equation 2.30",
    "aerosol: Angstrom, Geografiska Annaler 11, 156 (1929): optical depth as a power of the wavelength",
  ],
  note: "Rayleigh optical depth: a L^-4 (1 + b L^-2 + c L^-4).",
  rayleigh: { a: 0.008569, b: 0.0113, c: 0.00013 },
  aerosol: {
    opticalDepth550: 0.1,
    exponent: 1.3,
    exponentSource: "1.3: Angstrom (1929)",
    opticalDepthSource: "0.1 for clear air: common practice, no source",
  },
};
