import { spawnSync } from 'node:child_process';
import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const consumer = fileURLToPath(new URL('./everyEntry.ts', import.meta.url));

/**
 * Compiles everyEntry.ts in a folder that has the package among its modules.
 *
 * @param {string} folder with node_modules/halfmax
 * @param {string} compiler tsc.js of the TypeScript to use
 * @param {'node16' | 'node10'} resolution how imports are looked up
 * @returns {{ status: number | null, output: string }}
 */
export function compileConsumer(folder, compiler, resolution) {
  copyFileSync(consumer, join(folder, 'everyEntry.ts'));
  writeFileSync(join(folder, 'package.json'), '{ "private": true, "type": "module" }\n');
  const config = {
    compilerOptions: {
      strict: true,
      noEmit: true,
      target: 'ES2022',
      lib: ['ES2022'],
      types: [],
      module: resolution === 'node16' ? 'node16' : 'es2022',
      moduleResolution: resolution,
      skipLibCheck: false,
    },
    files: ['everyEntry.ts'],
  };
  const project = join(folder, `tsconfig.${resolution}.json`);
  writeFileSync(project, JSON.stringify(config));
  const run = spawnSync(process.execPath, [compiler, '-p', project], { encoding: 'utf8' });
  return { status: run.status, output: `${run.stdout}${run.stderr}` };
}
