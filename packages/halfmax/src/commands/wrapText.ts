/** Columns of a terminal that everything but a long table row stays within. */
const WIDTH = 98;
/** A blank, but not the one between a number and its unit. */
const BREAK = / (?!(?:nm|%)(?![a-z]))/;

/**
 * A text in lines that a terminal shows whole; a single word that is longer stays whole.
 *
 * @param text - words with blanks between
 * @param indent - before the first line
 * @param further - before the lines that follow; left out: two blanks more
 * @returns the lines
 * @example
 * wrapText('one two', '  '); // => ['  one two']
 */
export function wrapText(text: string, indent: string, further: string = `${indent}  `): string[] {
  const lines: string[] = [];
  let line = indent;
  let isBare = true;
  for (const word of text.split(BREAK)) {
    if (!isBare && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = further;
      isBare = true;
    }
    line += isBare ? word : ` ${word}`;
    isBare = false;
  }
  return [...lines, line];
}
