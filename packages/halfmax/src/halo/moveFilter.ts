/** A pair of faces where it is now and where it would be, before the corrector. */
export interface FilterMove {
  /** Distance of the faces now, as if in air, mm. */
  readonly airSpacingMm: number;
  /** F-number at the sensor. */
  readonly fNumber: number;
  /** Distance of the faces before the corrector, as if in air, mm; the filter's own faces keep theirs. */
  readonly movedSpacingMm: number;
  /** F-number before the corrector. */
  readonly fNumberBefore: number;
}

/** What the move changes. */
export interface MovedHalo {
  /** Diameter of the disk now and after the move, micrometres. */
  readonly diameterUm: number;
  readonly movedDiameterUm: number;
  /** Moved over present diameter. */
  readonly sizeRatio: number;
  /** Moved over present surface brightness, for the same share of the light. */
  readonly surfaceRatio: number;
  /** Fainter by so many magnitudes per square arcsecond; negative: brighter. */
  readonly magnitudesFainter: number;
}

/**
 * How a halo changes when the filter is moved before the corrector (reducer or extender).
 *
 * @param move - the pair of faces now and then
 * @returns sizes and brightness
 * @throws {RangeError} a distance or f-number that is not above 0
 *
 * Source: geometry of a thin corrector that turns f/N' into f/N, so magnifies by N / N': a path longer by 2 d before
 * it shifts the focus by 2 d (N / N')^2 behind it, which an f/N cone spreads over 2 d N / N'^2.
 * @example
 * moveFilter({ airSpacingMm: 2, fNumber: 5, movedSpacingMm: 2, fNumberBefore: 10 }).sizeRatio; // => 0.25
 */
export function moveFilter(move: FilterMove): MovedHalo {
  for (const [name, value] of Object.entries(move)) {
    if (!(value > 0 && value < Infinity))
      throw new RangeError(`moveFilter requires ${name} above 0, got ${value}`);
  }
  const diameterUm = (2000 * move.airSpacingMm) / move.fNumber;
  const movedDiameterUm = (2000 * move.movedSpacingMm * move.fNumber) / move.fNumberBefore ** 2;
  const sizeRatio = movedDiameterUm / diameterUm;
  const surfaceRatio = 1 / sizeRatio ** 2;
  return {
    diameterUm,
    movedDiameterUm,
    sizeRatio,
    surfaceRatio,
    magnitudesFainter: 5 * Math.log10(sizeRatio),
  };
}
