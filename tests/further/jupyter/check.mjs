// Notebooks executed by Jupyter's nbclient on our kernelspec give the outputs that our own run gives.
// Run: npm run build && node tests/further/jupyter/check.mjs /usr/bin/python3 [--worked]
import { cpSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import {
  compareNotebooks,
  formatComparison,
  readNotebook,
} from '../../../packages/halfmax-notebook/dist/notebook/index.js';
import { check, leftBehind, root, run, summary, workFolder } from '../kernel/bench.mjs';
import { manyCells, manyLines, manyShown } from '../kernel/output.mjs';
import { executeByJupyter } from './jupyter.mjs';

const python = process.argv[2] ?? '/usr/bin/python3';
const work = workFolder('jupyter');
const inFolder = join(work.folder, 'in');
const fixtures = join(root, 'tests', 'notebook-kernel', 'notebooks');
const worked = join(root, 'notebooks');
const read = (path) => readNotebook(readFileSync(path, 'utf8'), basename(path));
const notebooksIn = (folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.ipynb'))
    .map((name) => join(folder, name));

function compare(name, ours, theirs, where = 'in our run') {
  const comparison = compareNotebooks(ours, theirs);
  check(
    `${name}: the same outputs in nbclient and ${where}`,
    comparison.isSame,
    comparison.isSame
      ? `${comparison.cells.length} cells`
      : formatComparison(comparison, where, 'nbclient').slice(0, 2000),
  );
}

cpSync(fixtures, inFolder, { recursive: true });
// Where the notebooks of the repository name a folder, it is relative to their own: those run in place.
const inPlace = notebooksIn(fixtures);
// The worked notebooks take some minutes more: `--worked` takes them in. They are held against the outputs that they are
// kept with; that our run gives those again is the matter of tests/further/notebooks.
const kept = process.argv.includes('--worked') ? notebooksIn(worked) : [];
const made = [
  work.put('cells.ipynb', manyCells),
  work.put('lines.ipynb', manyLines),
  work.put('shown.ipynb', manyShown),
];
const failing = [
  work.put('type-error.ipynb', [`console.log('before');`, `\nconst nm: string = 656.3;`]),
  work.put('thrown.ipynb', [
    `console.log('before');`,
    `function f(): never {\n  throw new TypeError('no light');\n}\n\nf();`,
  ]),
];
const all = [...inPlace, ...made, ...failing];
const { records, out, fault } = executeByJupyter(python, work.folder, [...all, ...kept]);
check('nbclient runs every notebook', records.length === all.length + kept.length, fault);
const ours = await run(work, ['rerun', ...all, '--out', work.out, '--fence', 'none', '--jobs', '2'], {
  cwd: root,
});
check(
  'our run runs every notebook',
  ours.code === 4,
  ours.err
    .trim()
    .split('\n')
    .filter((line) => / failed /.test(line))
    .join(' / '),
);

for (const file of [...inPlace, ...made, ...kept]) {
  const name = basename(file);
  const record = records.find((one) => one.file === name);
  check(
    `${name}: nbclient says no error`,
    record !== undefined && record.error === null,
    record?.error ?? '',
  );
  const isKept = kept.includes(file);
  const own = isKept ? file : join(work.out, name);
  if (existsSync(own) && existsSync(join(out, name)))
    compare(name, read(own), read(join(out, name)), isKept ? 'as it is kept' : 'in our run');
  else check(`${name}: both results are there`, false);
}
for (const file of failing) {
  const name = basename(file);
  const theirs = read(join(out, name));
  const { cells } = read(join(work.out, name.replace('.ipynb', '.failed.ipynb')));
  compare(name, { ...theirs, cells: cells.slice(1) }, theirs);
  const error = theirs.cells
    .flatMap(({ outputs = [] }) => outputs)
    .find(({ output_type }) => output_type === 'error');
  const isType = name.startsWith('type');
  check(
    `${name}: a proper error output`,
    error?.ename === (isType ? 'TypeScriptError' : 'TypeError'),
    `${error?.ename}: ${error?.evalue}`,
  );
  const trace = error?.traceback.join('\n') ?? '';
  check(
    `${name}: with the lines of the cell`,
    isType ? /cell 2, line 2:7/.test(trace) : /at f \(cell 2, line 2:9\)[\s\S]*cell 2, line 5:1/.test(trace),
    trace.replace(/\n/g, ' / '),
  );
  check(
    `${name}: without a path of the machine`,
    !trace.includes(root) && !trace.includes(work.folder) && !/node_modules|file:/.test(trace),
  );
  const record = records.find((one) => one.file === name);
  check(`${name}: nbclient tells the reason`, (record?.error ?? '').includes(error?.evalue ?? '?'));
}
const lines = read(join(out, 'lines.ipynb'))
  .cells[0].outputs.map(({ text }) => text)
  .join('')
  .trim()
  .split('\n');
check(
  'nbclient: 100,000 lines of one cell arrive whole',
  lines.length === 100_000 && lines.at(-1) === 'line 100000',
  `${lines.length} lines`,
);
const cells = read(join(out, 'cells.ipynb')).cells.filter(
  ({ outputs }) =>
    outputs
      .map(({ text }) => text)
      .join('')
      .split('\n').length === 4,
);
check('nbclient: 200 cells of three lines arrive whole', cells.length === 200, `${cells.length} cells`);
const left = await leftBehind(work);
check('nothing left behind by our run', left === '', left);
work.remove();
process.exitCode = summary();
