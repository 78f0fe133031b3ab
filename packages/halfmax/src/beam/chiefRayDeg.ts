/**
 * Angle of the chief ray at a place of the field.
 *
 * @param fieldHeightMm - distance from the axis on the sensor, 0 or more
 * @param exitPupilMm - distance of the exit pupil from the sensor, above 0; Infinity for a telecentric optic
 * @returns degrees
 * @throws {RangeError} a value out of range
 * Source: geometry.
 * @example
 * chiefRayDeg(14, 200).toFixed(4); // => '4.0042'
 */
export function chiefRayDeg(fieldHeightMm: number, exitPupilMm: number): number {
  if (!(fieldHeightMm >= 0 && fieldHeightMm < Infinity)) {
    throw new RangeError(`chiefRayDeg requires a field height of 0 or more, got ${fieldHeightMm}`);
  }
  if (!(exitPupilMm > 0)) throw new RangeError(`chiefRayDeg requires a distance above 0, got ${exitPupilMm}`);
  return (Math.atan(fieldHeightMm / exitPupilMm) * 180) / Math.PI;
}
