import type { Curve } from '../metrics/index.js';
import { beamRays } from './beamRays.js';
import { raysBetween } from './raysBetween.js';
import { requireIndex } from './requireBeam.js';
import { requireScan } from './requireScan.js';
import type { Beam } from './types.js';

/** What the curve's filter is and how it was measured. */
export interface InBeamOptions {
  /** Of the filter, 1 to 5. */
  readonly effectiveIndex: number;
  /** The beam in which the curve was measured. @default parallel light along the normal */
  readonly measuredIn?: Beam;
  /** Shift of the whole curve to the red, nm: temperature. @default 0 */
  readonly shiftNm?: number;
}

/**
 * A measured curve as a telescope's beam sees it: shifted to the blue and softened.
 *
 * @param curve - transmittance, straight between its pixels
 * @param beam - the beam in use
 * @param options - effective index; measuring beam
 * @returns the curve at the same wavelengths, but for those that would need light from beyond the scan; the standard
 *   uncertainties are those of the single numbers, which are no longer independent of their neighbours
 * @throws {RangeError} a beam, index or curve that cannot be
 * Source: mean of T(lambda / sqrt(1 - (sin a / n)^2)) over the directions of the beam. Cost: O(n x 48).
 */
export function curveInBeam(curve: Curve, beam: Beam, options: InBeamOptions): Curve {
  const { effectiveIndex, measuredIn, shiftNm = 0 } = options;
  requireIndex('curveInBeam', effectiveIndex);
  const scan = curve.wavelengthNm;
  const n = scan.length;
  requireScan('curveInBeam', scan, curve.transmittance);
  if (!Number.isFinite(shiftNm)) throw new RangeError(`curveInBeam requires a finite shift, got ${shiftNm}`);
  const direct = beamRays(beam);
  const { sineSquared, weight } =
    measuredIn === undefined ? direct : raysBetween(direct, beamRays(measuredIn)).rays;
  const factor = sineSquared.map((sine) => 1 / Math.sqrt(1 - sine / effectiveIndex ** 2));
  const least = factor.reduce((a, b) => Math.min(a, b));
  const most = factor.reduce((a, b) => Math.max(a, b));

  const from: number[] = [];
  const values: number[] = [];
  const uncertainties: number[] = [];
  const share = new Float64Array(n);
  const place = new Int32Array(factor.length);
  for (let i = 0; i < n; i++) {
    const here = scan[i]! - shiftNm;
    if (here * least < scan[0]! || here * most > scan[n - 1]!) continue;
    let value = 0;
    let low = n;
    let high = -1;
    for (let j = 0; j < factor.length; j++) {
      const at = here * factor[j]!;
      let k = place[j]!;
      while (k < n - 2 && scan[k + 1]! < at) k++;
      place[j] = k;
      const right = (weight[j]! * (at - scan[k]!)) / (scan[k + 1]! - scan[k]!);
      const left = weight[j]! - right;
      share[k]! += left;
      share[k + 1]! += right;
      value += left * curve.transmittance[k]! + right * curve.transmittance[k + 1]!;
      if (k < low) low = k;
      if (k > high) high = k;
    }
    let variance = 0;
    for (let k = low; k <= high + 1; k++) {
      variance += (share[k]! * curve.standardUncertainty[k]!) ** 2;
      share[k] = 0;
    }
    from.push(scan[i]!);
    values.push(value);
    uncertainties.push(Math.sqrt(variance));
  }
  return {
    wavelengthNm: Float64Array.from(from),
    transmittance: Float64Array.from(values),
    standardUncertainty: Float64Array.from(uncertainties),
  };
}
