/**
 * How long notebooks take: the start of a kernel, a cell that does nothing, and all notebooks of the repository, by our
 * runner and by Jupyter's nbclient on the same kernel, on the same machine, in the same run. One JSON object a line;
 * ratio above 1: ours is the faster. Without Jupyter the peer is null. Nothing here is a test.
 *
 * Run: npm run build && node tests/bench/notebooks.mjs [PYTHON]
 */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { executeByJupyter } from '../further/jupyter/jupyter.mjs';
import { root, run, workFolder } from '../further/kernel/bench.mjs';

const RUNS = 3;
const CELLS = 100;
const python = process.argv[2] ?? '/usr/bin/python3';
const hasJupyter = spawnSync(python, ['-c', 'import nbclient']).status === 0;
const work = workFolder('bench');

function report(name, unit, ours, peer, note) {
  const ratio = peer === null ? null : peer / ours;
  const round = (value) => (value === null ? null : Number(value.toPrecision(3)));
  console.log(
    JSON.stringify({
      name,
      unit,
      ours: round(ours),
      peer: round(peer),
      ratio: round(ratio),
      limit: null,
      note,
    }),
  );
}

let turn = 0;

/** Seconds of the whole command, kernels' start and end included, and what the run wrote about itself. */
async function byUs(files, ...extra) {
  const out = join(work.folder, `out-${turn++}`);
  const begin = performance.now();
  const { code, err } = await run(work, ['rerun', ...files, '--out', out, '--fence', 'none', ...extra], {
    cwd: root,
  });
  const seconds = (performance.now() - begin) / 1000;
  if (code !== 0) throw new Error(err);
  return { seconds, record: JSON.parse(readFileSync(join(out, 'run.json'), 'utf8')) };
}

function byJupyter(files) {
  const begin = performance.now();
  const { records, fault } = executeByJupyter(python, work.folder, files);
  if (fault !== '' || records.length !== files.length) throw new Error(fault);
  return { seconds: (performance.now() - begin) / 1000, records };
}

/** The shortest of a few runs, ours and the peer's in turn. */
async function shortest(ours, peer) {
  let [a, b] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = 0; i < RUNS; i++) {
    a = Math.min(a, await ours());
    if (hasJupyter) b = Math.min(b, await peer());
  }
  return [a, hasJupyter ? b : null];
}

const one = work.put('one.ipynb', ['const a = 1;']);
const many = work.put(
  'many.ipynb',
  Array.from({ length: CELLS + 1 }, (_, i) => `const a${i} = ${i};`),
);
const secondsOf = (records, name) => records.find(({ file }) => file === name).seconds;

const starts = [];
const [command, client] = await shortest(
  async () => {
    const { seconds, record } = await byUs([one]);
    starts.push(record.notebooks[0].kernelStartSeconds);
    return seconds;
  },
  async () => byJupyter([one]).seconds,
);
report('kernel start until it answers', 's', Math.min(...starts), null, 'shortest of 3');
report(
  'a notebook of one cell, whole command',
  's',
  command,
  client,
  'shortest of 3; nbclient with the start of Python',
);

const perCell = async () => {
  const { record } = await byUs([many]);
  const [, ...rest] = record.notebooks[0].cellSeconds;
  return rest.sort((a, b) => a - b)[CELLS / 2] * 1000;
};
const [cell, peerCell] = await shortest(perCell, async () => {
  const { records } = byJupyter([many, one]);
  return ((secondsOf(records, 'many.ipynb') - secondsOf(records, 'one.ipynb')) / CELLS) * 1000;
});
report(
  'a cell that does nothing',
  'ms',
  cell,
  peerCell,
  'ours: median of 100 cells; nbclient: mean over 100 cells',
);

const folder = join(root, 'notebooks');
let notebooks = readdirSync(folder)
  .filter((name) => name.endsWith('.ipynb'))
  .map((name) => join(folder, name));
if (notebooks.length === 0) {
  const fixtures = join(root, 'tests', 'notebook-kernel', 'notebooks');
  if (existsSync(fixtures)) cpSync(fixtures, join(work.folder, 'in'), { recursive: true });
  notebooks = readdirSync(fixtures)
    .filter((name) => name.endsWith('.ipynb'))
    .map((name) => join(fixtures, name));
}
const peerAll = hasJupyter ? byJupyter(notebooks).seconds : null;
for (const jobs of [1, 2]) {
  const { seconds } = await byUs(notebooks, '--jobs', String(jobs));
  report(
    `all ${notebooks.length} notebooks, ${jobs} at a time`,
    's',
    seconds,
    peerAll,
    'nbclient one at a time',
  );
}
work.remove();
