/** Attribute of cells that hold text: Jupyter sets all cells of a table to the right, which suits numbers alone. */
export const TEXT_CELL = ' style="text-align:left"';
