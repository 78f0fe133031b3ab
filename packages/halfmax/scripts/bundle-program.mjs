// Makes the command's program of a few files out of the compiled ones: Node takes longer to load hundreds of them
// than many commands run. Dependencies stay outside; programs that import the package use the files as compiled.
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const dist = fileURLToPath(new URL('../dist/', import.meta.url));
const outdir = `${dist}program`;

rmSync(outdir, { recursive: true, force: true });
await build({
  // All of them in one folder: each finds its workers beside it.
  entryPoints: ['cli.js', 'commands/measureWorker.js', 'session/blockWorker.js'].map((file) => dist + file),
  entryNames: '[name]',
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
