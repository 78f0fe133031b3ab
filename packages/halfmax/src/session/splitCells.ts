/** What stands between the cells of a table; `none` where there is one column. */
export type Delimiter = 'tab' | ';' | ',' | 'blank' | 'none';

function unquote(cell: string): string {
  const trimmed = cell.trim();
  const first = trimmed[0];
  const quoted = trimmed.length > 1 && (first === '"' || first === "'") && trimmed.endsWith(first);
  return quoted ? trimmed.slice(1, -1).trim() : trimmed;
}

/**
 * The cells of one line, quotes and blanks around them taken off.
 *
 * @param line - a line without its line break
 * @param delimiter - as found for the file
 * @returns the cells, empty ones included
 * @example
 * splitCells('400.5; "12" ;', ';'); // => ['400.5', '12', '']
 */
export function splitCells(line: string, delimiter: Delimiter): string[] {
  if (delimiter === 'none') return [unquote(line)];
  if (delimiter === 'blank') return line.trim().split(/\s+/).map(unquote);
  const mark = delimiter === 'tab' ? '\t' : delimiter;
  if (!line.includes('"')) return line.split(mark).map(unquote);
  const cells: string[] = [];
  let start = 0;
  let quoted = false;
  for (let i = 0; i < line.length; i++) {
    if (line[i] === '"') quoted = !quoted;
    else if (line[i] === mark && !quoted) {
      cells.push(unquote(line.slice(start, i)));
      start = i + 1;
    }
  }
  cells.push(unquote(line.slice(start)));
  return cells;
}
