/** A telescope with a reducer or an extender, and where the filter sits. */
export interface OpticalTrain {
  /** Focal ratio of the telescope alone, 0.5 or more. */
  readonly fNumber: number;
  /** Factor of the reducer (below 1) or extender (above 1). @default 1 */
  readonly reducerFactor?: number;
  /** Side of the reducer on which the filter sits, seen along the light. @default 'behind' */
  readonly filterPlace?: 'before' | 'behind';
}

/**
 * Focal ratio of the light at the filter: before a reducer it is that of the telescope alone.
 *
 * @param train - telescope, reducer, place of the filter
 * @returns focal ratio at the filter and at the sensor
 * @throws {RangeError} a ratio below 0.5, or a factor not above 0
 * Source: the reducer multiplies the focal length of an aperture that stays the same.
 * @example
 * fNumberAtFilter({ fNumber: 5, reducerFactor: 0.7, filterPlace: 'before' }); // => { filter: 5, sensor: 3.5 }
 */
export function fNumberAtFilter(train: OpticalTrain): { filter: number; sensor: number } {
  const { fNumber, reducerFactor = 1, filterPlace = 'behind' } = train;
  if (!(reducerFactor > 0 && reducerFactor < Infinity)) {
    throw new RangeError(`fNumberAtFilter requires a reducer factor above 0, got ${reducerFactor}`);
  }
  const sensor = fNumber * reducerFactor;
  if (!(fNumber >= 0.5 && sensor >= 0.5)) {
    const found = sensor === fNumber ? `${fNumber}` : `${fNumber} and ${sensor}`;
    throw new RangeError(`fNumberAtFilter requires f-numbers of 0.5 or more, got ${found}`);
  }
  return { filter: filterPlace === 'before' ? fNumber : sensor, sensor };
}
