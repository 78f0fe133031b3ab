// Puts the table of the demonstration, shortened, into README.md: node data-demo/picture/table.mjs
// With --check nothing is written; a stale table gives exit code 1. With --printed FILE the demonstration is not
// measured anew: FILE holds what `halfmax measure data-demo/session` printed.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const root = fileURLToPath(new URL('../..', import.meta.url));
const readme = join(root, 'README.md');
/** Filters that the shortened table shows. */
const SHOWN = ['ossenvale-ha', 'ossenvale-o3'];
const [BEGIN, END] = [
  '<!-- table of the demonstration: begin -->',
  '<!-- table of the demonstration: end -->',
];

const { values: options } = parseArgs({
  options: { check: { type: 'boolean' }, printed: { type: 'string' } },
});
const printed = options.printed === undefined ? measureDemo() : readFileSync(options.printed, 'utf8');

function measureDemo() {
  const out = mkdtempSync(join(tmpdir(), 'halfmax-table-'));
  const command = ['packages/halfmax/bin/halfmax.js', 'measure', 'data-demo/session', '--out', out];
  const { status, stdout, stderr } = spawnSync(process.execPath, command, { cwd: root, encoding: 'utf8' });
  rmSync(out, { recursive: true, force: true });
  if (status !== 0) throw new Error(stderr);
  return stdout;
}

const [title, scale, ...filters] = printed.trimEnd().split('\n\n');
const shown = SHOWN.map((id) => filters.find((part) => part.split('\n', 1)[0].endsWith(`(${id})`)));
if (shown.includes(undefined)) throw new Error(`the table lacks one of ${SHOWN.join(', ')}`);
const foot = filters.find((part) => part.startsWith('Verdicts rest on'));
if (foot === undefined) throw new Error('the table lacks its foot');
const table = [title, scale, shown[0], '…', ...shown.slice(1), '…', foot, '…'].join('\n\n');

const text = readFileSync(readme, 'utf8');
const [from, to] = [text.indexOf(BEGIN), text.indexOf(END)];
if (from < 0 || to < from) throw new Error('README.md has no place for the table');
const renewed = `${text.slice(0, from)}${BEGIN}\n\n\`\`\`text\n${table}\n\`\`\`\n\n${text.slice(to)}`;
if (renewed !== text) {
  if (options.check === true) {
    process.stderr.write('the table in README.md is stale: node data-demo/picture/table.mjs\n');
    process.exitCode = 1;
  } else writeFileSync(readme, renewed);
}
