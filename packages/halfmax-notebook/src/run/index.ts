export type { RunFailure } from './executeCells.js';
export { type OutFolder, RUN_FILE, RUN_FORMAT, takeOutFolder } from './outFolder.js';
export { packageRoot, type RunTools, runTools, sha256 } from './provenance.js';
export { type RecordedRun, recordedRun } from './recordedRun.js';
export {
  type PreparedRun,
  placeFiles,
  prepareRun,
  type RerunOptions,
  type RerunResult,
} from './rerunNotebook.js';
