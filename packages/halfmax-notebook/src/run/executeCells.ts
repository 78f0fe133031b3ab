import { endText, type Heard, type RunningKernel } from '../kernel/index.js';
import type { Cell, CodeCell, ErrorOutput, Notebook, Output } from '../notebook/index.js';

/** Why a run of a notebook ended early. */
export interface RunFailure {
  /** Index of the cell in the notebook, from 0; null where no cell is to blame. */
  readonly index: number | null;
  /** Number that the cell ran under, as `In [3]` shows it; null where it is of no cell. */
  readonly cell: number | null;
  readonly id: string;
  /** Line in the cell's TypeScript, from 1, or null where it is not known. */
  readonly line: number | null;
  readonly kind: 'error' | 'time limit' | 'kernel ended' | 'lost output';
  readonly name: string;
  readonly message: string;
}

/** What came out of a run. */
export interface ExecutedCells {
  readonly cells: Notebook['cells'];
  readonly failure: RunFailure | null;
  /** Seconds that each code cell took. */
  readonly seconds: readonly number[];
}

/** What to watch while cells run. */
export interface ExecuteOptions {
  /** Most milliseconds that one cell may take. */
  readonly cellMs: number;
  readonly memoryMb: number;
  /** Draws the stills of a cell's figures that have none, while the next cells run. */
  readonly withStills?: (outputs: readonly Output[]) => Promise<readonly Output[]>;
  readonly onCell: (cell: number, id: string, seconds: number) => void;
}

/** How long nothing may arrive of a cell that has been replied to, before its last output has. */
const IDLE_MS = 10_000;
/** How long an interrupted cell may take to end. */
const INTERRUPT_MS = 2000;

/**
 * Runs the code cells of a notebook in order, up to the first that fails.
 *
 * @param notebook - what to run; its outputs are not kept
 * @param kernel - fresh
 * @param options - limits, and what to tell
 * @returns cells with their outputs; those after a failure have none
 */
export async function executeCells(
  notebook: Notebook,
  kernel: RunningKernel,
  options: ExecuteOptions,
): Promise<ExecutedCells> {
  const cells: Cell[] = notebook.cells.map((cell) =>
    cell.cell_type === 'code' ? { ...cell, execution_count: null, outputs: [] } : cell,
  );
  const seconds: number[] = [];
  const { withStills = async (outputs: readonly Output[]) => outputs } = options;
  const drawing: Promise<RunFailure | null>[] = [];
  let failure: RunFailure | null = null;
  let number = 0;
  for (const [index, cell] of cells.entries()) {
    if (cell.cell_type !== 'code' || cell.source.trim() === '') continue;
    number++;
    const start = performance.now();
    const ran = await runCell(cell, number, kernel, options);
    const took = (performance.now() - start) / 1000;
    seconds.push(took);
    const done = { ...cell, execution_count: number, outputs: ran.outputs };
    cells[index] = done;
    const drawn = withStills(ran.outputs).then((outputs) => {
      cells[index] = { ...done, outputs };
    });
    const at = { index, cell: number, id: cell.id };
    drawing.push(
      drawn.then(
        () => null,
        (fault: Error) => stillFailure(at, fault),
      ),
    );
    if (ran.failure !== null) {
      failure = { ...ran.failure, index };
      break;
    }
    options.onCell(number, cell.id, took);
  }
  const undrawn = (await Promise.all(drawing)).find((lost) => lost !== null) ?? null;
  return { cells, failure: failure ?? undrawn, seconds };
}

function stillFailure(at: Pick<RunFailure, 'index' | 'cell' | 'id'>, fault: Error): RunFailure {
  const message = `a still picture was not drawn: ${fault.message}`;
  return { ...at, line: null, kind: 'lost output', name: 'LostStill', message };
}

interface RanCell {
  readonly outputs: readonly Output[];
  readonly failure: Omit<RunFailure, 'index'> | null;
}

async function runCell(
  { id, source }: CodeCell,
  cell: number,
  kernel: RunningKernel,
  { cellMs, memoryMb }: ExecuteOptions,
): Promise<RanCell> {
  const outputs: Output[] = [];
  const shown = new Map<string, number[]>();
  let status = '';
  let heard = 0;
  let isReplied = false;
  let isIdle = false;
  let wake: () => void = () => {};
  let timer: NodeJS.Timeout | undefined;
  const hear = ({ from, message }: Heard): void => {
    const { content } = message;
    heard++;
    if (from === 'reply') {
      isReplied = true;
      status = String(content['status']);
    } else if (message.header.msg_type === 'status') isIdle ||= content['execution_state'] === 'idle';
    else addOutput(outputs, shown, message.header.msg_type, content);
    wake();
  };
  const fail = (
    kind: RunFailure['kind'],
    name: string,
    message: string,
    line: number | null = null,
  ): RanCell => ({ outputs, failure: { cell, id, line, kind, name, message } });

  // One wait at a time: a new one takes the place of the one before.
  const until = (isDone: () => boolean, ms: number): Promise<'done' | 'late'> =>
    new Promise((resolve) => {
      clearTimeout(timer);
      timer = setTimeout(resolve, ms, 'late');
      wake = () => {
        if (!isDone()) return;
        clearTimeout(timer);
        resolve('done');
      };
      wake();
    });
  const isComplete = (): boolean => isReplied && isIdle;

  const request = {
    code: source,
    silent: false,
    store_history: true,
    allow_stdin: false,
    stop_on_error: true,
  };
  try {
    await kernel.client.request('execute_request', request, hear);
    return await result();
  } finally {
    clearTimeout(timer);
  }

  async function result(): Promise<RanCell> {
    const end = await Promise.race([kernel.ended, until(() => isReplied, cellMs)]);
    if (end === 'late') {
      // An interrupt lets the cell hand over what it has written; then the kernel is ended.
      kernel.interrupt();
      await Promise.race([kernel.ended, until(isComplete, INTERRUPT_MS)]);
      const limit = `did not end within ${cellMs / 1000} s`;
      return fail('time limit', 'TimeLimit', limit, lineOf(outputs, cell));
    }
    if (end !== 'done') {
      // What was on its way still arrives.
      await until(isComplete, 200);
      const isMemory = /heap out of memory|allocation failed|bad_alloc|out of memory/i.test(end.said);
      const why = isMemory
        ? `ran out of memory (limit ${memoryMb} MB)`
        : `ended its kernel (${endText(end)})`;
      return fail('kernel ended', isMemory ? 'OutOfMemory' : 'KernelEnded', why);
    }
    let rest: Awaited<typeof kernel.ended> | 'done' | 'late';
    let before: number;
    do {
      before = heard;
      rest = await Promise.race([kernel.ended, until(isComplete, IDLE_MS)]);
    } while (rest === 'late' && heard > before);
    if (rest !== 'done') return fail('lost output', 'LostOutput', 'the end of its output did not arrive');
    if (status === 'ok') return { outputs, failure: null };
    const error = outputs.find((output): output is ErrorOutput => output.output_type === 'error');
    return fail(
      'error',
      error?.ename ?? 'Error',
      error?.evalue ?? 'the cell failed without a reason',
      lineOf(outputs, cell),
    );
  }
}

/** Adds what a message shows to the outputs of its cell. */
function addOutput(
  outputs: Output[],
  shown: Map<string, number[]>,
  type: string,
  content: Readonly<Record<string, unknown>>,
): void {
  const { data, metadata, transient } = content as {
    data: Record<string, unknown>;
    metadata: Record<string, unknown>;
    transient?: { display_id?: string };
  };
  const id = transient?.display_id;
  switch (type) {
    case 'stream': {
      const { name, text } = content as { name: 'stdout' | 'stderr'; text: string };
      const last = outputs[outputs.length - 1];
      if (last?.output_type === 'stream' && last.name === name)
        outputs[outputs.length - 1] = { ...last, text: last.text + text };
      else outputs.push({ output_type: 'stream', name, text });
      return;
    }
    case 'display_data':
      if (id !== undefined) shown.set(id, [...(shown.get(id) ?? []), outputs.length]);
      outputs.push({ output_type: 'display_data', data, metadata: metadata ?? {} });
      return;
    case 'update_display_data':
      for (const index of shown.get(id ?? '') ?? [])
        outputs[index] = { output_type: 'display_data', data, metadata: metadata ?? {} };
      return;
    case 'error': {
      const { ename, evalue, traceback } = content as unknown as ErrorOutput;
      outputs.push({ output_type: 'error', ename, evalue, traceback });
      return;
    }
    default:
  }
}

/** The line of a cell that its error names first. */
function lineOf(outputs: readonly Output[], cell: number): number | null {
  const error = outputs.find((output): output is ErrorOutput => output.output_type === 'error');
  for (const text of error?.traceback ?? []) {
    const found = new RegExp(`^ +at .*\\bcell ${cell}, line (\\d+):`).exec(text);
    if (found !== null) return Number(found[1]);
  }
  return null;
}
