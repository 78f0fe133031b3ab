// Runs the tests marked `long`, which npm test leaves out: more draws and larger sessions of the same claims.
// Run: npm run build && node tests/further/long/check.mjs
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..', '..');
/** Test files in which a test is marked so: the others need not be loaded. */
const files = ['packages/halfmax/src', 'packages/halfmax-notebook/src', 'tests'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.test.ts'))
    .map((path) => join(root, folder, path))
    .filter((path) => readFileSync(path, 'utf8').includes("tags: ['long']")),
);
const work = mkdtempSync(join(tmpdir(), 'halfmax-long-'));
const report = join(work, 'report.json');
let passed = 0;
let failed = 0;
try {
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const words = [
    'run',
    '--config',
    join(here, 'vitest.config.ts'),
    '--reporter=json',
    `--outputFile=${report}`,
  ];
  const { status } = spawnSync(process.execPath, [vitest, ...words, ...files], {
    cwd: root,
    stdio: 'inherit',
  });
  const { testResults } = JSON.parse(readFileSync(report, 'utf8'));
  for (const { name, status: ended, message, assertionResults } of testResults) {
    const run = assertionResults.filter((test) => ['passed', 'failed'].includes(test.status));
    for (const test of run) {
      if (test.status === 'passed') passed++;
      else failed++;
      const mark = test.status === 'passed' ? 'pass' : 'FAIL';
      console.log(`${mark}  ${test.fullName} (${((test.duration ?? 0) / 1000).toFixed(1)} s)`);
      for (const text of test.failureMessages ?? []) console.log(text);
    }
    // A file that cannot be loaded has no test to count.
    if (ended === 'failed' && run.every((test) => test.status === 'passed')) {
      failed++;
      console.log(`FAIL  ${name}: ${message}`);
    }
  }
  if (status !== 0 && failed === 0) failed++;
} finally {
  rmSync(work, { recursive: true, force: true });
}
console.log(`${passed} passed, ${failed} failed`);
if (failed > 0 || passed === 0) process.exitCode = 1;
