import { concat, DataFrame, MinMaxScaler, merge, Series, StandardScaler } from 'danfojs-node';
import { showTable } from 'halfmax-notebook/display';
import { describe, expect, it } from 'vitest';
import statistics from '../../packages/halfmax-notebook/shims/mathjs/index.js';

// A number whose nearest single-precision neighbour is 656.28125: it shows at once where digits are lost.
const line = 656.28123456;
const frame = (): DataFrame => new DataFrame({ a: [1, 2, 3], b: [line, -4.5, 16777217.123] });

describe('arithmetic of data frames', () => {
  it('keeps double precision with a number on the other side', () => {
    expect(frame().add(0).values).toEqual([
      [1, line],
      [2, -4.5],
      [3, 16777217.123],
    ]);
    expect(frame().mul(3).values).toEqual([
      [3, line * 3],
      [6, -13.5],
      [9, 16777217.123 * 3],
    ]);
    expect(frame().sub(0.1).values[0]).toEqual([1 - 0.1, line - 0.1]);
    expect(frame().div(7).values[2]).toEqual([3 / 7, 16777217.123 / 7]);
    expect(frame().pow(2).values[1]).toEqual([4, 20.25]);
  });

  it('gives the remainder the sign of the divisor, as Python does', () => {
    // python3: [-7 % 3, 7 % -3, 7 % 3, -7 % -3] == [2, -2, 1, -1]
    expect(new DataFrame([[-7, 7]]).mod(3).values).toEqual([[2, 1]]);
    expect(new DataFrame([[7, -7]]).mod(-3).values).toEqual([[-2, -1]]);
  });

  it('works with a frame, a column and a row on the other side', () => {
    expect(frame().add(frame()).values).toEqual(frame().mul(2).values);
    const column = new Series([10, 20, 30]);
    expect(
      frame()
        .sub(column, { axis: 0 })
        .values.map((row) => (row as number[])[0]),
    ).toEqual([-9, -18, -27]);
    expect(frame().add([1, 0.5], { axis: 1 }).values[0]).toEqual([2, line + 0.5]);
  });

  it('compares cell by cell', () => {
    expect(frame().gt(2).values).toEqual([
      [false, true],
      [false, false],
      [true, true],
    ]);
    expect(frame().eq(2).values[1]).toEqual([true, false]);
    expect(frame().le(frame()).values.flat()).toEqual(Array(6).fill(true));
    expect(frame().ne(frame()).values.flat()).toEqual(Array(6).fill(false));
  });

  it('gives differences along a row', () => {
    const rows = new DataFrame([
      [1, line, 3 * line],
      [4, 4, -1],
    ]).diff(1, { axis: 1 }) as DataFrame;
    // The steps run from row to row of the frame, whatever the axis is called: the first row has none before it.
    expect(rows.values[1]).toEqual([3, 4 - line, -1 - 3 * line]);
  });

  it('refuses shapes that do not fit', () => {
    expect(() => frame().add([1, 2, 3], { axis: 1 })).toThrow(/add requires shapes that fit/);
  });
});

describe('scalers', () => {
  it('stretch to 0 and 1', () => {
    const scaler = new MinMaxScaler();
    expect(scaler.fitTransform([1, 2, 3, 4, 5])).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect(scaler.inverseTransform([0, 0.25, 0.5, 0.75, 1])).toEqual([1, 2, 3, 4, 5]);
  });

  it('centre on the mean and divide by the standard deviation over n, column by column', () => {
    const table = new DataFrame({ a: [2, 4, 4, 4, 5, 5, 7, 9], b: [0, 0, 0, 0, 2, 2, 2, 2] });
    const scaled = new StandardScaler().fitTransform(table) as DataFrame;
    // mean 5 and deviation 2 of the first column are a schoolbook case; mean 1 and deviation 1 of the second are plain
    expect(scaled.values.map((row) => (row as number[])[0])).toEqual([-1.5, -0.5, -0.5, -0.5, 0, 0, 1, 2]);
    expect(scaled.values.map((row) => (row as number[])[1])).toEqual([-1, -1, -1, -1, 1, 1, 1, 1]);
  });
});

describe('what tables use', () => {
  it('finds the largest and the smallest of a series', () => {
    const series = new Series([3, line, -2, 5]);
    expect(series.argMax()).toBe(1);
    expect(series.argMin()).toBe(2);
  });

  it('draws the same sample from the same seed, without taking a row twice', async () => {
    const table = new DataFrame({ n: Array.from({ length: 20 }, (_, i) => i) });
    const draw = async (seed: number): Promise<unknown[]> =>
      ((await table.sample(8, { seed })) as DataFrame).values.flat();
    expect(await draw(3)).toEqual(await draw(3));
    expect(await draw(3)).not.toEqual(await draw(4));
    expect(new Set(await draw(3)).size).toBe(8);
  });

  it('groups, joins, sorts and selects as before', () => {
    const table = new DataFrame({ filter: ['A', 'B', 'A', 'B'], width: [3, 5, 3.5, 5.5] });
    const means = table.groupby(['filter']).col(['width']).mean();
    expect(means.values).toEqual([
      ['A', 3.25],
      ['B', 5.25],
    ]);
    expect(table.sortValues('width', { ascending: false }).column('width').values).toEqual([5.5, 5, 3.5, 3]);
    expect(table.query(table.column('width').gt(4)).shape).toEqual([2, 2]);
    const names = new DataFrame({ filter: ['A', 'B'], line: ['H-alpha', '[O III]'] });
    const joined = merge({ left: table, right: names, on: ['filter'], how: 'left' });
    const pairs = joined.values.map((row) => (row as unknown[]).join(' '));
    expect(pairs.sort()).toEqual(['A 3 H-alpha', 'A 3.5 H-alpha', 'B 5 [O III]', 'B 5.5 [O III]']);
    expect(table.loc({ rows: [1] }).values).toEqual([['B', 5]]);
    expect(table.column('width').mean()).toBe(4.25);
    expect(table.column('width').std()).toBeCloseTo(Math.sqrt(4.25 / 3), 15);
    expect(table.describe().shape[1]).toBe(1);
    // Last, because it lengthens the first frame of its list.
    expect((concat({ dfList: [table, table], axis: 0 }) as DataFrame).shape).toEqual([8, 2]);
  });
});

describe('showTable', () => {
  it('writes a data frame and a record of arrays alike', () => {
    const columns = { filter: ['A', 'B'], width: [3.25, 4] };
    const fromFrame = showTable(new DataFrame(columns));
    expect(showTable({ ...columns, width: Float64Array.from(columns.width) })).toEqual(fromFrame);
    expect(fromFrame!['text/plain']).toBe('filter  width\n──────  ─────\nA        3.25\nB        4.00');
  });
});

describe('the statistics of data frames', () => {
  it('are those of a sample', () => {
    // The eight numbers with mean 5 and sum of squares about it 32: variance over n - 1 is 32/7.
    const eight = [2, 4, 4, 4, 5, 5, 7, 9];
    expect(statistics.mean(eight)).toBe(5);
    expect(statistics.variance(eight)).toBe(32 / 7);
    expect(statistics.std(eight)).toBe(Math.sqrt(32 / 7));
    expect(statistics.median(eight)).toBe(4.5);
    expect(statistics.mode(eight)).toEqual([4]);
    expect(statistics.mode([3, 1, 3, 1, 2])).toEqual([3, 1]);
    expect(new Series(eight).std()).toBe(statistics.std(eight));
    expect(new Series(eight).median()).toBe(4.5);
  });

  it('of one number, of none, and with a number that is none', () => {
    expect(statistics.variance([7])).toBe(0);
    expect(statistics.median([7, 1, 3])).toBe(3);
    expect(statistics.median([1, Number.NaN, 3])).toBeNaN();
    expect(() => statistics.median([])).toThrow('median requires at least 1 number, got none');
  });
});
