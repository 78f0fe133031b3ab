/**
 * A fixed grating spectrometer with a flat detector.
 *
 * @typedef {object} GratingGeometry
 * @property {number} pixels along the dispersion
 * @property {number} pixelUm pitch of the pixels
 * @property {number} focalMm from the camera to the detector, on the axis
 * @property {number} includedAngleDeg diffraction angle less incidence angle, on the axis
 * @property {number} tiltDeg of the detector against the normal of the axis
 * @property {number} offsetPixels by how much the middle of the array lies beside the axis
 * @property {number} groovesPerMm of the grating, used in first order
 * @property {number} axisNm wavelength that falls on the axis
 * @property {boolean} reversed true where the pixels count from red to blue
 *
 * @typedef {object} Grating
 * @property {(pixel: number) => number} wavelengthAt nm in air at a place in pixels (pixel centres are integers)
 * @property {(wavelengthNm: number) => number} pixelAt place of a wavelength, in pixels; NaN where none
 * @property {(pixel: number) => number} dispersionAt nm per pixel, always positive
 */

const degree = Math.PI / 180;

/**
 * Lays out the spectrometer: wavelength d (sin a + sin b) with b from the place on the detector.
 *
 * Source: the grating equation in first order, any textbook of optics.
 *
 * @param {GratingGeometry} geometry
 * @returns {Grating}
 */
export function createGrating(geometry) {
  const spacingNm = 1e6 / geometry.groovesPerMm;
  const half = (geometry.includedAngleDeg * degree) / 2;
  const mean = Math.asin(geometry.axisNm / (2 * spacingNm * Math.cos(half)));
  const sinIncidence = Math.sin(mean - half);
  const axisAngle = mean + half;
  const sinTilt = Math.sin(geometry.tiltDeg * degree);
  const cosTilt = Math.cos(geometry.tiltDeg * degree);
  const focal = geometry.focalMm;
  const pitch = (geometry.pixelUm / 1000) * (geometry.reversed ? -1 : 1);
  const middle = (geometry.pixels - 1) / 2;

  /** @param {number} pixel */
  const wavelengthAt = (pixel) => {
    const place = (pixel - middle + geometry.offsetPixels) * pitch;
    const angle = axisAngle + Math.atan((place * cosTilt) / (focal + place * sinTilt));
    return spacingNm * (sinIncidence + Math.sin(angle));
  };
  /** @param {number} wavelengthNm */
  const pixelAt = (wavelengthNm) => {
    const tangent = Math.tan(Math.asin(wavelengthNm / spacingNm - sinIncidence) - axisAngle);
    const place = (focal * tangent) / (cosTilt - tangent * sinTilt);
    return place / pitch + middle - geometry.offsetPixels;
  };
  /** @param {number} pixel */
  const dispersionAt = (pixel) => Math.abs(wavelengthAt(pixel + 0.5) - wavelengthAt(pixel - 0.5));
  return { wavelengthAt, pixelAt, dispersionAt };
}

/**
 * Chooses groove density and axis wavelength so that the array spans a wanted range.
 *
 * @param {Omit<GratingGeometry, 'groovesPerMm' | 'axisNm'>} mount
 * @param {number} shortNm wavelength at the blue end of the array
 * @param {number} longNm wavelength at the red end
 * @returns {GratingGeometry | null} null where no grating does it
 */
export function fitGrating(mount, shortNm, longNm) {
  let axisNm = (shortNm + longNm) / 2;
  const lengthMm = (mount.pixels * mount.pixelUm) / 1000;
  let groovesPerMm = ((longNm - shortNm) / lengthMm) ** -1 * (1e6 / mount.focalMm);
  for (let round = 0; round < 40; round++) {
    const grating = createGrating({ ...mount, groovesPerMm, axisNm });
    const ends = [grating.wavelengthAt(0), grating.wavelengthAt(mount.pixels - 1)];
    const low = Math.min(...ends);
    const high = Math.max(...ends);
    if (!Number.isFinite(low + high)) return null;
    groovesPerMm *= (high - low) / (longNm - shortNm);
    axisNm += (shortNm + longNm - low - high) / 2;
    if (Math.abs(low - shortNm) + Math.abs(high - longNm) < 1e-9) return { ...mount, groovesPerMm, axisNm };
  }
  return null;
}
