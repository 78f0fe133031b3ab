import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../../packages/halfmax/src/cli.js';
import { BadInputError } from '../../packages/halfmax/src/errors.js';
import { readSession } from '../../packages/halfmax/src/session/index.js';
import { badCases } from './cases.js';
import { goodSession, type LooseManifest, writeSession } from './goodSession.js';

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

interface Ended {
  readonly code: number | null;
  readonly printed: string;
  readonly errors: string;
}

/** `halfmax measure` in this process. */
function measureHere(folder: string, out: string): Promise<Ended> {
  return runHere('measure', folder, '--out', out);
}

async function runHere(...words: string[]): Promise<Ended> {
  let printed = '';
  let errors = '';
  const code = await main(words, {
    out: (text) => {
      printed += text;
    },
    error: (text) => {
      errors += text;
    },
    showsProgress: false,
  });
  return { code, printed, errors };
}

const program = fileURLToPath(new URL('../../packages/halfmax/bin/halfmax.js', import.meta.url));

/** The built program. */
function measureBuilt(folder: string, out: string): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, 'measure', folder, '--out', out], {
    encoding: 'utf8',
  });
  return { code: status, printed: stdout, errors: stderr };
}

/** Every place of a JSON value, as the keys that lead to it. */
function pathsOf(value: unknown, at: string[] = []): string[][] {
  const inner = value !== null && typeof value === 'object' ? Object.entries(value) : [];
  return [...(at.length === 0 ? [] : [at]), ...inner.flatMap(([key, item]) => pathsOf(item, [...at, key]))];
}

/** Puts a value at a place; a place that is no longer there is left alone. */
function put(root: LooseManifest, path: readonly string[], value: unknown): void {
  const parent = path.slice(0, -1).reduce((item, key) => item?.[key], root);
  if (parent !== null && typeof parent === 'object') parent[path[path.length - 1]!] = value;
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

  it.each(badCases.map((item, i) => [item.name, i] as const))('%s', async (_, i) => {
    const { build, expect: patterns } = badCases[i]!;
    const folder = join(base, `case-${i}`);
    mkdirSync(folder);
    build(folder);
    const before = listing(`case-${i}`);
    const { code, printed, errors } = await measureHere(folder, join(base, `out-${i}`));
    expect({ code, printed, end: errors.at(-1) }).toEqual({ code: 2, printed: '', end: '\n' });
    expect(listing(`case-${i}`)).toEqual(before);
    expect(listing(`out-${i}`)).toEqual(['nothing']);
    const lines = errors.trimEnd().split('\n');
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

describe('the built program', () => {
  const chosen = [
    'the folder does not exist',
    'trailing comma',
    badCases.find(({ expect: patterns }) => patterns.length > 1)!.name,
    badCases[badCases.length - 1]!.name,
  ];

  it.each([...new Set(chosen)])('ends with 2 and the same words: %s', async (name) => {
    const folder = mkdtempSync(join(base, 'built-'));
    badCases.find((one) => one.name === name)!.build(folder);
    const out = `${folder}-out`;
    const ended = measureBuilt(folder, out);
    expect(ended.code).toBe(2);
    expect(ended).toEqual(await measureHere(folder, out));
    expect(await runHere('look', folder)).toEqual(ended);
    expect(existsSync(out)).toBe(false);
  });

  it.each([
    [[], 'halfmax look: SESSION: no session folder given; name the folder that holds session.json'],
    [['one', 'two'], 'halfmax look: two: one session at a time; look at each with a command of its own'],
    [['one', '--out', 'x'], /^halfmax look: --out: .+; .+$/],
  ])('look %j', async (words, line) => {
    const { code, printed, errors } = await runHere('look', ...words);
    expect({ code, printed }).toEqual({ code: 2, printed: '' });
    if (typeof line === 'string') expect(errors.trimEnd()).toBe(line);
    else expect(errors.trimEnd()).toMatch(line);
  });
});

describe('a manifest with any value in any place', () => {
  it('is accepted or refused in lines: no other error', () => {
    const folder = join(base, 'any');
    const session = goodSession();
    session.manifest.detector.pixels = 16;
    for (const name of session.files.keys()) session.files.set(name, '5\n6\n7\n8\n'.repeat(4));
    session.manifest.site = { moon: { altitudeDeg: 10 } };
    session.manifest.beam = { fNumber: [2, 4] };
    session.manifest.stars = [
      { filter: 'ha', file: 'none.fits', pixelSizeUm: 3, fNumber: 2, saturationCounts: 9 },
    ];
    writeSession(folder, session);
    const places = pathsOf(session.manifest);
    const odd = fc.oneof(
      fc.jsonValue({ maxDepth: 2 }),
      fc.constantFrom('', '*', '..', '.', '/', '\0', '__proto__', -1, 1e308, 0.5, null),
    );
    let refused = 0;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...places), odd), { minLength: 1, maxLength: 3 }),
        (changes) => {
          const manifest = structuredClone(session.manifest);
          for (const [path, value] of changes) put(manifest, path, value);
          writeFileSync(join(folder, 'session.json'), JSON.stringify(manifest));
          const { message } = refusal(folder);
          for (const line of message.split('\n')) expect(line).toMatch(/^[^;]+: .+; .+$/);
          refused++;
        },
      ),
      { numRuns: 400, seed: 20260131 },
    );
    // The star file is missing, so that each one is refused at least for that.
    expect(refused).toBe(400);
  });
});
