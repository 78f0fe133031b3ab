import {
  type Calibration,
  type InstrumentScaleReport,
  lineSpreadAt,
  wavelengthAt,
} from '../calibration/index.js';
import type { CalibrationReport } from './measurement.js';

/**
 * A calibration as plain numbers for the measurement file.
 *
 * @param calibration - scale, lines and line spread
 * @param pixels - length of the detector
 * @param instrumentScale - the instrument's own scale against it
 * @returns the report; the line spread is given at the lines it rests on
 */
export function calibrationReport(
  calibration: Calibration,
  pixels: number,
  instrumentScale: InstrumentScaleReport | null,
): CalibrationReport {
  const { dispersion, lineSpread } = calibration;
  const ends = [wavelengthAt(dispersion, 0), wavelengthAt(dispersion, pixels - 1)] as const;
  const { boxShare, boxRatio, skewness } = lineSpread;
  return {
    order: dispersion.order,
    coefficients: [...dispersion.coefficients],
    covariance: dispersion.covariance.map((row) => [...row]),
    pivotPixel: dispersion.pivotPixel,
    pixelScale: dispersion.pixelScale,
    lines: calibration.lines,
    residualRmsNm: calibration.residualRmsNm,
    leaveOneOutRmsNm: calibration.leaveOneOutRmsNm,
    leaveOneOutByOrder: calibration.leaveOneOutByOrder,
    jitterNm: calibration.jitterNm,
    coveredNm: calibration.coveredNm,
    rangeNm: [Math.min(...ends), Math.max(...ends)],
    lineSpread: [...new Set(lineSpread.linesNm)].map((wavelengthNm) => ({
      wavelengthNm,
      ...lineSpreadAt(lineSpread, wavelengthNm),
    })),
    lineShape: { boxShare, boxRatio, skewness },
    lampShifts: calibration.shifts,
    instrumentScale,
  };
}
