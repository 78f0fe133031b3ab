// Made from shared/night-sky.json by scripts/generate-tables.mjs; do not edit.
import type { NightSkyTable } from './types.js';

export const nightSkyTable: NightSkyTable = {
  title: "Natural light of the night sky, moonlight and classes of site",
  medium: "air",
  unit: "nm; rayleigh; S10 (stars of V = 10 per square degree); V magnitudes per square arcsecond",
  edition: "typical strengths at the zenith of a good site; airglow varies by a factor of two and more",
  source: [
    "Leinert et al., A&AS 127, 1 (1998): airglow, zodiacal light, starlight",
    "Krisciunas, Schaefer, PASP 103, 1033 (1991): moonlight",
  ],
  note: "1 rayleigh is 10^10 / (4 pi) photons per second, square metre and steradian.",
  airglow: {
    continuumRayleighPerNm: 3,
    continuumSource: "0.3 R per angstrom near 530 nm: Sternberg, Ingham, MNRAS 159, 1 (1972), from memory",
    lines: [
      { name: "[N I]", wavelengthNm: 519.9, rayleigh: 8, source: "dark-sky spectrum of an observatory, rounded" },
      {
        name: "[O I]",
        wavelengthNm: 557.7338,
        rayleigh: 250,
        source: "Leinert et al. (1998), table of airglow lines",
      },
      {
        name: "Na I",
        wavelengthNm: 588.995,
        rayleigh: 40,
        source: "Leinert et al. (1998): 30 R in summer to 100 R in winter for the pair, from memory",
      },
      { name: "Na I", wavelengthNm: 589.5924, rayleigh: 20, source: "half of its partner, from memory" },
      {
        name: "[O I]",
        wavelengthNm: 630.0304,
        rayleigh: 100,
        source: "Leinert et al. (1998): 10 to 500 R, from memory",
      },
      {
        name: "[O I]",
        wavelengthNm: 636.3776,
        rayleigh: 33,
        source: "a third of 630.0 nm: ratio of the transition probabilities",
      },
      {
        name: "OH",
        wavelengthNm: 653.3,
        rayleigh: 3,
        source: "place: Osterbrock et al., PASP 108, 277 (1996); strength from memory",
      },
      {
        name: "OH",
        wavelengthNm: 655.36,
        rayleigh: 3,
        source: "place: Osterbrock et al. (1996); strength as in the dark-sky spectrum of an observatory, rounded",
      },
      {
        name: "H I",
        wavelengthNm: 656.2819,
        rayleigh: 5,
        source: "geocoronal H-alpha: Leinert et al. (1998), 4 to 6 R, from memory",
      },
      { name: "OH", wavelengthNm: 657.72, rayleigh: 3, source: "from memory" },
      {
        name: "OH",
        wavelengthNm: 691.26,
        rayleigh: 8,
        source: "place: Osterbrock et al. (1996); strength from memory",
      },
      {
        name: "OH",
        wavelengthNm: 692.32,
        rayleigh: 8,
        source: "place: Osterbrock et al. (1996); strength from memory",
      },
      {
        name: "OH",
        wavelengthNm: 693.95,
        rayleigh: 6,
        source: "place: Osterbrock et al. (1996); strength from memory",
      },
    ],
  },
  zodiacal: {
    s10: 100,
    source: "Leinert et al. (1998), table 17: 60 at the ecliptic pole to 250 near the ecliptic at 90 degrees from the sun; 100 is a usual place, colour of the sun",
  },
  starlight: {
    s10: 25,
    temperatureK: 5000,
    source: "diffuse galactic light and stars too faint to be seen, away from the Milky Way: Leinert et al. (1998), section 10, rounded, from memory",
  },
  sunTemperatureK: 5772,
  sunSource: "IAU 2015 resolution B3, nominal effective temperature; the lines of the solar spectrum are left out",
  moon: {
    rayleighLog: 5.36,
    mieLog: 6.15,
    mieDegrees: 40,
    extinction: 0.172,
    phaseConstant: 3.84,
    phaseLinear: 0.026,
    phaseFourth: 4e-9,
    source: "Krisciunas, Schaefer (1991), equations 15, 20 and 21; extinction of their site in V",
  },
  siteClasses: [
    {
      name: "city centre",
      vMagnitude: 17,
      source: "common practice, no source; a city of two million spans 15 to 19.25 (arXiv:1304.7716)",
    },
    { name: "city", vMagnitude: 18.2, source: "common practice, no source" },
    { name: "suburb", vMagnitude: 19.3, source: "common practice, no source" },
    { name: "village", vMagnitude: 20.5, source: "common practice, no source" },
    { name: "countryside", vMagnitude: 21.2, source: "common practice, no source" },
    {
      name: "desert",
      vMagnitude: 21.8,
      source: "natural zenith of dark sites: 21.45 to 21.9 (Massey, Foltz, PASP 112, 566 (2000))",
    },
  ],
  siteLamps: [
    { source: "LED 4000 K", share: 0.5 },
    { source: "high-pressure sodium", share: 0.4 },
    { source: "metal halide", share: 0.1 },
  ],
  usual: {
    camera: { fNumber: 5, pixelUm: 3.76, quantumEfficiency: 0.8, readNoise: 1.5, darkCurrent: 0.001 },
    targets: [
      { species: "H-alpha", rayleigh: 50 },
      { species: "[O III]", rayleigh: 25 },
      { species: "[S II]", rayleigh: 15 },
      { species: "[N II]", rayleigh: 15 },
    ],
    otherRayleigh: 10,
    source: "a cooled sensor and a nebula of medium brightness: common practice, no source",
  },
  siteLampsSource: "common practice, no source: a mix in conversion; shares of the luminous flux",
  strengths: {
    brightness: { vMagnitudes: 0.1, source: "a hand-held sky meter: common practice, no source" },
    siteClass: {
      vMagnitudes: 0.28,
      source: "a rectangle half way to the next classes, 0.96 mag away on average: 0.48 / sqrt(3)",
    },
    airglow: {
      relative: 0.36,
      source: "a factor of two either way as 95 % of a lognormal; the factor: Leinert et al. (1998)",
    },
    moon: { relative: 0.15, source: "8 to 23 %: Krisciunas, Schaefer (1991); the middle" },
    shares: { relative: 0.2, source: "common practice, no source" },
    assumedShares: { relative: 0.5, source: "common practice, no source" },
  },
};
