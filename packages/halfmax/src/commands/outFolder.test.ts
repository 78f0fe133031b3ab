import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { BadInputError } from '../errors.js';
import { checkOutFolder, earlierCurves } from './outFolder.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'halfmax-folder-'));
  mkdirSync(join(folder, 'session', 'frames'), { recursive: true });
  writeFileSync(join(folder, 'session', 'frames', 'a.csv'), '1\n');
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('checkOutFolder', () => {
  const check = (out: string): (() => void) => {
    return () => checkOutFolder(join(folder, out), join(folder, 'session'), ['session.json', 'frames/a.csv']);
  };

  it('refuses the session folder by any name, those above it and those that hold its frames', () => {
    symlinkSync(join(folder, 'session'), join(folder, 'link'));
    expect(check('session')).toThrow(BadInputError);
    expect(check('session')).toThrow(
      /--out: .*session is the session folder itself; give a folder of its own/,
    );
    expect(check('session/frames/..')).toThrow(/is the session folder itself/);
    expect(check('link')).toThrow(/is the session folder itself/);
    expect(check('.')).toThrow(/holds the session folder/);
    expect(check('session/frames')).toThrow(/holds frames\/a\.csv, a file of the session/);
  });

  it('lets other folders pass, there or not, inside the session too', () => {
    for (const out of ['result', 'session-2', 'session/result', 'session/frames/result', 'x/y/z'])
      expect(check(out), out).not.toThrow();
  });
});

describe('earlierCurves', () => {
  const write = (value: unknown): void =>
    writeFileSync(
      join(folder, 'measurement.json'),
      typeof value === 'string' ? value : JSON.stringify(value),
    );

  it('are those that an earlier result lists, plain curve names only', () => {
    const names = [
      'curve-ha.csv',
      'curve-ha.csv',
      null,
      '../curve-x.csv',
      'session.json',
      'curve-o_20_3.csv',
    ];
    write({ format: 'halfmax-measurement/1', filters: [...names.map((curveFile) => ({ curveFile })), null] });
    expect(earlierCurves(folder)).toEqual(['curve-ha.csv', 'curve-o_20_3.csv']);
  });

  it.each([
    ['{'],
    [{ filters: [{ curveFile: 'curve-ha.csv' }] }],
    ['null'],
    [{ format: 'halfmax-measurement/1' }],
  ])('are none in %j', (value) => {
    write(value);
    expect(earlierCurves(folder)).toEqual([]);
  });

  it('are none where there is no earlier result', () => {
    expect(earlierCurves(join(folder, 'nowhere'))).toEqual([]);
  });
});
