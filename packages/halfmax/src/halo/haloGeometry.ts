import { absent, isAbsent, type Quantity } from '../metrics/index.js';
import type { HaloDisk } from './haloMeasurement.js';

/** The beam in which a halo was made. */
export interface HaloOptics {
  readonly fNumber: number;
  /** Standard uncertainty of the f-number; left out: 0. */
  readonly fNumberUncertainty?: number;
  /** Central obstruction as a share of the aperture's diameter; left out: not compared. */
  readonly obstruction?: number;
  /** Refractive index of the glass that is thought of; left out: 1.52, common crown glass. */
  readonly glassIndex?: number;
}

/** What makes a disk of that size. */
export interface HaloGeometry {
  /** Distance of two parallel faces in air, mm: the light between them runs it twice more. */
  readonly airSpacingMm: Quantity;
  /** Thickness of a glass plate whose own faces do the same, mm. */
  readonly glassThicknessMm: Quantity;
  /** Hole over disk. */
  readonly holeShare: Quantity;
  /** Whether the hole is the shadow of the obstruction, within twice the uncertainty. */
  readonly holeFits: boolean | { readonly absent: string };
}

const CROWN_GLASS = 1.52;

/**
 * Distance of the two faces between which light went once more to and fro to make a disk.
 *
 * @param disk - as measured
 * @param optics - beam at the place of the faces
 * @returns spacing in air and in glass, and whether the hole suits the obstruction
 * @throws {RangeError} a beam out of range
 *
 * Source: geometry: light of an f/N cone that runs 2 d further is spread over a disk of diameter 2 d / N, in glass
 * 2 t / (n N), its hole the obstruction's share; index 1.52: common practice, no source.
 * @example
 * const outerDiameterUm = { value: 800, standardUncertainty: 8, interval95: [784, 816] };
 * const disk = { outerDiameterUm, innerDiameterUm: { absent: 'no hole' } };
 * haloGeometry(disk, { fNumber: 5 }).airSpacingMm.value; // => 2
 */
export function haloGeometry(
  disk: Pick<HaloDisk, 'outerDiameterUm' | 'innerDiameterUm'>,
  optics: HaloOptics,
): HaloGeometry {
  requireOptics('haloGeometry', optics);
  const { fNumber, fNumberUncertainty = 0, obstruction, glassIndex = CROWN_GLASS } = optics;
  const relative = fNumberUncertainty / fNumber;
  const airSpacingMm = times(disk.outerDiameterUm, fNumber / 2000, relative);
  const glassThicknessMm = times(disk.outerDiameterUm, (glassIndex * fNumber) / 2000, relative);
  let holeShare: Quantity = isAbsent(disk.innerDiameterUm)
    ? disk.innerDiameterUm
    : isAbsent(disk.outerDiameterUm)
      ? disk.outerDiameterUm
      : ratio(disk.innerDiameterUm, disk.outerDiameterUm);
  if (isAbsent(disk.innerDiameterUm)) holeShare = disk.innerDiameterUm;
  const holeFits =
    obstruction === undefined
      ? absent('the obstruction is not given')
      : isAbsent(holeShare)
        ? holeShare
        : Math.abs(holeShare.value - obstruction) <= Math.max(2 * holeShare.standardUncertainty, 0.02);
  return { airSpacingMm, glassThicknessMm, holeShare, holeFits };
}

/** Checks a beam. */
export function requireOptics(name: string, optics: HaloOptics): void {
  const { fNumber, fNumberUncertainty = 0, obstruction = 0, glassIndex = CROWN_GLASS } = optics;
  if (!(fNumber > 0 && fNumber < Infinity))
    throw new RangeError(`${name} requires an f-number above 0, got ${fNumber}`);
  if (!(fNumberUncertainty >= 0 && fNumberUncertainty < fNumber))
    throw new RangeError(`${name} requires an uncertainty of 0 or more, got ${fNumberUncertainty}`);
  if (!(obstruction >= 0 && obstruction < 1))
    throw new RangeError(`${name} requires an obstruction from 0 to below 1, got ${obstruction}`);
  if (!(glassIndex >= 1 && glassIndex < 4))
    throw new RangeError(`${name} requires an index from 1 to below 4, got ${glassIndex}`);
}

function times(value: Quantity, factor: number, relative: number): Quantity {
  if (isAbsent(value)) return value;
  const extra = 1.96 * relative * value.value;
  const reach = (end: number): number => Math.hypot(end - value.value, extra);
  return {
    value: value.value * factor,
    standardUncertainty: Math.hypot(value.standardUncertainty, relative * value.value) * factor,
    interval95: [
      (value.value - reach(value.interval95[0])) * factor,
      (value.value + reach(value.interval95[1])) * factor,
    ],
  };
}

function ratio(a: Exclude<Quantity, { absent: string }>, b: Exclude<Quantity, { absent: string }>): Quantity {
  const value = a.value / b.value;
  const standardUncertainty = Math.hypot(a.standardUncertainty, value * b.standardUncertainty) / b.value;
  return {
    value,
    standardUncertainty,
    interval95: [value - 1.96 * standardUncertainty, value + 1.96 * standardUncertainty],
  };
}
