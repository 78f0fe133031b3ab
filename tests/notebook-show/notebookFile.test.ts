import { BadInputError } from 'halfmax';
import { formatNotebook, normaliseNotebook, readNotebook, validateNotebook } from 'halfmax-notebook/notebook';
import { describe, expect, it } from 'vitest';

const valid = {
  nbformat: 4,
  nbformat_minor: 5,
  metadata: { kernelspec: { name: 'tslab', display_name: 'TypeScript' } },
  cells: [
    { cell_type: 'markdown', id: 'intro', metadata: {}, source: ['# Title\n', 'text'] },
    {
      cell_type: 'code',
      id: 'run',
      metadata: { tags: ['a', 'b'] },
      source: '1 + 1',
      execution_count: 4,
      outputs: [
        { output_type: 'stream', name: 'stdout', text: ['one\n', 'two'] },
        {
          output_type: 'display_data',
          metadata: {},
          data: { 'text/plain': ['a'], 'application/json': { z: 1, 10: ['x'], 2: [] } },
        },
        { output_type: 'error', ename: 'E', evalue: 'v', traceback: ['t'] },
      ],
    },
  ],
};
const text = JSON.stringify(valid);
const edited = (change: (notebook: typeof valid) => void): string => {
  const copy = structuredClone(valid);
  change(copy);
  return JSON.stringify(copy);
};
const problemsOf = (source: string): string => {
  try {
    readNotebook(source, 'x.ipynb');
    return '';
  } catch (error) {
    expect(error).toBeInstanceOf(BadInputError);
    return (error as Error).message;
  }
};

describe('readNotebook', () => {
  it('joins texts of several lines and leaves JSON alone', () => {
    const { cells } = readNotebook(text, 'x.ipynb');
    expect(cells[0]!.source).toBe('# Title\ntext');
    const code = cells[1]!;
    expect(code.cell_type === 'code' && code.outputs[0]).toEqual({
      output_type: 'stream',
      name: 'stdout',
      text: 'one\ntwo',
    });
    expect(code.cell_type === 'code' && code.outputs[1]).toMatchObject({
      data: { 'text/plain': 'a', 'application/json': { z: 1, 10: ['x'], 2: [] } },
    });
  });

  it('raises formats 4.0 to 4.4 and gives ids by place, around those that are taken', () => {
    const old = JSON.stringify({
      nbformat: 4,
      nbformat_minor: 2,
      metadata: {},
      cells: [
        { cell_type: 'markdown', metadata: {}, source: '' },
        { cell_type: 'raw', id: 'cell-3', metadata: {}, source: '' },
        { cell_type: 'raw', metadata: {}, source: '' },
      ],
    });
    const notebook = readNotebook(old, 'x.ipynb');
    expect(notebook.nbformat_minor).toBe(5);
    expect(notebook.cells.map(({ id }) => id)).toEqual(['cell-1', 'cell-3', 'cell-3-2']);
    expect(readNotebook(old, 'x.ipynb')).toEqual(notebook);
  });

  it('drops what only a running front end needs', () => {
    const source = edited(({ cells }) =>
      Object.assign(cells[1]!.outputs![1]!, { transient: { display_id: 'q' } }),
    );
    expect(JSON.stringify(readNotebook(source, 'x.ipynb'))).not.toContain('transient');
  });

  it.each([
    ['{', /^x\.ipynb: is not JSON \(.*\); name an \.ipynb file$/],
    ['[]', /^x\.ipynb: is a list, not a notebook/],
    ['{"nbformat": 3}', /^x\.ipynb: nbformat: is 3; only format 4 is read; open it in Jupyter/],
    ['{"nbformat": 5}', /nbformat: is 5; only format 4 is read/],
    [
      edited((n) => Object.assign(n.cells[0]!, { id: 'run' })),
      /cell 2 \(run\): has the id of cell 1; give each cell/,
    ],
    [
      edited((n) => Object.assign(n.cells[1]!, { id: 'a b' })),
      /cell 2 \(a b\): id: is "a b", not 1 to 64 letters/,
    ],
    [
      edited((n) => Object.assign(n.cells[1]!, { source: [1] })),
      /cell 2 \(run\): source: is a list, not a text/,
    ],
    [edited((n) => Object.assign(n.cells[1]!, { extra: 1 })), /cell 2 \(run\): has the field "extra"/],
    [
      edited((n) => Object.assign(n.cells[1]!.outputs![0]!, { output_type: 'x' })),
      /output 1: has the type "x"/,
    ],
    [
      edited((n) => Object.assign(n.cells[1]!.outputs![1]!, { data: { 'text/plain': 3 } })),
      /output 2: data: text\/plain/,
    ],
    [edited((n) => Object.assign(n.cells[1]!, { execution_count: -1 })), /execution_count: is -1, not null/],
    [
      edited((n) => Object.assign(n.metadata.kernelspec, { name: 1 })),
      /metadata\.kernelspec\.name: is a number/,
    ],
  ])('refuses %.60s', (source, message) => {
    expect(problemsOf(source)).toMatch(message);
  });

  it('reports all problems at once', () => {
    const source = edited((n) => {
      Object.assign(n.cells[0]!, { source: 1 });
      Object.assign(n.cells[1]!, { metadata: null });
    });
    expect(problemsOf(source).split('\n').length).toBe(2);
  });

  it('takes a key called __proto__ for a key', () => {
    const source = text.replace('"tags"', '"__proto__": {"x": 1}, "tags"');
    const notebook = readNotebook(source, 'x.ipynb');
    expect(({} as { x?: number }).x).toBeUndefined();
    expect(formatNotebook(notebook)).toContain('"__proto__"');
  });
});

describe('formatNotebook', () => {
  it('writes the same notebook to the same bytes, whatever the order of its keys', () => {
    const notebook = readNotebook(text, 'x.ipynb');
    const shuffled = JSON.stringify(valid, Object.keys(flattened(valid)).sort().reverse());
    const once = formatNotebook(notebook);
    expect(formatNotebook(readNotebook(shuffled, 'x.ipynb'))).toBe(once);
    expect(formatNotebook(readNotebook(once, 'x.ipynb'))).toBe(once);
    expect(JSON.parse(once)).toEqual({
      ...valid,
      cells: [
        valid.cells[0],
        {
          ...valid.cells[1],
          source: ['1 + 1'],
        },
      ],
    });
  });

  it('sorts keys as texts, keeps letters beyond ASCII and ends with a line break', () => {
    const written = formatNotebook({
      nbformat: 4,
      nbformat_minor: 5,
      metadata: { 10: 'λ', 9: 1, a: [] },
      cells: [],
    });
    expect(written).toBe(
      '{\n "cells": [],\n "metadata": {\n  "10": "λ",\n  "9": 1,\n  "a": []\n },\n "nbformat": 4,\n "nbformat_minor": 5\n}\n',
    );
  });

  it('gives a list of numbers one line, and one of texts a line for each', () => {
    const metadata = { a: [1, null, -2.5e-9], b: [true, 2], c: ['x', 1] };
    const written = formatNotebook({ nbformat: 4, nbformat_minor: 5, metadata, cells: [] });
    expect(written).toContain(
      '  "a": [1, null, -2.5e-9],\n  "b": [true, 2],\n  "c": [\n   "x",\n   1\n  ]\n',
    );
  });

  it('refuses a number that JSON cannot hold', () => {
    const bad = { nbformat: 4 as const, nbformat_minor: 5, metadata: { x: Number.NaN }, cells: [] };
    expect(() => formatNotebook(bad)).toThrow('formatNotebook requires finite numbers, got NaN');
  });
});

describe('normaliseNotebook', () => {
  it('joins streams, numbers cells from 1, drops timings and random ids', () => {
    const code = (id: string, count: number | null, outputs: readonly object[]): object => ({
      cell_type: 'code',
      id,
      metadata: { execution: { 'iopub.status.busy': 'now' }, tags: [] },
      source: '',
      execution_count: count,
      outputs,
    });
    const stream = (name: string, part: string): object => ({ output_type: 'stream', name, text: part });
    const figure = { data: [{ y: [1], uid: 'abc123' }], layout: {} };
    const notebook = readNotebook(
      JSON.stringify({
        ...valid,
        cells: [
          code('a', 17, [
            stream('stdout', 'a'),
            stream('stdout', ''),
            stream('stdout', 'b'),
            stream('stderr', 'c'),
            stream('stdout', 'd'),
          ]),
          code('b', null, []),
          code('c', 40, [
            {
              output_type: 'execute_result',
              execution_count: 40,
              metadata: {},
              data: { 'application/vnd.plotly.v1+json': figure },
            },
          ]),
        ],
      }),
      'x.ipynb',
    );
    const { cells } = normaliseNotebook(notebook);
    expect(cells.map((cell) => cell.cell_type === 'code' && cell.execution_count)).toEqual([1, null, 2]);
    expect(cells[0]).toMatchObject({
      metadata: { tags: [] },
      outputs: [{ text: 'ab' }, { text: 'c' }, { text: 'd' }],
    });
    expect(cells[0]!.metadata).not.toHaveProperty('execution');
    expect(cells[2]).toMatchObject({ outputs: [{ execution_count: 2 }] });
    expect(JSON.stringify(cells[2])).not.toContain('abc123');
    expect(notebook.cells[0]).toMatchObject({ execution_count: 17 });
  });
});

describe('validateNotebook', () => {
  it('finds nothing in a valid notebook', () => {
    expect(validateNotebook(valid)).toEqual([]);
  });
});

/** All keys of a value, so that JSON.stringify can be given them in another order. */
function flattened(value: unknown): Record<string, true> {
  if (typeof value !== 'object' || value === null) return {};
  return Object.assign(
    Array.isArray(value) ? {} : Object.fromEntries(Object.keys(value).map((key) => [key, true as const])),
    ...Object.values(value).map(flattened),
  ) as Record<string, true>;
}
