import type { Curve } from '../metrics/index.js';
import { filterAngleTable } from '../reference/index.js';
import { curveInBeam, type InBeamOptions } from './curveInBeam.js';
import { requireIndex } from './requireBeam.js';
import type { Beam, IndexRange } from './types.js';

/** A curve in a beam with the band that an index between two limits leaves open. */
export interface CurveBand {
  readonly wavelengthNm: Float64Array;
  /** Mean over the index. */
  readonly transmittance: Float64Array;
  /** Of the noise of the pixels and the index together. */
  readonly standardUncertainty: Float64Array;
  /** The central 95 % over the index alone. */
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** As many indices, evenly spaced in the range and each as likely, as the central 95 % needs. */
const INDICES = 41;

/**
 * A curve in a beam where the effective index is known between limits only.
 *
 * @param curve - transmittance, straight between its pixels
 * @param beam - the beam in use
 * @param options - index or its range (left out: the range of the table filter-angle); measuring beam
 * @returns mean, uncertainty and band at the wavelengths that every index reaches
 * @throws {RangeError} a beam, index or curve that cannot be
 * Source: the rectangular distribution of JCGM 101:2008, 6.4.2, by its evenly spaced quantiles. Cost: 41 curves.
 */
export function curveBandInBeam(
  curve: Curve,
  beam: Beam,
  options: Omit<InBeamOptions, 'effectiveIndex'> & { readonly effectiveIndex?: IndexRange } = {},
): CurveBand {
  const { effectiveIndex = filterAngleTable.effectiveIndex as readonly [number, number], ...rest } = options;
  const [low, high] = requireIndex('curveBandInBeam', effectiveIndex);
  const count = low === high ? 1 : INDICES;
  const curves = Array.from({ length: count }, (_, k) =>
    curveInBeam(curve, beam, { ...rest, effectiveIndex: low + ((high - low) * (k + 0.5)) / count }),
  );
  // A higher index needs less of the scan: the wavelengths of the lowest are within those of all.
  const wavelengthNm = curves[0]!.wavelengthNm;
  const first = curves.map((one) => one.wavelengthNm.indexOf(wavelengthNm[0]!));
  const n = wavelengthNm.length;
  const band = { transmittance: new Float64Array(n), standardUncertainty: new Float64Array(n) };
  const ends = { low: new Float64Array(n), high: new Float64Array(n) };
  const drop = Math.floor(0.025 * count);
  for (let i = 0; i < n; i++) {
    const values = Float64Array.from(curves, (one, k) => one.transmittance[first[k]! + i]!);
    let noise = 0;
    let mean = 0;
    curves.forEach((one, k) => {
      mean += values[k]! / count;
      noise += one.standardUncertainty[first[k]! + i]! ** 2 / count;
    });
    const spread = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / count;
    values.sort();
    band.transmittance[i] = mean;
    band.standardUncertainty[i] = Math.sqrt(noise + spread);
    ends.low[i] = values[drop]!;
    ends.high[i] = values[count - 1 - drop]!;
  }
  return { wavelengthNm, ...band, ...ends };
}
