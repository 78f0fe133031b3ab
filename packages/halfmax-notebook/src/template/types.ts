/** What a frame was taken of. */
export type FrameRole = 'dark' | 'lamp' | 'open' | 'filtered';

/** What the name of a frame file tells; null where it does not. */
export interface NameGuess {
  readonly role: FrameRole | null;
  /** Label of the lamp, such as `Hg-Ar`; null for other roles. */
  readonly lamp: string | null;
  /** Id of the filter; null for other roles. */
  readonly filter: string | null;
  readonly exposureMs: number | null;
  /** The name without its ending and its running number: files that share it belong together. */
  readonly stem: string;
}

/** Frame files that make one entry of a session. */
export interface FrameGroup extends Omit<NameGuess, 'stem'> {
  /** Relative to the session folder, `/` between folders, in the order of their names. */
  readonly files: readonly string[];
}

/** What the files of a folder tell of the session. */
export interface FolderSurvey {
  readonly groups: readonly FrameGroup[];
  /** Pixels along the dispersion; null where no file could be read. */
  readonly pixels: number | null;
  /** Highest count in the files that were looked at; null where none was. */
  readonly highestCounts: number | null;
  readonly saturationCounts: number | null;
  /** Emission lines of each filter by its id; null where the id does not name them. */
  readonly lines: Readonly<Record<string, readonly string[] | null>>;
  /** What was seen and not used, or should be looked at: one sentence each. */
  readonly remarks: readonly string[];
}
