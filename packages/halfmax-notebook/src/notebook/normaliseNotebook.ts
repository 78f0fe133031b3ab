import { PLOTLY_MIME } from './mimeKinds.js';
import { isRecord, without } from './plainRecord.js';
import type { Cell, MimeBundle, Notebook, Output } from './types.js';

/**
 * A notebook without what changes from run to run and says nothing: the same results give the same notebook.
 *
 * Streams of one name that follow each other are joined, timings and `transient` left out, cells that ran numbered
 * from 1, random ids of traces taken out of figures.
 *
 * @param notebook - as run
 * @returns a new notebook
 */
export function normaliseNotebook(notebook: Notebook): Notebook {
  let count = 0;
  const cells = notebook.cells.map((cell): Cell => {
    if (cell.cell_type !== 'code') return cell;
    const ran = cell.execution_count !== null;
    const number = ran ? ++count : null;
    return {
      ...cell,
      metadata: without(cell.metadata, ['execution']),
      execution_count: number,
      outputs: normaliseOutputs(cell.outputs).map((output) =>
        output.output_type === 'execute_result' ? { ...output, execution_count: number } : output,
      ),
    };
  });
  return { ...notebook, cells };
}

/**
 * The outputs of a cell as they would come from any other run with the same results.
 *
 * @param outputs - in the order of their arrival
 * @returns streams joined, empty ones and `transient` left out, figures without random ids
 */
export function normaliseOutputs(outputs: readonly Output[]): Output[] {
  const kept: Output[] = [];
  for (const output of outputs) {
    const last = kept[kept.length - 1];
    if (output.output_type === 'stream') {
      if (output.text === '') continue;
      if (last?.output_type === 'stream' && last.name === output.name)
        kept[kept.length - 1] = { ...last, text: last.text + output.text };
      else kept.push(output);
    } else if (output.output_type === 'error') {
      kept.push(output);
    } else {
      const plain = without({ ...output }, ['transient']) as unknown as typeof output;
      kept.push({ ...plain, data: withoutTraceIds(output.data) });
    }
  }
  return kept;
}

function withoutTraceIds(bundle: MimeBundle): MimeBundle {
  const figure = bundle[PLOTLY_MIME];
  if (!isRecord(figure) || !Array.isArray(figure['data'])) return bundle;
  const data = figure['data'].map((trace: unknown) => (isRecord(trace) ? without(trace, ['uid']) : trace));
  return { ...bundle, [PLOTLY_MIME]: { ...figure, data } };
}
