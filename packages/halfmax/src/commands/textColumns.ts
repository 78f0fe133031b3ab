/**
 * Rows as columns of equal width, two blanks apart.
 *
 * @param rows - cells, the same number in each row; at least one row
 * @param indent - before each row
 * @returns one line a row
 */
export function textColumns(rows: readonly (readonly string[])[], indent: string): string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => [...row[column]!].length)));
  return rows.map((row) => {
    const cells = row.map((cell, column) => cell + ' '.repeat(widths[column]! - [...cell].length));
    return `${indent}${cells.join('  ')}`.trimEnd();
  });
}
