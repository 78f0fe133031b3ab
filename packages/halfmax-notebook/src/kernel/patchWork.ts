import type { CellSources } from './cellSources.js';
import type { CellError, Diagnostic } from './tidyErrors.js';

/** What the patches need to know of the kernel. */
export interface PatchWork {
  /** Name under which the compiler sees every cell. */
  readonly cellFile: string;
  readonly sources: CellSources;
  readonly realNow: () => number;
  readonly describeThrown: (thrown: unknown) => CellError;
  readonly describeDiagnostics: (
    diagnostics: readonly Diagnostic[],
    cell: number,
    source: string,
  ) => CellError;
  /** Joins what a kernel_info reply says. */
  readonly kernelInfo: () => object;
  /** Written where a person can see it, not into a cell. */
  readonly complain: (text: string) => void;
  /** The last thing that is called. */
  readonly exit: () => void;
}
