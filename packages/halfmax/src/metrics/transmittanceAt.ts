import { firstAbove, median } from '../numeric/index.js';
import type { LocalWeights } from './localWeights.js';
import { localWeights } from './localWeights.js';
import { absent, isAbsent, quantity } from './quantity.js';
import { requireCurve } from './requireCurve.js';
import { trustedPixels } from './trustedPixels.js';
import type { Absent, BandOptions, Curve, Quantity } from './types.js';

/** How the curve is smoothed around the wavelength. */
export interface TransmittanceAtOptions extends BandOptions {
  /** Half-width of the window, nm. @default 2.2 pixels, or half of the line spread where that is more */
  readonly halfWidthNm?: number;
}

/**
 * Transmittance at a wavelength, from a local cubic fit.
 *
 * @param curve - at least 5 pixels
 * @param wavelengthNm - air, nm
 * @param options - line spread or window
 * @returns the transmittance with its uncertainty from the noise of the pixels (the wavelength taken as
 *   exact), or why there is none: outside the scan, or between pixels too far apart to bridge
 * @throws {RangeError} a curve or wavelength that is not as described
 * Source: local regression, W. S. Cleveland, J. Am. Stat. Assoc. 74, 829 (1979). Cost: O(n).
 */
export function transmittanceAt(
  curve: Curve,
  wavelengthNm: number,
  options: TransmittanceAtOptions = {},
): Quantity {
  const weights = transmittanceWeights(curve, wavelengthNm, options);
  if (isAbsent(weights)) return weights;
  let value = 0;
  let variance = 0;
  weights.value.forEach((weight, i) => {
    value += weight * curve.transmittance[weights.from + i]!;
    variance += (weight * curve.standardUncertainty[weights.from + i]!) ** 2;
  });
  return quantity(value, Math.sqrt(variance));
}

/**
 * The pixel weights behind `transmittanceAt`: worked out once, they read any transmittances on the same pixels.
 *
 * @param curve - at least 5 pixels
 * @param wavelengthNm - air, nm
 * @param options - line spread or window
 * @returns weights for the value and for the slope (per nm) from pixel `from` on, or why there are none
 * @throws {RangeError} a curve or wavelength that is not as described
 */
export function transmittanceWeights(
  curve: Curve,
  wavelengthNm: number,
  options: TransmittanceAtOptions = {},
): LocalWeights | Absent {
  requireCurve('transmittanceAt', curve, 5);
  if (!Number.isFinite(wavelengthNm)) {
    throw new RangeError(`transmittanceAt requires a finite wavelength, got ${wavelengthNm}`);
  }
  const { lineSpreadNm = 0, halfWidthNm } = options;
  const scan = curve.wavelengthNm;
  const n = scan.length;
  if (wavelengthNm < scan[0]! || wavelengthNm > scan[n - 1]!) {
    return absent(`outside the scan, ${scan[0]!.toFixed(2)} to ${scan[n - 1]!.toFixed(2)} nm`);
  }
  const above = Math.min(Math.max(firstAbove(scan, wavelengthNm), 1), n - 1);
  const steps: number[] = [];
  for (let i = Math.max(1, above - 10); i <= Math.min(n - 1, above + 10); i++)
    steps.push(scan[i]! - scan[i - 1]!);
  const pixelNm = median(steps);
  const onPixel = wavelengthNm === scan[above] || wavelengthNm === scan[above - 1];
  if (!onPixel && scan[above]! - scan[above - 1]! > Math.max(2.5 * pixelNm, lineSpreadNm)) {
    return absent(
      `the curve has no pixels from ${scan[above - 1]!.toFixed(2)} to ${scan[above]!.toFixed(2)} nm`,
    );
  }
  const window = halfWidthNm ?? Math.max(2.2 * pixelNm, lineSpreadNm / 2);
  if (!(window > 0)) throw new RangeError(`transmittanceAt requires a window above 0, got ${window}`);
  return (
    localWeights(scan, trustedPixels(curve), wavelengthNm, window, 3) ??
    absent('too few pixels around the wavelength')
  );
}
