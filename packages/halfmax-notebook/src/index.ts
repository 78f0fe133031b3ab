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
} from './notebook/types.js';
export {
  INPUTS_MIME,
  type InputDefaults,
  type InputValue,
  type NotebookInputs,
  notebookInputs,
} from './inputs/index.js';
