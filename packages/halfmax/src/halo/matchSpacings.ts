import { isAbsent, type Quantity } from '../metrics/index.js';
import { type HaloOptics, haloGeometry } from './haloGeometry.js';
import type { HaloDisk } from './haloMeasurement.js';

/** A plate or a gap on the light's way, from the filter to the sensor. */
export interface Layer {
  /** Such as "filter", "gap", "sensor window". */
  readonly name: string;
  readonly thicknessMm: number;
  /** Standard uncertainty of the thickness; left out: 0.05 mm. */
  readonly uncertaintyMm?: number;
  /** Refractive index; left out or 1: an air gap, which has no faces of its own. */
  readonly index?: number;
}

/** Two faces, and how well light between them explains a disk. */
export interface FacePair {
  readonly faces: readonly [string, string];
  /** Distance as if in air, mm. */
  readonly airSpacingMm: number;
  /** Diameter of the disk that the pair makes, micrometres. */
  readonly diameterUm: number;
  /** Measured minus expected spacing, in standard uncertainties of both. */
  readonly deviation: number;
  readonly fits: boolean;
}

/** All pairs, the best first, and what they say. */
export interface SpacingMatch {
  readonly pairs: readonly FacePair[];
  readonly words: string;
}

const DEFAULT_UNCERTAINTY_MM = 0.05;
const FITS = 2;

/**
 * Names the pair of faces that fits a disk, or says that none does.
 *
 * @param disk - as measured
 * @param optics - beam through the layers
 * @param layers - from the filter to the sensor, in the light's order
 * @returns every pair of faces with the disk it would make
 * @throws {RangeError} fewer than one layer, a thickness or index out of range
 *
 * Source: as `haloGeometry`; a plate of thickness t and index n counts as t / n of air.
 */
export function matchSpacings(
  disk: Pick<HaloDisk, 'outerDiameterUm' | 'innerDiameterUm'>,
  optics: HaloOptics,
  layers: readonly Layer[],
): SpacingMatch {
  const faces = facesOf(layers);
  const { airSpacingMm } = haloGeometry(disk, optics);
  const pairs: FacePair[] = [];
  for (let i = 0; i < faces.length; i++) {
    for (let j = i + 1; j < faces.length; j++) {
      const spacing = faces[j]!.placeMm - faces[i]!.placeMm;
      const variance = faces[j]!.variance - faces[i]!.variance;
      if (spacing <= 0) continue;
      const deviation = deviationOf(airSpacingMm, spacing, Math.sqrt(variance));
      pairs.push({
        faces: [faces[i]!.name, faces[j]!.name],
        airSpacingMm: spacing,
        diameterUm: (2000 * spacing) / optics.fNumber,
        deviation,
        fits: Math.abs(deviation) <= FITS,
      });
    }
  }
  pairs.sort((a, b) => Math.abs(a.deviation) - Math.abs(b.deviation));
  const fitting = pairs.filter((pair) => pair.fits);
  const named = fitting.map(({ faces: [a, b] }) => `${a} and ${b}`);
  const words =
    named.length === 0
      ? 'no pair of the faces given fits'
      : named.length === 1
        ? `light between ${named[0]} fits`
        : `light between ${named.join(', or between ')} fits: the size alone does not tell them apart`;
  return { pairs, words };
}

function facesOf(layers: readonly Layer[]): { name: string; placeMm: number; variance: number }[] {
  if (layers.length === 0) throw new RangeError('matchSpacings requires at least one layer, got none');
  const faces: { name: string; placeMm: number; variance: number }[] = [];
  let placeMm = 0;
  let variance = 0;
  for (const { name, thicknessMm, uncertaintyMm = DEFAULT_UNCERTAINTY_MM, index = 1 } of layers) {
    if (!(thicknessMm > 0 && thicknessMm < 1e4))
      throw new RangeError(`matchSpacings requires a thickness above 0, got ${thicknessMm} for ${name}`);
    if (!(uncertaintyMm >= 0 && uncertaintyMm < Infinity) || !(index >= 1 && index < 4))
      throw new RangeError(
        `matchSpacings requires an uncertainty of 0 or more and an index from 1 to 4 for ${name}`,
      );
    if (index > 1) faces.push({ name: `the front of the ${name}`, placeMm, variance });
    placeMm += thicknessMm / index;
    variance += (uncertaintyMm / index) ** 2;
    if (index > 1) faces.push({ name: `the back of the ${name}`, placeMm, variance });
  }
  faces.push({ name: 'the sensor', placeMm, variance });
  return faces;
}

function deviationOf(measured: Quantity, spacing: number, uncertainty: number): number {
  if (isAbsent(measured)) return Number.POSITIVE_INFINITY;
  // Half of the interval's half-width stands for the uncertainty where the bootstrap is not normal.
  const own = Math.max(
    measured.standardUncertainty,
    (measured.interval95[1] - measured.interval95[0]) / 3.92,
  );
  return (measured.value - spacing) / (Math.hypot(own, uncertainty) || 1e-9);
}
