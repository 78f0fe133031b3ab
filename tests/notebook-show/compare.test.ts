import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { compareNotebooks, formatComparison, formatNotebook, type Notebook } from 'halfmax-notebook/notebook';
import { afterAll, describe, expect, it } from 'vitest';
import { compareCommand } from '../../packages/halfmax-notebook/src/commands/compare.js';
import type { Terminal } from '../../packages/halfmax-notebook/src/commands/terminal.js';

const silent: Terminal = { out: () => {}, error: () => {}, showsProgress: false };

const display = (data: object): object => ({ output_type: 'display_data', metadata: {}, data });
const stdout = (text: string): object => ({ output_type: 'stream', name: 'stdout', text });
const table = (width: string): object =>
  display({
    'text/html': `<table><tr><th>filter</th><th>width</th></tr><tr><td>A</td><td>${width}</td></tr></table>`,
  });
const figure = (y: readonly number[], png = 'AAAA'): object =>
  display({
    'application/vnd.plotly.v1+json': { data: [{ name: 'curve', x: [1, 2, 3], y }], layout: { height: 400 } },
    'image/png': png,
  });
const quantity = (value: number, standardUncertainty: number): object =>
  display({
    'text/plain': 'width',
    'application/vnd.halfmax.quantity+json': { name: 'width', unit: 'nm', value, standardUncertainty },
  });
const code = (id: string, outputs: readonly object[], source = 'run()'): object => ({
  cell_type: 'code',
  id,
  metadata: {},
  source,
  execution_count: 1,
  outputs,
});
const notebook = (cells: readonly object[], metadata: object = {}): Notebook =>
  ({ nbformat: 4, nbformat_minor: 5, metadata, cells }) as unknown as Notebook;
const single = (output: object): Notebook => notebook([code('c', [output])]);
const differences = (a: object, b: object, relative = 0, absolute = 0): string[] =>
  compareNotebooks(single(a), single(b), { tolerance: { relative, absolute } }).cells[0]!.differences.map(
    (found) => `${found.kind}: ${found.where}: ${found.a} > ${found.b}`,
  );

describe('what differs in an output', () => {
  it('is nothing where nothing differs, whatever the number of the cell and the cut of a stream', () => {
    const a = notebook([code('c', [stdout('a'), stdout('b'), figure([1, 2, 3])])]);
    const b = notebook([{ ...code('c', [stdout('ab'), figure([1, 2, 3])]), execution_count: 9 }]);
    expect(compareNotebooks(a, b)).toMatchObject({ isSame: true, cells: [{ status: 'same' }] });
  });

  it('is a number, with its line and its change', () => {
    expect(differences(stdout('peak 0.91\nwidth 3.25 nm'), stdout('peak 0.91\nwidth 3.258 nm'))).toEqual([
      'number: output 1, stdout, line 2: 3.25 > 3.258 (+0.008)',
    ]);
    expect(differences(stdout('at −4.0'), stdout('at -4.5'))).toEqual([
      'number: output 1, stdout: −4.0 > -4.5 (−0.5)',
    ]);
  });

  it('is a text where more than numbers differ, a number of lines, a way of writing', () => {
    expect(differences(stdout('good'), stdout('bad'))).toEqual(['text: output 1, stdout: good > bad']);
    expect(differences(stdout('a\nb'), stdout('a'))).toEqual([
      'text: output 1, stdout: 2 lines; line 2: b > 1 lines; line 2: none',
    ]);
    expect(differences(stdout('1.0'), stdout('1.00'))).toEqual([
      'text: output 1, stdout, way of writing: 1.0 > 1.00',
    ]);
    expect(differences(stdout('1.0'), stdout('1.00'), 1e-12)).toEqual([]);
  });

  it('takes no digit inside a word or a digest for a number', () => {
    expect(differences(stdout('sha a1b2'), stdout('sha a1b3'), 1)).toEqual([
      'text: output 1, stdout: sha a1b2 > sha a1b3',
    ]);
  });

  it('honours a tolerance, relative or absolute, and no more than it', () => {
    const [a, b] = [stdout('100'), stdout('100.1')];
    expect(differences(a, b, 0.000999)).toEqual(['number: output 1, stdout: 100 > 100.1 (+0.1)']);
    expect(differences(a, b, 0.001)).toEqual([]);
    expect(differences(a, b, 0, 0.11)).toEqual([]);
    expect(differences(a, b, 0, 0.09).length).toBe(1);
  });

  it('is a cell of a table, by its row and column', () => {
    expect(differences(table('3.25'), table('3.26'))).toEqual([
      'table: output 1, row 1, width: 3.25 > 3.26 (+0.01)',
    ]);
  });

  it('is the data of a figure, not its pixels', () => {
    expect(differences(figure([1, 2, 3], 'AAAA'), figure([1, 2, 3], 'BBBB'))).toEqual([]);
    expect(differences(figure([1, 2, 3]), figure([1, 2.5, 2]))).toEqual([
      'figure: output 1, trace 1 (curve), y: 2 of 3 values, most at 3: 3 > 2 (−1)',
    ]);
    expect(differences(figure([1, 2, 3]), figure([1, 2]))).toEqual([
      'figure: output 1, trace 1 (curve), y: 3 values > 2 values',
    ]);
  });

  it('is a picture where there is nothing but a picture', () => {
    const png = (data: string): object => display({ 'image/png': data, 'text/plain': 'a picture' });
    expect(differences(png('AAAA'), png('AAAB'))).toEqual([
      'picture: output 1, image/png: a picture of 3 bytes > a picture of 3 bytes',
    ]);
  });

  it('is an output that the other has not, without upsetting those that follow', () => {
    const a = notebook([code('c', [stdout('x'), table('1')])]);
    const b = notebook([code('c', [table('1')])]);
    expect(compareNotebooks(a, b).cells[0]!.differences).toEqual([
      { kind: 'output', where: 'output 1', a: 'stdout: x', b: '' },
    ]);
  });

  it('is an error in place of a result', () => {
    const error = { output_type: 'error', ename: 'RangeError', evalue: 'no', traceback: [] };
    expect(differences(stdout('x'), error).length).toBe(2);
  });
});

describe('quantities', () => {
  it('move by parts of both standard uncertainties together', () => {
    // 0.03 / sqrt(0.03^2 + 0.04^2) = 0.6 by the triangle of sides 3, 4, 5
    const found = compareNotebooks(single(quantity(3.25, 0.03)), single(quantity(3.28, 0.04)));
    expect(found.isSame).toBe(false);
    expect(found.cells[0]!.quantities[0]!.inUncertainties).toBeCloseTo(0.6, 12);
    expect(formatComparison(found, 'a.ipynb', 'b.ipynb')).toContain(
      'width / nm: 3.250 ± 0.030 → 3.280 ± 0.040, +0.03 (0.60 combined standard uncertainties)',
    );
  });

  it('are the same only where value and uncertainty are', () => {
    expect(compareNotebooks(single(quantity(3, 0.1)), single(quantity(3, 0.1))).isSame).toBe(true);
    expect(compareNotebooks(single(quantity(3, 0.1)), single(quantity(3, 0.2))).isSame).toBe(false);
  });

  it('without an uncertainty have no number of uncertainties', () => {
    const [move] = compareNotebooks(single(quantity(3, 0)), single(quantity(4, 0))).cells[0]!.quantities;
    expect(move).toMatchObject({ change: 1, inUncertainties: null });
  });
});

describe('cells and inputs', () => {
  it('are paired by id, then by source', () => {
    const a = notebook([code('a', [], 'one'), code('b', [], 'two'), code('c', [], 'three')]);
    const b = notebook([code('a', [], 'one'), code('x', [], 'two'), code('y', [], 'four')]);
    expect(compareNotebooks(a, b).cells.map(({ place, status }) => `${place} ${status}`)).toEqual([
      'cell 1 (a) same',
      'cell 2 (b) same',
      'cell 3 (c) only in a',
      'cell 3 (y) only in b',
    ]);
  });

  it('a changed source is a difference, whatever the tolerance', () => {
    const [a, b] = [notebook([code('c', [], 'n = 10')]), notebook([code('c', [], 'n = 11')])];
    expect(compareNotebooks(a, b, { tolerance: { relative: 1, absolute: 100 } }).cells[0]).toMatchObject({
      status: 'different',
      differences: [{ kind: 'source' }],
    });
  });

  it('inputs are told by name; the order of files does not count', () => {
    const run = (seed: number, digest: string, order: 1 | -1): object => ({
      halfmax: {
        inputs: { seed: { value: seed, from: 'command' } },
        filesRead: [
          { path: 'lamp.csv', sha256: digest.repeat(64) },
          { path: 'dark.csv', sha256: '0'.repeat(64) },
        ].sort((p, q) => order * (p.path < q.path ? -1 : 1)),
      },
    });
    const found = compareNotebooks(notebook([], run(1, 'a', 1)), notebook([], run(2, 'b', -1)));
    expect(found.inputs).toEqual([
      { name: 'filesRead lamp.csv sha256', a: 'aaaaaaaaaaaa…', b: 'bbbbbbbbbbbb…' },
      { name: 'inputs seed value', a: '1', b: '2' },
    ]);
    expect(found.isSame).toBe(true);
  });
});

describe('the command', () => {
  const folder = mkdtempSync(join(tmpdir(), 'compare-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  const write = (name: string, content: Notebook): string => {
    writeFileSync(join(folder, name), formatNotebook(content));
    return join(folder, name);
  };
  const a = write('a.ipynb', single(stdout('1')));
  const b = write('b.ipynb', single(stdout('2')));

  it('ends with 0 for the same and 3 for different, and says so', () => {
    let text = '';
    const terminal: Terminal = { ...silent, out: (part) => (text += part) };
    expect(compareCommand([a, a], terminal)).toBe(0);
    expect(text).toContain('1 cells: 1 same; numbers compared exactly.');
    expect(compareCommand([a, b], terminal)).toBe(3);
    expect(compareCommand([a, b, '--tolerance', '0.5'], terminal)).toBe(0);
    expect(text).toContain('with a tolerance of 0.5 of the larger');
  });

  it.each([
    [[], /A: no notebook given/],
    [['a.ipynb'], /B: no notebook given/],
    [[a, b, 'c'], /is a third file/],
    [[a, b, '--tolerance', '-1'], /"-1" is not a number from 0/],
    [[a, b, '--exact'], /--exact: is not an option of this command/],
    [[a, join(folder, 'none.ipynb')], /none\.ipynb: does not exist/],
    [[a, folder], /is a folder/],
  ])('refuses %j', (args, message) => {
    expect(() => compareCommand(args, silent)).toThrow(message);
  });
});
