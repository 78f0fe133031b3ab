// Every notebook of notebooks/ on four sessions: node tests/further/notebooks/check.mjs [NAME...]
// On the demonstration it must give the outputs that it is kept with; on another bench, with a lamp missing and with a
// filter missing it must run to its end.
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

/** @param {readonly string[]} words */
function run(words) {
  const began = performance.now();
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return { status, text: `${stdout}\n${stderr}`, seconds: (performance.now() - began) / 1000 };
}

/** @param {string} file */
const digestOf = (file) => createHash('sha256').update(readFileSync(file)).digest('hex');
/** @param {string} file */
const read = (file) => JSON.parse(readFileSync(file, 'utf8'));
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
  for (const name of notebooks) {
    const file = join(folder, name);
    // A notebook that was kept with the session given by the command is checked with it given.
    const given = read(file).metadata.halfmax?.inputs?.session?.from === 'command';
    const { status, text, seconds } = run(['rerun', file, '--check', ...(given ? ['--session', demo] : [])]);
    const same = status === 0 && text.includes(': the same');
    check(
      `${name} gives its outputs again`,
      same,
      same ? `${seconds.toFixed(0)} s` : `exit ${status}, ${lastLines(text)}`,
    );
  }

  for (const { name: about, session } of makeSessions(work)) {
    const out = join(work, `out-${basename(session)}`);
    const files = notebooks.map((name) => join(folder, name));
    const { text } = run([
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
    const { status, text } = run(['rerun', theirs, '--check', '--session', makeColleagueSession(work)]);
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
