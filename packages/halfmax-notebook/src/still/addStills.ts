import type { Cell, Notebook, Output } from '../notebook/index.js';
import { PLOTLY_MIME } from '../notebook/index.js';
import { drawStill } from './drawStill.js';
import type { Figure } from './figure.js';

/**
 * A notebook whose figures all have a still picture beside them, for viewers that run no scripts.
 *
 * A figure of a kind that cannot be drawn without a browser stays without.
 *
 * @param notebook - as run
 * @returns a new notebook; the same one each time
 */
export async function addStills(notebook: Notebook): Promise<Notebook> {
  return { ...notebook, cells: notebook.cells.map(withStills) };
}

function withStills(cell: Cell): Cell {
  return cell.cell_type === 'code' ? { ...cell, outputs: cell.outputs.map(withStill) } : cell;
}

function withStill(output: Output): Output {
  if (output.output_type !== 'display_data' && output.output_type !== 'execute_result') return output;
  const figure = output.data[PLOTLY_MIME] as Figure | undefined;
  if (figure === undefined || !Array.isArray(figure.data) || 'image/png' in output.data) return output;
  const png = stillOf(figure);
  return png === null ? output : { ...output, data: { ...output.data, 'image/png': png } };
}

function stillOf(figure: Figure): string | null {
  try {
    return Buffer.from(drawStill(figure).png).toString('base64');
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
