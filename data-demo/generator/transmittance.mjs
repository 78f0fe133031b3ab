/**
 * The true transmittance of an invented filter.
 *
 * @typedef {object} BandSpec
 * @property {'butterworth' | 'gaussian' | 'rectangle'} shape
 * @property {number} centreNm
 * @property {number} fwhmNm of the bare shape, before ripple, slope and lopsidedness
 * @property {number} peak transmittance of the bare shape
 * @property {number} [cavities] `butterworth`: 1 to 4, steeper with more
 * @property {number} [edgeNm] `rectangle`: softness of the edges (distance from 50 % to 73 %)
 * @property {{ depth: number, cycles: number }} [ripple] a dent of this relative depth, so many times over the width
 * @property {number} [lopsided] -0.3 to 0.3: the red half is wider by this share, the blue half narrower
 * @property {number} [slope] relative change of the top over one full width
 *
 * @typedef {object} FilterCurveSpec
 * @property {readonly BandSpec[]} bands
 * @property {number} blockingOd optical density between the bands
 * @property {{ centreNm: number, fwhmNm: number, opticalDensity: number } | null} [leak]
 */

/**
 * Makes the transmittance of a filter a function of wavelength.
 *
 * @param {FilterCurveSpec} filter
 * @returns {(wavelengthNm: number) => number} 0 to 1
 */
export function transmittanceOf(filter) {
  const floor = 10 ** -filter.blockingOd;
  const bands = filter.bands.map(bandOf);
  const leak = filter.leak ?? null;
  return (wavelengthNm) => {
    let sum = floor;
    for (const band of bands) sum += band(wavelengthNm);
    if (leak !== null) {
      const u = (wavelengthNm - leak.centreNm) / leak.fwhmNm;
      sum += 10 ** -leak.opticalDensity * Math.exp(-4 * Math.LN2 * u * u);
    }
    return Math.min(1, sum);
  };
}

/**
 * @param {BandSpec} band
 * @returns {(wavelengthNm: number) => number}
 */
function bandOf(band) {
  const shape = shapeOf(band);
  const lopsided = band.lopsided ?? 0;
  const slope = band.slope ?? 0;
  const ripple = band.ripple ?? null;
  const half = band.fwhmNm / 2;
  return (wavelengthNm) => {
    const away = wavelengthNm - band.centreNm;
    const u = away / (half * (away > 0 ? 1 + lopsided : 1 - lopsided));
    let value = shape(u);
    if (value < 1e-12) return 0;
    if (ripple !== null) value *= 1 - ripple.depth * Math.sin((Math.PI * ripple.cycles * u) / 2) ** 2;
    // The slope is held beyond the band's flanks, so that the curve stays positive.
    if (slope !== 0) value *= 1 + (slope / 2) * Math.max(-1.5, Math.min(1.5, u));
    return band.peak * value;
  };
}

/**
 * @param {BandSpec} band
 * @returns {(u: number) => number} about 1 at 0 and 0.5 at -1 and 1
 */
function shapeOf(band) {
  switch (band.shape) {
    case 'gaussian':
      return (u) => Math.exp(-Math.LN2 * u * u);
    case 'butterworth': {
      const cavities = band.cavities ?? 3;
      return (u) => {
        const square = u * u;
        let power = square;
        for (let k = 1; k < cavities; k++) power *= square;
        return 1 / (1 + power);
      };
    }
    case 'rectangle': {
      const softness = (band.edgeNm ?? 0.1) / (band.fwhmNm / 2);
      return (u) => 1 / (1 + Math.exp((Math.abs(u) - 1) / softness));
    }
  }
}
