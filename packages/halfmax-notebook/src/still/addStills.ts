import type { Cell, DisplayOutput, Notebook, Output } from '../notebook/index.js';
import { PLOTLY_MIME } from '../notebook/index.js';
import { drawStill } from './drawStill.js';
import type { Figure } from './figure.js';
import { requireDrawable } from './requireDrawable.js';

/**
 * A notebook whose figures all have a still picture beside them, for viewers that run no scripts.
 *
 * A figure of a kind that cannot be drawn without a browser stays without.
 *
 * @param notebook - as run
 * @returns a new notebook; the same one each time
 */
export async function addStills(notebook: Notebook): Promise<Notebook> {
  const withStills = (cell: Cell): Cell =>
    cell.cell_type === 'code' ? { ...cell, outputs: cell.outputs.map(withStill) } : cell;
  return { ...notebook, cells: notebook.cells.map(withStills) };
}

/**
 * An output with a still picture beside its figure.
 *
 * @param output - of a cell
 * @returns a new output; the same one where there is no figure, one with a picture, or one of a kind or size that cannot
 *   be drawn
 * @throws {RangeError} Plotly cannot draw the figure, or it is no figure
 */
export function drawnOutput(output: Output): Output {
  const figure = figureWithoutStill(output);
  if (figure === null || !isDrawable(figure)) return output;
  const png = Buffer.from(drawStill(figure).png).toString('base64');
  return { ...output, data: { ...(output as DisplayOutput).data, 'image/png': png } } as Output;
}

/**
 * The figure of an output that has no picture yet.
 *
 * @param output - of a cell
 * @returns the figure, or null
 */
export function figureWithoutStill(output: Output): Figure | null {
  if (output.output_type !== 'display_data' && output.output_type !== 'execute_result') return null;
  const figure = output.data[PLOTLY_MIME] as Figure | undefined;
  return figure === undefined || !Array.isArray(figure.data) || 'image/png' in output.data ? null : figure;
}

function isDrawable(figure: Figure): boolean {
  try {
    requireDrawable(figure);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** For a page of notebooks from anywhere: what cannot be drawn is left as it is. */
function withStill(output: Output): Output {
  try {
    return drawnOutput(output);
  } catch (error) {
    if (error instanceof RangeError) return output;
    throw error;
  }
}
