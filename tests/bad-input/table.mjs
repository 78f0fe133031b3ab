// Runs every broken session through the command and prints a table: case, exit code, first line.
// Run: npm run build && node tests/bad-input/table.mjs
// Exits 1 when a case does not end with code 2, says something that is not expected, shows a stack or writes a file.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const here = dirname(fileURLToPath(import.meta.url));
const command = join(here, '..', '..', 'packages', 'halfmax', 'bin', 'halfmax.js');
const folder = mkdtempSync(join(tmpdir(), 'halfmax-table-'));
let wrong = 0;

try {
  const outfile = join(folder, 'cases.mjs');
  await build({
    entryPoints: [join(here, 'cases.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'error',
  });
  const { badCases } = await import(pathToFileURL(outfile).href);
  console.log('| case | exit | lines | first line |\n| --- | --- | --- | --- |');
  badCases.forEach(({ name, build: write, expect }, i) => {
    const session = join(folder, `case-${i}`);
    const out = join(folder, `out-${i}`);
    mkdirSync(session);
    write(session);
    const run = spawnSync(process.execPath, [command, 'measure', session, '--out', out], {
      encoding: 'utf8',
    });
    const lines = run.stderr
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => line.replace(/^halfmax: /, ''));
    const said = expect.every((pattern) => lines.some((line) => pattern.test(line)));
    const good =
      run.status === 2 && said && lines.length === expect.length && run.stdout === '' && !existsSync(out);
    if (!good) wrong++;
    const shown = (lines[0] ?? '').replaceAll(folder, '').replaceAll('|', '\\|');
    console.log(`| ${name} | ${run.status}${good ? '' : ' WRONG'} | ${lines.length} | ${shown} |`);
    rmSync(session, { recursive: true, force: true });
  });
  console.log(`\n${badCases.length - wrong} as expected, ${wrong} not`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
if (wrong > 0) process.exitCode = 1;
