/** A notebook as read from an .ipynb file (nbformat 4.5), with every multi-line text joined to one string. */
export interface Notebook {
  readonly nbformat: 4;
  readonly nbformat_minor: number;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly cells: readonly Cell[];
}

export type Cell = CodeCell | MarkdownCell | RawCell;

export interface CodeCell {
  readonly cell_type: 'code';
  readonly id: string;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly source: string;
  readonly execution_count: number | null;
  readonly outputs: readonly Output[];
}

export interface MarkdownCell {
  readonly cell_type: 'markdown';
  readonly id: string;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly source: string;
  readonly attachments?: Readonly<Record<string, MimeBundle>>;
}

export interface RawCell {
  readonly cell_type: 'raw';
  readonly id: string;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly source: string;
  readonly attachments?: Readonly<Record<string, MimeBundle>>;
}

export type Output = StreamOutput | DisplayOutput | ResultOutput | ErrorOutput;

export interface StreamOutput {
  readonly output_type: 'stream';
  readonly name: 'stdout' | 'stderr';
  readonly text: string;
}

/** Text by MIME type: a string for text and base64, any JSON value for a JSON type. */
export type MimeBundle = Readonly<Record<string, unknown>>;

export interface DisplayOutput {
  readonly output_type: 'display_data';
  readonly data: MimeBundle;
  readonly metadata: Readonly<Record<string, unknown>>;
}

export interface ResultOutput {
  readonly output_type: 'execute_result';
  readonly data: MimeBundle;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly execution_count: number | null;
}

export interface ErrorOutput {
  readonly output_type: 'error';
  readonly ename: string;
  readonly evalue: string;
  readonly traceback: readonly string[];
}
