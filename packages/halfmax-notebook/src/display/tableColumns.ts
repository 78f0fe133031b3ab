/** A column of a table: a name and its cells. */
export interface TableColumn {
  readonly name: string;
  readonly cells: readonly unknown[];
}

/** A data frame of danfojs, or any record with columns and rows. */
export interface FrameLike {
  readonly columns: readonly string[];
  readonly values: readonly unknown[];
}

/** Columns by name, all of one length. */
export type ColumnRecord = Readonly<Record<string, ArrayLike<unknown>>>;

/**
 * The columns of a data frame or of a record of arrays.
 *
 * @param table - a data frame (columns and rows), or arrays by column name
 * @returns columns in their order
 * @throws {RangeError} neither of both, or columns of different lengths
 */
export function tableColumns(table: FrameLike | ColumnRecord): TableColumn[] {
  const columns = isFrame(table) ? frameColumns(table) : recordColumns(table);
  const rows = columns[0]?.cells.length ?? 0;
  for (const { name, cells } of columns)
    if (cells.length !== rows)
      throw new RangeError(
        `showTable requires columns of one length, got ${rows} and ${cells.length} in ${name}`,
      );
  return columns;
}

function isFrame(table: FrameLike | ColumnRecord): table is FrameLike {
  const { columns, values } = table as FrameLike;
  return (
    Array.isArray(columns) &&
    columns.every((name) => typeof name === 'string') &&
    Array.isArray(values) &&
    (values.length === 0 || Array.isArray(values[0]) || columns.length === 1)
  );
}

function frameColumns(frame: FrameLike): TableColumn[] {
  return frame.columns.map((name, index) => ({
    name,
    cells: frame.values.map((row) => (Array.isArray(row) ? row[index] : row)),
  }));
}

function recordColumns(record: ColumnRecord): TableColumn[] {
  return Object.entries(record).map(([name, cells]) => {
    if (typeof cells !== 'object' || cells === null || typeof cells.length !== 'number')
      throw new RangeError(`showTable requires arrays by column name, got ${typeof cells} in ${name}`);
    return { name, cells: Array.from(cells) };
  });
}
