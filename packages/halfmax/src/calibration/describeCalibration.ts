import type { Warning } from '../frames/types.js';
import type { Calibration } from './calibration.js';
import type { DispersionFit } from './describeDispersion.js';
import { wavelengthAt } from './dispersion.js';
import type { NamedLine } from './nameLines.js';
import type { CalibrationLine, LineSpread } from './types.js';

/** Puts a calibration together: every line with its residual and why it was used or not. */
export function describeCalibration(
  named: readonly NamedLine[],
  fit: DispersionFit,
  lineSpread: LineSpread,
  warnings: Warning[],
): Calibration {
  let position = -1;
  const lines = named.map((line): CalibrationLine => {
    const base = {
      lamp: line.lamp,
      species: line.known?.species ?? null,
      wavelengthNm: line.known?.wavelengthNm ?? null,
      pixel: line.found.pixel,
      pixelUncertainty: line.found.pixelUncertainty,
    };
    if (line.trouble !== null) {
      const at = wavelengthAt(fit.dispersion, line.found.pixel);
      const residualNm = line.known === null ? null : at - line.known.wavelengthNm;
      return { ...base, residualNm, used: false, reason: line.trouble };
    }
    position += 1;
    const rejection = fit.rejected.find((entry) => entry.index === position);
    const residualNm = fit.residualsNm[position]!;
    return { ...base, residualNm, used: rejection === undefined, reason: rejection?.reason ?? usedAs(line) };
  });
  const used = lines.filter((line) => line.used).map((line) => line.wavelengthNm!);
  if (fit.shifts.length > 0) {
    const each = fit.shifts.map(
      ({ lamp, shiftPixels, standardUncertaintyPixels }) =>
        `${lamp} by ${shiftPixels.toFixed(3)} ± ${standardUncertaintyPixels.toFixed(3)}`,
    );
    warnings.push({
      where: 'lamps',
      what:
        `their lines lie off the mean of the lamps, in pixels: ${each.join(', ')}; ${fit.couplingNm.toFixed(3)} nm is ` +
        'added to the uncertainty of every wavelength',
    });
  }
  return {
    dispersion: fit.dispersion,
    lines,
    residualRmsNm: fit.residualRmsNm,
    leaveOneOutRmsNm: fit.leaveOneOutRmsNm,
    leaveOneOutByOrder: fit.leaveOneOutByOrder,
    jitterNm: fit.jitterNm,
    coveredNm: [Math.min(...used), Math.max(...used)],
    lineSpread,
    shifts: fit.shifts,
    couplingNm: fit.couplingNm,
    warnings,
  };
}

function usedAs(line: NamedLine): string {
  return line.blendWidths === null
    ? 'used'
    : `used: ${line.blendWidths.toFixed(1)} widths from a neighbour, fitted together`;
}
