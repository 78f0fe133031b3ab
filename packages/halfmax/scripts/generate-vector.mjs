// Writes src/vector/vectorCode.generated.ts from assembly/: WebAssembly as text, since the published package has no
// other way to carry it everywhere. The compiler is fetched from the registry: it is needed here alone and large.
// With --check nothing is written; a stale file is named, exit 1.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const COMPILER = 'assemblyscript@0.28.20';
const folder = fileURLToPath(new URL('..', import.meta.url));
const target = join(folder, 'src', 'vector', 'vectorCode.generated.ts');
const made = join(mkdtempSync(join(tmpdir(), 'halfmax-vector-')), 'code.wasm');
try {
  const words = ['--enable', 'simd', '-O3', '--runtime', 'stub', '--noAssert', '-o', made];
  const args = ['--yes', `--package=${COMPILER}`, '--', 'asc', 'assembly/module.ts', ...words];
  const done = spawnSync('npx', args, { cwd: folder, stdio: 'inherit' });
  if (done.status !== 0)
    throw new Error(
      'assembly/module.ts gave no code: mend what the compiler names above, or reach the registry',
    );
  const code = readFileSync(made);
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(code), {});
  const text = `// Made from assembly/ by scripts/generate-vector.mjs with ${COMPILER}; do not edit.

/** Trials that the code does side by side: numbers in a row. */
export const vectorTrials: number = ${exports.batch()};

/** WebAssembly, in base64. */
export const vectorCode: string =
  '${code.toString('base64')}';
`;
  if (!process.argv.includes('--check')) writeFileSync(target, text);
  else if (readFileSync(target, 'utf8') !== text) {
    process.stderr.write('src/vector/vectorCode.generated.ts is stale: run `npm run generate:vector`\n');
    process.exitCode = 1;
  }
} finally {
  rmSync(join(made, '..'), { recursive: true, force: true });
}
