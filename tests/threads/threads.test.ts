import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { splitStream } from 'halfmax/numeric';
import { propagateInThreads } from 'halfmax/session';
import { propagate } from 'halfmax/uncertainty';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { randomSpec } from '../../data-demo/generator/randomSpec.mjs';
import { simulateSession } from '../../data-demo/generator/simulate.mjs';
import { main } from '../../packages/halfmax/dist/cli.js';
import { make, makeRows } from './model.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const program = join(root, 'packages', 'halfmax', 'bin', 'halfmax.js');
const demo = join(root, 'data-demo', 'session');
const work = mkdtempSync(join(tmpdir(), 'halfmax-threads-'));
const small = join(work, 'small');
afterAll(() => rmSync(work, { recursive: true, force: true }));

// Three filters on a quarter of the demonstration's pixels: as many ways to share out the work, in less time.
beforeAll(() => {
  const spec = randomSpec(3, {
    filters: 3,
    hint: true,
    pixels: 1024,
    rangeNm: [390, 790],
    spanNm: [350, 400],
  });
  for (const { name, content } of simulateSession(spec, 3).files) {
    mkdirSync(dirname(join(small, name)), { recursive: true });
    writeFileSync(join(small, name), content);
  }
});

interface Ended {
  readonly code: number | null;
  readonly signal: string | null;
  readonly errors: string;
}

function start(args: readonly string[]): { child: ChildProcess; ended: Promise<Ended> } {
  const child = spawn(process.execPath, [program, ...args], { stdio: ['ignore', 'ignore', 'pipe'] });
  let errors = '';
  child.stderr!.on('data', (part) => {
    errors += part;
  });
  const ended = new Promise<Ended>((resolve) => {
    child.on('close', (code, signal) => resolve({ code, signal, errors }));
  });
  return { child, ended };
}

function filesOf(folder: string): Map<string, string> {
  return new Map(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
}

/** What a session gives by some numbers of threads. */
async function resultsOf(session: string, numbers: readonly number[]): Promise<Map<string, string>[]> {
  const results: Map<string, string>[] = [];
  for (const threads of numbers) {
    const out = join(work, `${results.length}-of-${numbers.join('-')}`);
    const { ended } = start(['measure', session, '--out', out, '--draws', '1000', '--threads', `${threads}`]);
    expect(await ended).toEqual({ code: 0, signal: null, errors: '' });
    results.push(filesOf(out));
  }
  return results;
}

describe('halfmax measure in threads', () => {
  it.each([1, 2])('says how far the draws of each band are, with %d', { tags: ['long'] }, async (threads) => {
    let shown = '';
    const words = ['measure', small, '--out', join(work, `told-${threads}`), '--draws', '20000'];
    const code = await main([...words, '--threads', `${threads}`], {
      out: () => {},
      error: (text) => {
        shown += text;
      },
      showsProgress: true,
    });
    expect(code).toBe(0);
    expect(shown).toMatch(/measure [^…]*: 50 % of the draws …/);
    expect(shown).toMatch(/measure [^…]*: 100 % of the draws …/);
  });

  it('writes the same bytes with one and with three', { tags: ['long'] }, async () => {
    const results = await resultsOf(small, [1, 3]);
    expect(results[0]!.size).toBe(4);
    expect(results[1]).toEqual(results[0]);
  });

  it('writes the same bytes whatever their number', { tags: ['long'] }, async () => {
    const results = await resultsOf(demo, [1, 2, 4]);
    expect(results[0]!.size).toBe(5);
    expect(results[1]).toEqual(results[0]);
    expect(results[2]).toEqual(results[0]);
  });

  it('says the same of a session that cannot be measured', { timeout: 120_000, tags: ['long'] }, async () => {
    const copy = join(work, 'bad');
    mkdirSync(copy);
    const manifest = JSON.parse(readFileSync(join(demo, 'session.json'), 'utf8'));
    writeFileSync(join(copy, 'session.json'), JSON.stringify(manifest));
    const said: Ended[] = [];
    for (const threads of ['1', '2']) {
      const { ended } = start(['measure', copy, '--out', join(work, 'bad-out'), '--threads', threads]);
      said.push(await ended);
    }
    expect(said[0]!.code).toBe(2);
    expect(said[0]!.errors).toMatch(/darks/);
    expect(said[1]).toEqual(said[0]);
  });
});

// Ten million draws keep the run from ending before it is interrupted.
const endless = (session: string, out: string, threads: number): string[] => [
  'measure',
  session,
  '--out',
  out,
  '--draws',
  '10000000',
  '--threads',
  `${threads}`,
];

async function interrupt(session: string, delay: number): Promise<void> {
  const out = mkdtempSync(join(work, 'interrupted-'));
  writeFileSync(join(out, 'measurement.json'), 'from before');
  const { child, ended } = start(endless(session, out, 2));
  await new Promise((resolve) => setTimeout(resolve, delay));
  const sent = performance.now();
  child.kill('SIGINT');
  const { code, signal } = await ended;
  // Before the program hears signals the system ends it, which a shell calls 130 too.
  expect(signal === 'SIGINT' ? 130 : code).toBe(130);
  if (delay >= 1500) expect(signal).toBe(null);
  expect(performance.now() - sent).toBeLessThan(5000);
  expect([...filesOf(out)]).toEqual([['measurement.json', 'from before']]);
}

describe('Ctrl-C during halfmax measure', () => {
  // While the program starts, and in the trials.
  it.each([200, 2000])('ends it after %d ms, with nothing written', { timeout: 60_000 }, (delay) =>
    interrupt(small, delay),
  );

  // On the larger session they fall into starting, reading, calibrating and trials.
  it.each([300, 1500, 4000])(
    'ends a long run after %d ms, with nothing written',
    { tags: ['long'] },
    (delay) => interrupt(demo, delay),
  );

  it('ends a run without workers as well', { timeout: 60_000 }, async () => {
    const out = join(work, 'interrupted-alone');
    const { child, ended } = start(endless(small, out, 1));
    await new Promise((resolve) => setTimeout(resolve, 1000));
    child.kill('SIGINT');
    const { code, signal } = await ended;
    expect(signal === 'SIGINT' ? 130 : code).toBe(130);
    expect(readdirSync(work)).not.toContain('interrupted-alone');
  });
});

describe('propagateInThreads', () => {
  const module = new URL('./model.mjs', import.meta.url).href;
  const trials = { module, make: 'make', data: 5, outputs: 2, seed: 7, draws: 23_456, blockDraws: 1000 };

  it.each([
    ['make', make],
    ['makeRows', makeRows],
  ])('gives what propagate gives, whatever the number of threads: %s', async (name, maker) => {
    const { model, inputs } = maker(5) as Parameters<typeof propagate> extends [infer M, infer I, unknown]
      ? { model: M; inputs: I }
      : never;
    const expected = propagate(model, inputs, {
      outputs: 2,
      streams: (block) => splitStream(7, block),
      draws: 23_456,
      blockDraws: 1000,
    });
    expect('absent' in expected.outputs[0]!).toBe(false);
    for (const threads of [1, 2, 4])
      expect(await propagateInThreads({ ...trials, make: name, threads })).toEqual(expected);
  });

  it('keeps the outputs asked for alone', async () => {
    const all = await propagateInThreads({ ...trials, threads: 2, allowedFailures: 0.01 });
    const one = await propagateInThreads({ ...trials, threads: 2, keep: [1], allowedFailures: 0.01 });
    expect(one.samples).toEqual([all.samples[1]]);
    expect(one.outputs).toEqual([all.outputs[1]]);
  });

  it('takes no more memory for more draws than those that it keeps, and a copy to sort them', () => {
    const most = (draws: number): number => {
      const program = fileURLToPath(new URL('./memory.mjs', import.meta.url));
      const { stdout } = spawnSync(process.execPath, [program, String(draws)], { encoding: 'utf8' });
      return JSON.parse(stdout).bytes;
    };
    const [few, many] = [100_000, 1_000_000];
    const kept = 8 * (many - few);
    // The other four outputs would be 29 MB, the forty inputs 288 MB.
    expect(most(many) - most(few)).toBeLessThan(2 * kept + 12e6);
  });

  it.each([1, 2])('hands on a fault of the model, %d threads', async (threads) => {
    await expect(propagateInThreads({ ...trials, make: 'broken', threads })).rejects.toThrow(
      'broken on purpose',
    );
    await expect(propagateInThreads({ ...trials, make: 'missing', threads })).rejects.toThrow(
      'function missing',
    );
  });

  it.each([{ draws: 0 }, { threads: 1.5 }, { blockDraws: -1 }])('refuses %j', async (wrong) => {
    await expect(propagateInThreads({ ...trials, threads: 1, ...wrong })).rejects.toThrow(RangeError);
  });
});
