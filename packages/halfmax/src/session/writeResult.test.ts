import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeResult } from './writeResult.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'halfmax-out-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const files = [
  { name: 'measurement.json', content: '{}\n' },
  { name: 'ha.csv', content: new Uint8Array([97]) },
];

describe('writeResult', () => {
  it('writes all files, into a folder that it makes, and leaves no temporaries', () => {
    const out = join(folder, 'a', 'b');
    writeResult(out, files);
    expect(readdirSync(out).sort()).toEqual(['ha.csv', 'measurement.json']);
    expect(readFileSync(join(out, 'measurement.json'), 'utf8')).toBe('{}\n');
    expect(readFileSync(join(out, 'ha.csv'), 'utf8')).toBe('a');
  });

  it('replaces older files and leaves others alone', () => {
    writeFileSync(join(folder, 'measurement.json'), 'old');
    writeFileSync(join(folder, 'mine.txt'), 'mine');
    writeResult(folder, files);
    expect(readFileSync(join(folder, 'measurement.json'), 'utf8')).toBe('{}\n');
    expect(readdirSync(folder).sort()).toEqual(['ha.csv', 'measurement.json', 'mine.txt']);
  });

  it('removes the stale files named, in the same step, and nothing else', () => {
    for (const name of ['curve-old.csv', 'mine.csv']) writeFileSync(join(folder, name), 'old');
    mkdirSync(join(folder, 'curve-folder.csv'));
    writeResult(folder, files, ['curve-old.csv', 'curve-folder.csv', 'curve-gone.csv']);
    expect(readdirSync(folder).sort()).toEqual([
      'curve-folder.csv',
      'ha.csv',
      'measurement.json',
      'mine.csv',
    ]);
    expect(() => writeResult(folder, files, ['../curve-old.csv'])).toThrow(RangeError);
    expect(() => writeResult(folder, files, ['ha.csv'])).toThrow(RangeError);
  });

  it('keeps stale files where the result cannot be written', () => {
    writeFileSync(join(folder, 'curve-old.csv'), 'old');
    mkdirSync(join(folder, 'ha.csv'));
    expect(() => writeResult(folder, files, ['curve-old.csv'])).toThrow(/in the way/);
    expect(readFileSync(join(folder, 'curve-old.csv'), 'utf8')).toBe('old');
  });

  it('refuses a folder that is a file', () => {
    writeFileSync(join(folder, 'out'), 'x');
    expect(() => writeResult(join(folder, 'out'), files)).toThrow(
      /out: is a file, not a folder; give another --out/,
    );
    expect(() => writeResult(join(folder, 'out', 'deeper'), files)).toThrow(
      /cannot be written: a part of its path is not a folder/,
    );
  });

  it('leaves everything as it was where a folder stands in the way of one file', () => {
    writeFileSync(join(folder, 'measurement.json'), 'old');
    mkdirSync(join(folder, 'ha.csv'));
    expect(() => writeResult(folder, files)).toThrow(/ha\.csv: is in the way and no file/);
    expect(readdirSync(folder).sort()).toEqual(['ha.csv', 'measurement.json']);
    expect(readFileSync(join(folder, 'measurement.json'), 'utf8')).toBe('old');
  });

  it('rolls back when a later file fails, folders that it made included', () => {
    writeFileSync(join(folder, 'measurement.json'), 'old');
    // 250 characters are a legal name, but not with the letters of a temporary one.
    const long = { name: 'x'.repeat(250), content: '' };
    expect(() => writeResult(folder, [...files, long])).toThrow(/cannot be written: its name is too long/);
    expect(readdirSync(folder)).toEqual(['measurement.json']);
    expect(readFileSync(join(folder, 'measurement.json'), 'utf8')).toBe('old');
    expect(() => writeResult(join(folder, 'new', 'er'), [...files, long])).toThrow(/too long/);
    expect(readdirSync(folder)).toEqual(['measurement.json']);
  });

  it('refuses a folder that may not be written to', () => {
    const isRoot = process.getuid?.() === 0;
    chmodSync(folder, 0o555);
    // The superuser may write anywhere: step down for the moment of the test.
    if (isRoot) process.seteuid?.(65534);
    try {
      expect(() => writeResult(folder, files)).toThrow(/measurement\.json: cannot be written: no permission/);
      expect(() => writeResult(join(folder, 'deeper'), files)).toThrow(
        /deeper: cannot be written: no permission/,
      );
    } finally {
      if (isRoot) process.seteuid?.(0);
      chmodSync(folder, 0o755);
    }
    expect(readdirSync(folder)).toEqual([]);
  });

  it('takes plain names only', () => {
    expect(() => writeResult(folder, [{ name: '../x', content: '' }])).toThrow(RangeError);
    expect(() => writeResult(folder, [files[0]!, { name: 'MEASUREMENT.json', content: '' }])).toThrow(
      RangeError,
    );
  });
});
