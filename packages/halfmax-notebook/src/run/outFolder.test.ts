import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { RUN_FILE, RUN_FORMAT, takeOutFolder } from './outFolder.js';

let work = '';
beforeEach(() => {
  work = mkdtempSync(join(tmpdir(), 'halfmax-out-'));
});
afterEach(() => rmSync(work, { recursive: true, force: true }));

describe('takeOutFolder', () => {
  it('makes a folder with its parents, and takes them away again while they are empty', () => {
    const folder = join(work, 'a', 'b');
    const out = takeOutFolder(folder, []);
    expect(existsSync(folder)).toBe(true);
    out.release();
    expect(readdirSync(work)).toEqual([]);
  });

  it('keeps what was written', () => {
    const out = takeOutFolder(join(work, 'a'), []);
    writeFileSync(join(out.folder, 'x'), '');
    out.release();
    expect(readdirSync(join(work, 'a'))).toEqual(['x']);
  });

  it('refuses a second taker while the first is at it, and lets it in afterwards', () => {
    const out = takeOutFolder(join(work, 'a'), []);
    expect(() => takeOutFolder(join(work, 'a'), [])).toThrow(/another run \(process \d+\) is writing to it/);
    out.release();
    takeOutFolder(join(work, 'a'), []).release();
  });

  it('takes over from a run that is gone, even if another process has its number now', () => {
    mkdirSync(join(work, 'a'));
    const lock = JSON.stringify({ pid: process.pid, started: 'long ago' });
    writeFileSync(join(work, 'a', '.halfmax-notebook.lock'), lock);
    mkdirSync(join(work, 'a', '.files-0123456789ab'));
    const out = takeOutFolder(join(work, 'a'), []);
    expect(readdirSync(join(work, 'a'))).toEqual(['.halfmax-notebook.lock']);
    out.release();
  });

  it('refuses a folder of something else, and a run record that is none', () => {
    writeFileSync(join(work, 'letter.txt'), '');
    expect(() => takeOutFolder(work, [])).toThrow(
      /letter\.txt: the folder holds something that is not of a run/,
    );
    writeFileSync(join(work, RUN_FILE), '{"format": "other"}');
    expect(() => takeOutFolder(work, [])).toThrow(/not of a run/);
    expect(readdirSync(work)).toEqual(['letter.txt', RUN_FILE]);
  });

  it('lets a run replace what an earlier one wrote, and nothing else', () => {
    writeFileSync(join(work, RUN_FILE), JSON.stringify({ format: RUN_FORMAT, wrote: ['a.ipynb'] }));
    writeFileSync(join(work, 'a.ipynb'), '');
    writeFileSync(join(work, 'b.ipynb'), '');
    const out = takeOutFolder(work, ['a.ipynb']);
    expect([...out.earlier]).toEqual([RUN_FILE, 'a.ipynb']);
    out.release();
    expect(() => takeOutFolder(work, ['b.ipynb'])).toThrow(/b\.ipynb: is in the way/);
  });
});
