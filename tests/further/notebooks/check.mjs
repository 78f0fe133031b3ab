// Every notebook of notebooks/ on three sessions: npm run build && node tests/further/notebooks/check.mjs [NAME...]
// On the demonstration it must give the outputs that it is kept with; on another bench, and with a lamp and the
// scans of a filter missing, it must run to its end and, in the latter case, say what it did not find. Some minutes on two
// cores.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeColleagueSession, makeSessions } from './sessions.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '../../..');
const folder = join(root, 'notebooks');
const command = join(root, 'packages/halfmax-notebook/bin/halfmax-notebook.js');
const demo = join(root, 'data-demo/session');
/** Kept with outputs, all notebooks together. */
const MOST_BYTES = 3_000_000;

let passed = 0;
let failed = 0;

/** @param {string} what @param {boolean} holds @param {string} [seen] */
function check(what, holds, seen = '') {
  if (holds) passed++;
  else failed++;
  console.log(`${holds ? 'ok  ' : 'FAIL'} ${what}${seen === '' ? '' : `: ${seen}`}`);
}

/**
 * @param {string} about
 * @param {readonly string[]} words
 */
function run(about, words) {
  const began = performance.now();
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  console.log(`${about}: ${((performance.now() - began) / 1000).toFixed(0)} s`);
  return { status, text: `${stdout}\n${stderr}` };
}

/**
 * The lines on a notebook: what differs, or why it failed.
 *
 * @param {string} file
 * @param {string} text
 */
function whatIsSaidOf(file, text) {
  const lines = text.split('\n');
  const from = lines.findIndex((line) => line.startsWith(`${file}: different`));
  if (from >= 0) return lines.slice(from, from + 12).join(' | ');
  return lines.find((line) => line.startsWith(`${file}:`) && /Error|failed/.test(line)) ?? lastLines(text);
}

/** @param {string} file */
const digestOf = (file) => createHash('sha256').update(readFileSync(file)).digest('hex');
/** @param {string} file */
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));
/**
 * The line of a notebook's text outputs that says of something that it is not there.
 *
 * @param {{ cells: { outputs?: { data?: Record<string, unknown> }[] }[] }} notebook
 * @param {string} what
 */
const lineOnLack = (notebook, what) =>
  notebook.cells
    .flatMap(({ outputs = [] }) => outputs)
    .flatMap(({ data }) => [data?.['text/markdown'] ?? []].flat().join('').split('\n'))
    .find((line) => line.includes(what) && /\b(?:not|no|nothing|without|left out|want of)\b/i.test(line));
/** @param {string} text */
const lastLines = (text) => text.trim().split('\n').slice(-6).join(' | ');

const only = process.argv.slice(2);
const notebooks = readdirSync(folder)
  .filter(
    (name) => name.endsWith('.ipynb') && (only.length === 0 || only.some((part) => name.includes(part))),
  )
  .sort();
check('there are notebooks', notebooks.length > 0, `${notebooks.length}`);

const work = mkdtempSync(join(tmpdir(), 'halfmax-notebooks-'));
try {
  // A notebook that was kept with the session given by the command is checked with it given.
  const isGiven = (/** @type {string} */ name) =>
    read(join(folder, name)).metadata.halfmax?.inputs?.session?.from === 'command';
  for (const [names, words] of [
    [notebooks.filter(isGiven), ['--session', demo]],
    [notebooks.filter((name) => !isGiven(name)), []],
  ]) {
    if (names.length === 0) continue;
    const files = names.map((name) => join(folder, name));
    const { text } = run('the demonstration', ['rerun', ...files, '--check', '--jobs', '2', ...words]);
    for (const [index, name] of names.entries()) {
      const isSame = text.includes(`${files[index]}: the same\n`);
      check(`${name} gives its outputs again`, isSame, isSame ? '' : whatIsSaidOf(files[index], text));
    }
  }

  for (const { name: about, session, lacks } of makeSessions(work)) {
    const out = join(work, `out-${basename(session)}`);
    const files = notebooks.map((name) => join(folder, name));
    const { text } = run(about, [
      'rerun',
      ...files,
      '--session',
      session,
      '--out',
      out,
      '--draws',
      '2000',
      '--jobs',
      '2',
    ]);
    for (const name of notebooks) {
      const result = join(out, name);
      const done = existsSync(result);
      const why =
        text.split('\n').find((line) => line.includes(name) && /Error|failed/.test(line)) ?? lastLines(text);
      check(`${about}: ${name} runs to its end`, done, done ? '' : why);
      if (!done) continue;
      const notebook = read(result);
      const errors = notebook.cells.flatMap(
        (/** @type {{ outputs?: { output_type: string, evalue?: string }[] }} */ cell) =>
          (cell.outputs ?? []).filter(({ output_type }) => output_type === 'error'),
      );
      check(
        `${about}: ${name} holds no error`,
        errors.length === 0,
        errors.map((/** @type {{ evalue?: string }} */ error) => error.evalue).join('; '),
      );
      if (lacks !== undefined) {
        const line = lineOnLack(notebook, lacks(name));
        check(
          `${about}: ${name} says what it lacks`,
          line !== undefined,
          line ?? `nothing on ${lacks(name)}`,
        );
      }
      const manifest = notebook.metadata.halfmax.filesRead.find(
        (/** @type {{ file: string }} */ entry) => entry.file === 'session:session.json',
      );
      check(
        `${about}: ${name} read this session`,
        manifest?.sha256 === digestOf(join(session, 'session.json')),
      );
      check(`${about}: ${name} names no folder of the machine`, !JSON.stringify(notebook).includes(work));
    }
  }

  if (only.length === 0) {
    const theirs = join(folder, 'colleague/one-filter.ipynb');
    const given = ['--session', makeColleagueSession(work)];
    const { status, text } = run("the colleague's scans", ['rerun', theirs, '--check', ...given]);
    check(
      "the colleague's notebook gives its outputs again on the colleague's scans",
      status === 0,
      status === 0 ? '' : lastLines(text),
    );
    const bytes = notebooks.reduce((sum, name) => sum + readFileSync(join(folder, name)).length, 0);
    check(`all notebooks together stay below ${MOST_BYTES} bytes`, bytes < MOST_BYTES, `${bytes}`);
  }
} finally {
  rmSync(work, { recursive: true, force: true });
}

console.log(`${passed} passed, ${failed} failed`);
if (failed > 0 || passed === 0) process.exitCode = 1;
