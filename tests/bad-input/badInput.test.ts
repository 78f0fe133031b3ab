import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BadInputError } from '../../packages/halfmax/src/errors.js';
import { readSession } from '../../packages/halfmax/src/session/index.js';
import { badCases } from './cases.js';
import { goodSession, writeSession } from './goodSession.js';

let base = '';

beforeAll(() => {
  base = mkdtempSync(join(tmpdir(), 'halfmax-bad-'));
});

afterAll(() => {
  rmSync(base, { recursive: true, force: true });
});

function listing(folder: string): string[] {
  const path = join(base, folder);
  if (!existsSync(path)) return ['nothing'];
  if (!statSync(path).isDirectory()) return ['a file'];
  return readdirSync(path, { recursive: true }).map(String).sort();
}

function refusal(folder: string): BadInputError {
  try {
    readSession(folder);
  } catch (error) {
    if (error instanceof BadInputError) return error;
    throw error;
  }
  throw new Error('the session was accepted');
}

describe('a broken session', () => {
  it('is broken by the case alone: the session the cases start from is accepted without a warning', () => {
    const folder = join(base, 'good');
    writeSession(folder, goodSession());
    const session = readSession(folder);
    expect(session.warnings).toEqual([]);
    expect(session.entries.map((entry) => entry.scans.length)).toEqual([3, 3, 3, 3]);
  });

  it('has at least 45 cases with different names', () => {
    expect(badCases.length).toBeGreaterThanOrEqual(45);
    expect(new Set(badCases.map(({ name }) => name)).size).toBe(badCases.length);
  });

  it.each(badCases.map((item, i) => [item.name, i] as const))('%s', (_, i) => {
    const { build, expect: patterns } = badCases[i]!;
    const folder = join(base, `case-${i}`);
    mkdirSync(folder);
    build(folder);
    const before = listing(`case-${i}`);
    const lines = refusal(folder).message.split('\n');
    expect(listing(`case-${i}`)).toEqual(before);
    expect(lines, lines.join('\n')).toHaveLength(patterns.length);
    for (const pattern of patterns)
      expect(
        lines.some((line) => pattern.test(line)),
        `${pattern}\n${lines.join('\n')}`,
      ).toBe(true);
    for (const line of lines) {
      expect(line).toMatch(/^[^;]+: .+; .+$/);
      expect(line).not.toMatch(/\bat .+:\d+:\d+|undefined|\[object|\bnull\b(?! character)/);
      expect(line.length).toBeLessThan(400);
    }
  });
});
