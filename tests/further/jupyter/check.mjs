// Notebooks executed by Jupyter's nbclient on our kernelspec give the outputs that our own run gives.
// Run: npm run build && node tests/further/jupyter/check.mjs /usr/bin/python3
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

function compare(name, ours, theirs) {
  const comparison = compareNotebooks(ours, theirs);
  check(
    `${name}: the same outputs in nbclient and in our run`,
    comparison.isSame,
    comparison.isSame
      ? `${comparison.cells.length} cells`
      : formatComparison(comparison, 'ours', 'nbclient').slice(0, 2000),
  );
}

cpSync(fixtures, inFolder, { recursive: true });
// Where the notebooks of the repository name a folder, it is relative to their own: those run in place.
// The worked notebooks take some minutes more: `--worked` takes them in.
const takesWorked = process.argv.includes('--worked') && existsSync(worked);
const inPlace = [...notebooksIn(fixtures), ...(takesWorked ? notebooksIn(worked) : [])];
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
const { records, out, fault } = executeByJupyter(python, work.folder, all);
check('nbclient runs every notebook', records.length === all.length, fault);
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

for (const file of [...inPlace, ...made]) {
  const name = basename(file);
  const record = records.find((one) => one.file === name);
  check(
    `${name}: nbclient says no error`,
    record !== undefined && record.error === null,
    record?.error ?? '',
  );
  if (existsSync(join(work.out, name)) && existsSync(join(out, name)))
    compare(name, read(join(work.out, name)), read(join(out, name)));
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
