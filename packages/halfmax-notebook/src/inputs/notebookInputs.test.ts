import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import type { GivenInputs } from '../kernel/kernelSettings.js';
import { notebookInputs } from './notebookInputs.js';

const folder = mkdtempSync(join(tmpdir(), 'halfmax-inputs-'));
mkdirSync(join(folder, 'mine'));
writeFileSync(join(folder, 'mine', 'session.json'), '{}');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const WORLD = Symbol.for('halfmax-notebook.kernel');
afterEach(() => {
  delete (globalThis as Record<symbol, unknown>)[WORLD];
  vi.restoreAllMocks();
});

/** Calls in a kernel that was given inputs; gives the values, what was written down, and what was shown. */
function within<T>(given: Partial<GivenInputs>, call: () => T): { values: T; used: object; shown: string } {
  const used = new Map();
  const world = { settings: { given: { others: {}, ...given } }, startedAt: '', nameFolder: () => {}, used };
  (globalThis as Record<symbol, unknown>)[WORLD] = world;
  let shown = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    shown += String(text);
    return true;
  });
  const values = call();
  return { values, used: Object.fromEntries(used), shown };
}

describe('notebookInputs', () => {
  it('gives the defaults outside of a run, and shows them', () => {
    const { values, shown } = within({}, () => notebookInputs({ seed: 7, line: 'H-alpha', isFast: false }));
    expect(values).toEqual({ seed: 7, line: 'H-alpha', isFast: false });
    expect(shown).toBe('seed    7\nline    H-alpha\nisFast  false\n');
  });

  it('gives what the command line gives, each of the kind of its default', () => {
    const given = {
      seed: 3,
      session: join(folder, 'mine'),
      others: { line: '12', tilt: '2.5', isFast: 'true' },
    };
    const { values, used } = within(given, () =>
      notebookInputs({ session: 's', seed: 7, line: 'H-alpha', tilt: 1, isFast: false }),
    );
    expect(values).toEqual({ session: join(folder, 'mine'), seed: 3, line: '12', tilt: 2.5, isFast: true });
    // The path to the session is the machine's own business.
    expect(used).toMatchObject({
      session: { value: 'mine', from: 'command' },
      tilt: { value: 2.5, from: 'command' },
    });
  });

  it.each([
    [{ others: { tilt: 'much' } }, { tilt: 1 }, /tilt: "much" is no number/],
    [{ others: { tilt: '' } }, { tilt: 1 }, /tilt: "" is no number/],
    [{ others: { isFast: 'yes' } }, { isFast: true }, /isFast: "yes" is neither true nor false/],
    [{}, { seed: -1 }, /seed: -1 is not a whole number/],
    [{}, { seed: 1.5 }, /seed: 1.5 is not a whole number/],
    [{}, { draws: 0 }, /draws: 0 is not a whole number/],
    [{}, { session: folder }, /holds no session\.json/],
  ])('refuses %j for %j', (given, defaults, expected) => {
    expect(() => within(given, () => notebookInputs(defaults))).toThrow(expected);
  });

  it('writes the same of the folder for files, given or not, and gives the one that was given', () => {
    const call = (): { out: string } => notebookInputs({ out: 'plots' });
    const [bare, given] = [within({}, call), within({ out: join(folder, 'files') }, call)];
    expect(given.values.out).toBe(join(folder, 'files'));
    expect(bare.values.out).toBe('plots');
    expect(given.shown).toBe('out  out\n');
    expect([given.shown, given.used]).toEqual([bare.shown, bare.used]);
  });

  it('does not take an inherited name for an input', () => {
    const { values } = within({}, () => notebookInputs({ toString: 'mine', constructor: 1 }));
    expect(values).toEqual({ toString: 'mine', constructor: 1 });
  });
});
