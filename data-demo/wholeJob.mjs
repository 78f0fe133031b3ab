// The whole job on the demonstration session: measures it, runs the notebooks on it, writes them as one page, and prints
// the table with the verdicts last. Run: npm run demo, which bundles the package first.
import { spawn } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const halfmax = 'packages/halfmax/bin/halfmax.js';
const notebook = 'packages/halfmax-notebook/bin/halfmax-notebook.js';
const compiler = 'node_modules/typescript/bin/tsc';
const session = 'data-demo/session';
const notebooks = readdirSync(join(root, 'notebooks'))
  .filter((name) => name.endsWith('.ipynb'))
  .sort();
/** The notebook that runs others takes longest: it begins, so that no core waits for it at the end. */
const isLong = (name) => name.startsWith('08-');
const order = [...notebooks.filter(isLong), ...notebooks.filter((name) => !isLong(name))];

/** Runs a command of the checkout; what it prints goes on, or is kept where that is asked for. */
function run(words, keeps = false) {
  return new Promise((resolve) => {
    const stdio = ['ignore', keeps ? 'pipe' : 'inherit', 'inherit'];
    const child = spawn(process.execPath, words, { cwd: root, stdio });
    let printed = '';
    child.stdout?.setEncoding('utf8').on('data', (text) => {
      printed += text;
    });
    child.on('error', () => resolve({ code: 1, printed }));
    child.on('close', (code) => resolve({ code: code ?? 1, printed }));
  });
}

// Measuring needs no declarations; what the notebooks need is compiled beside it.
const [measured, compiled] = await Promise.all([
  run([halfmax, 'measure', session, '--out', 'out/demo'], true),
  run([compiler, '-b', '--noCheck']),
]);
const failed = [measured, compiled].find(({ code }) => code !== 0);
if (failed !== undefined) process.exit(failed.code);
const files = order.map((name) => `notebooks/${name}`);
const executed = await run([
  notebook,
  'rerun',
  ...files,
  '--session',
  session,
  '--out',
  'out/notebooks',
  '--jobs',
  '2',
]);
const pages = notebooks.map((name) => `out/notebooks/${name}`);
const report =
  executed.code === 0 ? await run([notebook, 'report', ...pages, '--out', 'out/report.html']) : executed;
process.stdout.write(measured.printed);
if (report.code === 0) process.stdout.write('\nNotebooks as one page: out/report.html\n');
process.exitCode = report.code;
