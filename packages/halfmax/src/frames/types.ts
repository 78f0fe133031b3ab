/** What a frame was taken of. `open`: the broadband lamp without a filter. */
export type FrameRole = 'dark' | 'lamp' | 'open' | 'filtered';

/** One exposure as read from a file: raw counts, nothing taken off. */
export interface Scan {
  /** File, relative to the session folder. */
  readonly file: string;
  /** Which column or image of the file, where it holds several; empty otherwise. */
  readonly column: string;
  /** Raw counts per pixel; NaN where the file says that the value is undefined. */
  readonly counts: Float64Array;
  /** The instrument's own wavelength column in nm, if the file has one: reported, never trusted. */
  readonly wavelengthNm: Float64Array | null;
}

/** One entry of the session's `frames`, with its files read. */
export interface FrameEntry {
  /** Position in the session's `frames`, from 0. */
  readonly index: number;
  readonly role: FrameRole;
  readonly exposureMs: number;
  /** Lamp label of a `lamp` entry. */
  readonly lamp: string | null;
  /** Filter id of a `filtered` entry. */
  readonly filter: string | null;
  /** Time of the entry, ms since 1970-01-01 UTC. */
  readonly takenAtMs: number | null;
  readonly scans: readonly Scan[];
}

/** The detector as the session describes it. */
export interface Detector {
  readonly pixels: number;
  /** Counts at and above which a pixel is not to be trusted. */
  readonly saturationCounts: number;
  readonly wavelengthStartNm: number | null;
  readonly wavelengthEndNm: number | null;
  /** true counts = measured x (p0 + p1 measured + ...); measured counts as in the file. */
  readonly linearity: readonly number[] | null;
}

/** Something the reader of a result should know. */
export interface Warning {
  /** File, filter, lamp or field that it is about. */
  readonly where: string;
  readonly what: string;
}

/** A frame that was left out, and why. */
export interface RejectedScan {
  readonly file: string;
  readonly column: string;
  readonly reason: string;
}

/** Variance of one pixel of one frame in counts^2: readVariance + gain x (counts above dark). */
export interface NoiseModel {
  readonly readVariance: number;
  /** Counts of variance per count of light, above dark. */
  readonly gain: number;
  /** How it was found: from frame differences, or from neighbouring pixels where frames are few. */
  readonly method: string;
}

/** The mean of the good frames of one entry, dark taken off, linearised; counts at that entry's exposure. */
export interface CleanSpectrum {
  readonly entry: number;
  readonly role: FrameRole;
  readonly lamp: string | null;
  readonly filter: string | null;
  readonly takenAtMs: number | null;
  readonly exposureMs: number;
  /** Frames that went into the mean. */
  readonly frames: number;
  /** Mean counts above dark, per pixel; 0 where masked. */
  readonly counts: Float64Array;
  /** Standard uncertainty of the mean from the noise of its own frames, counts. */
  readonly noise: Float64Array;
  /** Standard uncertainty from the dark that was taken off (shared by every spectrum with this exposure), counts. */
  readonly darkNoise: Float64Array;
  /**
   * What is not known of the dark at this exposure, where no dark has it and none lies on the other side: standard
   * uncertainty in counts with its sign. One unknown number stands behind all pixels and all spectra; left out where
   * there is nothing of the kind.
   */
  readonly darkShared?: Float64Array;
  /** 1 where the pixel is saturated or undefined in this entry. */
  readonly masked: Uint8Array;
  readonly wavelengthNm: Float64Array | null;
}

/** Several exposures of one scan joined: counts per ms, the longest unclipped exposure of each pixel. */
export interface CombinedSpectrum {
  readonly entries: readonly number[];
  readonly countsPerMs: Float64Array;
  /** Standard uncertainty per pixel, counts per ms, noise and dark together, without what all pixels share. */
  readonly standardUncertainty: Float64Array;
  /** 1 where no exposure has an unclipped value. */
  readonly masked: Uint8Array;
  /** The exposure used in each pixel, ms; 0 where masked. */
  readonly exposureMs: Float64Array;
  /** Largest counts above dark in the exposure used, per pixel. */
  readonly counts: Float64Array;
}

/** What the frames room gives on. */
export interface ReducedFrames {
  readonly spectra: readonly CleanSpectrum[];
  readonly noise: NoiseModel;
  /**
   * Changes of the lamp from frame to frame that all pixels share, which no spectrum's own noise holds: relative
   * standard deviation of one frame, and the degrees of freedom behind it. Null without an open or filtered entry of
   * three good frames or more.
   */
  readonly flicker: { readonly relative: number; readonly frames: number } | null;
  readonly rejected: readonly RejectedScan[];
  readonly warnings: readonly Warning[];
}
