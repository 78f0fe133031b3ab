/** A picture of a star, or a cut-out of a larger one. */
export interface StarImage {
  readonly width: number;
  readonly height: number;
  /** Row after row, length width x height; NaN where undefined. */
  readonly counts: Float32Array | Float64Array;
  /** Place of the first pixel in the full frame, pixels; [0, 0] where the image is the frame. */
  readonly offset: readonly [number, number];
  /** Size of the full frame, pixels. */
  readonly frame: readonly [number, number];
}

/** A place in an image: pixel centres are whole numbers, the first pixel is (0, 0). */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Why a pixel is left out; 0 where it is used. */
export const PIXEL_UNDEFINED = 1;
export const PIXEL_SATURATED = 2;
export const PIXEL_HOT = 4;
export const PIXEL_NEIGHBOUR = 8;

/**
 * A whole frame as a star image.
 *
 * @param width - pixels
 * @param height - pixels
 * @param counts - row after row, length width x height; NaN where undefined
 * @returns the image, its values not copied
 * @throws {RangeError} sizes that do not fit
 * @example
 * starImage(2, 2, new Float32Array(4)).frame; // => [2, 2]
 */
export function starImage(width: number, height: number, counts: Float32Array | Float64Array): StarImage {
  if (!Number.isInteger(width) || !Number.isInteger(height) || width < 1 || height < 1) {
    throw new RangeError(`starImage requires whole sizes of at least 1, got ${width} x ${height}`);
  }
  if (counts.length !== width * height) {
    throw new RangeError(`starImage requires ${width * height} values, got ${counts.length}`);
  }
  return { width, height, counts, offset: [0, 0], frame: [width, height] };
}
