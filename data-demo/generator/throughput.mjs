/**
 * @typedef {object} ThroughputSpec
 * @property {number} centreNm where the instrument sees most
 * @property {number} widthNm standard deviation of the bell
 * @property {number} blueEdgeNm where the blue end has fallen to a half
 * @property {number} redEdgeNm where the red end has
 * @property {number} edgeNm softness of both falls
 * @property {{ depth: number, periodNm: number } | null} etalon ripple of the window, period at 600 nm
 */

/**
 * Share of the light that reaches the detector's counts, against wavelength.
 *
 * @param {ThroughputSpec} spec
 * @returns {(wavelengthNm: number) => number} 0 to 1
 */
export function createThroughput(spec) {
  // Fringes of a plate are even in wavenumber: the period in nm grows with the square of the wavelength.
  const fringes = spec.etalon === null ? 0 : (2 * Math.PI * 600 * 600) / spec.etalon.periodNm;
  const depth = spec.etalon?.depth ?? 0;
  return (nm) => {
    const u = (nm - spec.centreNm) / spec.widthNm;
    const bell = Math.exp(-0.5 * u * u);
    const blue = 1 / (1 + Math.exp((spec.blueEdgeNm - nm) / spec.edgeNm));
    const red = 1 / (1 + Math.exp((nm - spec.redEdgeNm) / spec.edgeNm));
    const value = 0.02 + 0.98 * bell * blue * red;
    return fringes === 0 ? value : value * (1 + depth * Math.cos(fringes / nm));
  };
}

/**
 * Photons per nm of a glowing wire as the instrument sees it.
 *
 * Source: Planck's law, with the second radiation constant of the SI (2019), 1.438776877e7 nm K.
 *
 * @param {number} temperatureK
 * @param {(wavelengthNm: number) => number} throughput
 * @returns {(wavelengthNm: number) => number} relative, about 1 at 600 nm
 */
export function lampBrightness(temperatureK, throughput) {
  const constant = 1.438776877e7 / temperatureK;
  /** @param {number} nm */
  const photons = (nm) => 1 / ((nm / 600) ** 4 * Math.expm1(constant / nm));
  const unit = photons(600);
  return (nm) => (photons(nm) / unit) * throughput(nm);
}
