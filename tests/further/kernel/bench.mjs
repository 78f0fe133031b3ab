// What the checks of the kernel share: notebooks made on the spot, the command run in a folder of its own, and a look
// at what is left behind.
import { spawn } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../../../', import.meta.url));
export const session = join(root, 'data-demo', 'session');
export const program = join(root, 'packages', 'halfmax-notebook', 'bin', 'halfmax-notebook.js');

let passed = 0;
let failed = 0;

export function check(name, good, detail = '') {
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${name}${detail === '' ? '' : `: ${detail}`}`);
  return good;
}

export function summary() {
  console.log(`${passed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}

/** A notebook of code cells with the ids `cell-1`, `cell-2`, … */
export function notebookText(cells) {
  const made = cells.map((source, index) => ({
    cell_type: 'code',
    id: `cell-${index + 1}`,
    metadata: {},
    execution_count: null,
    outputs: [],
    source,
  }));
  const kernelspec = { display_name: 'TypeScript (halfmax)', language: 'typescript', name: 'tslab' };
  return JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: { kernelspec }, cells: made });
}

/** A folder of work: `in` for notebooks, `out` for results, `tmp` as the temporary folder of whatever runs. */
export function workFolder(name) {
  const folder = mkdtempSync(join(tmpdir(), `hm-${name}-`));
  for (const inner of ['in', 'tmp']) mkdirSync(join(folder, inner));
  return {
    folder,
    out: join(folder, 'out'),
    tmp: join(folder, 'tmp'),
    put: (file, cells) => {
      const path = join(folder, 'in', file);
      writeFileSync(path, typeof cells === 'string' ? cells : notebookText(cells));
      return path;
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Starts the command; `done` resolves with its exit code and what it wrote. */
export function start(work, args, { env = {}, cwd = work.folder } = {}) {
  const child = spawn(process.execPath, [program, ...args], {
    cwd,
    env: { ...process.env, TMPDIR: work.tmp, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const state = { out: '', err: '' };
  child.stdout.on('data', (data) => {
    state.out += data;
  });
  child.stderr.on('data', (data) => {
    state.err += data;
  });
  const done = new Promise((resolve) => {
    child.on('close', (code, signal) => resolve({ code, signal, ...state }));
  });
  return { child, done, state };
}

export const run = (work, args, options) => start(work, args, options).done;

/** Processes that have the temporary folder of the work in their command line or environment. */
export function processesOf(work) {
  const found = [];
  for (const pid of readdirSync('/proc')) {
    if (!/^\d+$/.test(pid) || Number(pid) === process.pid) continue;
    try {
      const about =
        readFileSync(`/proc/${pid}/cmdline`, 'latin1') + readFileSync(`/proc/${pid}/environ`, 'latin1');
      if (about.includes(work.tmp)) found.push(Number(pid));
    } catch {
      // Ended meanwhile.
    }
  }
  return found;
}

/** What is left behind, in words; empty where nothing is. */
export async function leftBehind(work) {
  let left = '';
  for (let i = 0; i < 20; i++) {
    const parts = [];
    const processes = processesOf(work);
    if (processes.length > 0) parts.push(`processes ${processes.join(', ')}`);
    const files = readdirSync(work.tmp);
    if (files.length > 0) parts.push(`in tmp: ${files.join(', ')}`);
    if (existsSync(work.out)) {
      const hidden = readdirSync(work.out).filter((name) => name.startsWith('.'));
      if (hidden.length > 0) parts.push(`in out: ${hidden.join(', ')}`);
    }
    left = parts.join('; ');
    if (left === '') return '';
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  return left;
}

export function readNotebook(work, name) {
  return JSON.parse(readFileSync(join(work.out, name), 'utf8'));
}

/** All text that the cells of a notebook wrote. */
export function textOf(notebook) {
  return notebook.cells
    .flatMap(({ outputs = [] }) => outputs)
    .map((output) => [output.text ?? []].flat().join('') + (output.traceback ?? []).join('\n'))
    .join('');
}

/** Waits until `test` is true; false where it never is. */
export async function until(test, ms = 60_000) {
  for (let waited = 0; waited < ms; waited += 50) {
    if (test()) return true;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return false;
}
