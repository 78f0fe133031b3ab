/** An `@example` of a docstring. */
export interface DocstringExample {
  /** Line of the tag in the file, from 1. */
  readonly line: number;
  readonly code: string;
}

/**
 * The `@example` parts of a source file's docstrings. One ends at the next tag, or at a line that names the source or
 * the cost.
 *
 * @param text - the source file
 * @returns examples in order
 */
export function docstringExamples(text: string): DocstringExample[] {
  const examples: DocstringExample[] = [];
  let current: { line: number; code: string[] } | null = null;
  const close = (): void => {
    if (current !== null) examples.push({ line: current.line, code: current.code.join('\n').trim() });
    current = null;
  };
  let inside = false;
  text.split('\n').forEach((row, index) => {
    if (/^\s*\/\*\*/.test(row)) inside = true;
    if (!inside) return;
    const content = row.replace(/\*\/.*$/, '').replace(/^\s*\/?\*{0,2} ?/, '');
    if (/^\s*(@[a-z]\w*|Source:|Cost:)/.test(content)) close();
    if (/^\s*@example/.test(content))
      current = { line: index + 1, code: [content.replace(/^\s*@example\s*/, '')] };
    else if (current !== null && !/^\s*```/.test(content)) current.code.push(content);
    if (row.includes('*/')) {
      close();
      inside = false;
    }
  });
  return examples;
}
