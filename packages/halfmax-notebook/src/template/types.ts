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
  /** Such as `2025-03-14T18:16:00.000Z`; null where the files do not state it for certain. */
  readonly takenAt: string | null;
}

/** A day on which frames may have been taken. */
export interface DayGuess {
  /** Such as `2025-03-14`. */
  readonly day: string;
  /** Whether files or a person state it; else it is that of a file's last change. */
  readonly isStated: boolean;
}

/** What only a person knows of a filter; left out where nobody told. */
export interface FilterFacts {
  readonly label?: string;
  /** By the names of a session's claims. */
  readonly claims?: Readonly<Record<string, object>>;
  readonly price?: { readonly amount: number; readonly currency: string };
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
  readonly day: DayGuess | null;
  /** What the session is called in headings; null where nobody told. */
  readonly title: string | null;
  /** By the filters' ids. */
  readonly facts: Readonly<Record<string, FilterFacts>>;
  /** What was seen and not used, or should be looked at: one sentence each. */
  readonly remarks: readonly string[];
}
