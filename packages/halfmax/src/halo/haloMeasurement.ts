import type { Measured, Quantity } from '../metrics/index.js';

/** A disk or ring about a star, made by two reflections. */
export interface HaloDisk {
  readonly outerRadiusPixels: Quantity;
  /** Absent where there is no hole, or where the star's core hides it. */
  readonly innerRadiusPixels: Quantity;
  readonly outerDiameterUm: Quantity;
  readonly innerDiameterUm: Quantity;
  readonly outerRadiusArcsec: Quantity;
  /** Counts a pixel above what is about it. */
  readonly surfaceCounts: Quantity;
  readonly fluxCounts: Quantity;
  /** Fraction of the star's light. */
  readonly shareOfStar: Quantity;
  /** Fainter than the star, magnitudes. */
  readonly magnitudesFainter: Quantity;
  /** Magnitudes per square arcsecond above the star's magnitude: add that to have the surface brightness. */
  readonly surfaceMagnitudes: Quantity;
  /** Middle of the disk from the star, pixels along x and y. */
  readonly displacementPixels: { readonly x: Quantity; readonly y: Quantity };
  /** Whether the displacement is beyond chance; else it was held at 0. */
  readonly displaced: boolean;
  /** Surface brightness over its standard uncertainty. */
  readonly significance: number;
}

/** Light that a further disk could have without being seen. */
export interface HaloLimit {
  readonly outerRadiusPixels: number;
  readonly innerRadiusPixels: number;
  /** Upper limits at 95 %. */
  readonly surfaceCounts: number;
  readonly fluxCounts: number;
  readonly shareOfStar: number | { readonly absent: string };
  readonly magnitudesFainter: number | { readonly absent: string };
  readonly surfaceMagnitudes: number | { readonly absent: string };
}

/** A ring of the profile. */
export interface ProfileRing {
  readonly innerPixels: number;
  readonly outerPixels: number;
  readonly radiusPixels: number;
  /** Median over the sectors without the background and its slope. */
  readonly counts: Measured;
  readonly surfaceMagnitudes: Quantity;
  readonly sectors: number;
  /** Model of the ring without the background: wings, and wings with disks. */
  readonly wings: number;
  readonly model: number;
}

/** What an image of a bright star says of halos. Pixels count from 1 as in FITS. */
export interface HaloMeasurement {
  readonly image: string;
  readonly frame: readonly [number, number];
  readonly centre: {
    readonly x: Quantity;
    readonly y: Quantity;
    /** Annulus that it comes from, pixels. */
    readonly fromPixels: number;
    readonly toPixels: number;
  };
  /** Within this the star's core hides everything; beyond the second radius the image ends, pixels. */
  readonly coveredPixels: readonly [number, number];
  readonly saturated: boolean;
  readonly arcsecPerPixel: number | { readonly absent: string };
  readonly background: {
    readonly counts: Quantity;
    readonly slopeX: Quantity;
    readonly slopeY: Quantity;
    /** Standard deviation of a pixel far from the star, counts. */
    readonly noise: number | { readonly absent: string };
  };
  /** Pixels left out, by reason. */
  readonly masked: {
    readonly undefined: number;
    readonly saturated: number;
    readonly hot: number;
    readonly neighbours: number;
  };
  readonly starCounts: Quantity;
  readonly wings: {
    readonly method: 'model' | 'reference';
    /** Power by which the light falls from the innermost radius to three times that. */
    readonly exponent: number | { readonly absent: string };
    /** Powers in the model; 0 where a reference frame was used. */
    readonly terms: number;
    /** By which the model is wrong, as a share of the wings; part of every uncertainty. */
    readonly misfitShare: number;
  };
  readonly disks: readonly HaloDisk[];
  /** Significance that a disk must reach, and how often noise alone would reach it. */
  readonly detection: { readonly level: number | { readonly absent: string }; readonly falseAlarm: number };
  readonly limits: readonly HaloLimit[];
  readonly profile: readonly ProfileRing[];
  readonly seedDraws: number;
  readonly notes: readonly string[];
}
