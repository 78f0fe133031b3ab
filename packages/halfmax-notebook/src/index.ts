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
