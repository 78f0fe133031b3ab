import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { writeResult } from './writeResult.js';

const failAt = vi.hoisted(() => ({ rename: 0, calls: 0 }));

// A disk that fails in the middle of the renames cannot be had on demand: the n-th rename is made to fail.
vi.mock('node:fs', async (original) => {
  const actual = await original<typeof import('node:fs')>();
  return {
    ...actual,
    renameSync(from: string, to: string): void {
      failAt.calls++;
      if (failAt.calls === failAt.rename) throw Object.assign(new Error('broken'), { code: 'EIO' });
      actual.renameSync(from, to);
    },
  };
});

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'halfmax-rollback-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

it.each([1, 2, 3, 4])('puts the old files back when rename %i of 4 fails', (rename) => {
  const names = ['ha.csv', 'measurement.json'];
  for (const name of names) writeFileSync(join(folder, name), `old ${name}`);
  Object.assign(failAt, { rename, calls: 0 });
  const files = names.map((name) => ({ name, content: `new ${name}` }));
  expect(() => writeResult(folder, files)).toThrow(/cannot be written: the disk reports an error/);
  expect(readdirSync(folder).sort()).toEqual(names);
  for (const name of names) expect(readFileSync(join(folder, name), 'utf8')).toBe(`old ${name}`);
});

it('leaves nothing of a first set of files when its second rename fails', () => {
  Object.assign(failAt, { rename: 2, calls: 0 });
  const out = join(folder, 'out');
  const files = ['a', 'b'].map((name) => ({ name, content: name }));
  expect(() => writeResult(out, files)).toThrow(/out.b: cannot be written/);
  expect(readdirSync(folder)).toEqual([]);
});
