export type { InputDifference } from './compareInputs.js';
export {
  type CellComparison,
  type CompareOptions,
  compareNotebooks,
  type NotebookComparison,
} from './compareNotebooks.js';
export type { QuantityMove, StatedNumber } from './compareQuantities.js';
export type { Difference } from './compareTexts.js';
export { formatComparison } from './formatComparison.js';
export { formatNotebook } from './formatNotebook.js';
export { isJsonMime, isTextMime, PLOTLY_MIME, QUANTITY_MIME } from './mimeKinds.js';
export { normaliseNotebook, normaliseOutputs } from './normaliseNotebook.js';
export { isRecord, type PlainRecord } from './plainRecord.js';
export { readNotebook } from './readNotebook.js';
export { readNotebookFile } from './readNotebookFile.js';
export { refuse } from './refuse.js';
export { EXACT, type Tolerance } from './tolerance.js';
export type {
  Cell,
  CodeCell,
  DisplayOutput,
  ErrorOutput,
  MarkdownCell,
  MimeBundle,
  Notebook,
  Output,
  RawCell,
  ResultOutput,
  StreamOutput,
} from './types.js';
export { cellPlace, type NotebookProblem, validateNotebook } from './validateNotebook.js';
