/** The light that goes through a filter in a telescope. */
export interface Beam {
  /** Focal ratio of the light at the filter, 0.5 or more; Infinity for parallel light. */
  readonly fNumber: number;
  /** Diameter of the obstruction over that of the aperture, 0 up to but not 1. @default 0 */
  readonly centralObstruction?: number;
  /** Evenly lit, or Gaussian with the edge's intensity over that of the centre, above 0 and at most 1. @default 'uniform' */
  readonly pupil?: 'uniform' | { readonly gaussianEdge: number };
  /** How height in the pupil becomes angle: sin = h / f (an optic free of coma) or tan = h / f. @default 'sine' */
  readonly angleRule?: 'sine' | 'tangent';
  /** Angle of the cone's axis to the optical axis at this place of the field; 0 is telecentric. @default 0 */
  readonly chiefRayDeg?: number;
  /** Tilt of the filter in its holder. @default 0 */
  readonly tiltDeg?: number;
  /** Direction of the tilt against that of the chief ray: 0 adds to it, 180 takes away from it. @default 0 */
  readonly tiltDirectionDeg?: number;
}

/** Directions of a beam against the filter's normal, with the share of the light in each. */
export interface BeamRays {
  /** Square of the sine of the angle; below 0 only for a beam from which another was taken out. */
  readonly sineSquared: Float64Array;
  /** Adds up to 1. */
  readonly weight: Float64Array;
}

/** An effective index, or the lowest and the highest that it may be, all between as likely. */
export type IndexRange = number | readonly [number, number];
