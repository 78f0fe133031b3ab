// Makes a few files out of the hundreds of sources: Node takes a third of a second to load those, longer than many
// programs run that use the package. Dependencies stay outside. It waits for no compiler: declarations are another's work.
import { readFileSync, rmSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const source = fileURLToPath(new URL('../src/', import.meta.url));
const outdir = fileURLToPath(new URL('../dist/bundle', import.meta.url));
const { exports } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));

/** Entries of programs that import the package, by the name of their file: each is the face of a room. */
const entries = Object.values(exports)
  .filter((target) => typeof target === 'object')
  .map(({ types, default: code = undefined, node }) => [
    basename(code ?? node, '.js'),
    types.replace(/^\.\/dist\//, source).replace(/\.d\.ts$/, '.ts'),
  ]);
const programs = ['cli.ts', 'commands/measureWorker.ts', 'session/blockWorker.ts'].map((file) => [
  basename(file, '.ts'),
  source + file,
]);

rmSync(outdir, { recursive: true, force: true });
await build({
  // All of them in one folder: each finds the workers beside it, wherever its parts are put.
  entryPoints: Object.fromEntries([...entries, ...programs]),
  chunkNames: 'part-[hash]',
  outdir,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  packages: 'external',
  legalComments: 'inline',
  logLevel: 'warning',
});
