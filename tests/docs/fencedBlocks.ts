/** A fenced block of a Markdown file. */
export interface FencedBlock {
  /** Line of the opening fence, from 1. */
  readonly line: number;
  readonly language: string;
  readonly code: string;
}

/**
 * The fenced blocks of a Markdown text.
 *
 * @param text - the whole file
 * @returns blocks in order
 * @throws {Error} a fence that is not closed
 */
export function fencedBlocks(text: string): FencedBlock[] {
  const blocks: FencedBlock[] = [];
  let open: { line: number; language: string; code: string[] } | null = null;
  text.split('\n').forEach((row, index) => {
    const fence = /^```\s*(\S*)/.exec(row);
    if (fence === null) open?.code.push(row);
    else if (open === null) open = { line: index + 1, language: fence[1]!, code: [] };
    else {
      blocks.push({ line: open.line, language: open.language, code: open.code.join('\n') });
      open = null;
    }
  });
  const left = open as { line: number } | null;
  if (left !== null) throw new Error(`the block of line ${left.line} is not closed`);
  return blocks;
}

/** The text with its fenced blocks blanked out, line numbers kept. */
export function withoutBlocks(text: string): string {
  let inside = false;
  return text
    .split('\n')
    .map((row) => {
      const isFence = row.startsWith('```');
      if (isFence) inside = !inside;
      return inside || isFence ? '' : row;
    })
    .join('\n');
}
