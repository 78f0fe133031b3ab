import {
  type Calibration,
  calibrate,
  compareInstrumentScale,
  type InstrumentScaleReport,
} from '../calibration/index.js';
import { type CleanSpectrum, combineExposures, type Detector } from '../frames/index.js';

/**
 * Joins the exposures of each lamp and calibrates the wavelengths.
 *
 * @param spectra - clean spectra of the session
 * @param detector - length and nominal range
 * @returns the calibration
 * @throws {BadInputError} lamp frames that give no wavelength scale
 */
export function calibrateSession(spectra: readonly CleanSpectrum[], detector: Detector): Calibration {
  const lamps = spectra.filter((spectrum) => spectrum.role === 'lamp');
  const labels = [...new Set(lamps.map((spectrum) => spectrum.lamp!))];
  return calibrate(
    labels.map((label) => {
      const own = lamps.filter((spectrum) => spectrum.lamp === label);
      const where = own.map((spectrum) => `frames[${spectrum.entry}]`).join(', ');
      return { label, where, ...combineExposures(own) };
    }),
    detector,
  );
}

/**
 * The instrument's own wavelength column against the lamps' scale.
 *
 * @param spectra - clean spectra of the session
 * @param calibration - the lamps' scale
 * @returns the comparison, or null where no frame carries a wavelength column
 */
export function instrumentScaleOf(
  spectra: readonly CleanSpectrum[],
  calibration: Calibration,
): InstrumentScaleReport | null {
  const own = spectra.find((spectrum) => spectrum.wavelengthNm !== null)?.wavelengthNm;
  return own === undefined || own === null ? null : compareInstrumentScale(own, calibration.dispersion);
}
