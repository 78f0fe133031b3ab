// Debian's Jupyter with our kernelspec, in folders of its own.
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { program } from '../kernel/bench.mjs';

const script = fileURLToPath(new URL('./execute.py', import.meta.url));

/**
 * Executes notebooks by nbclient.
 *
 * @param python - that has nbclient
 * @param work - folder for the kernelspec, Jupyter's own files and the results
 * @param files - notebooks
 * @returns one record per notebook, the folder with the results, and what went wrong
 */
export function executeByJupyter(python, work, files) {
  const spec = join(work, 'spec');
  const out = join(work, 'jupyter');
  for (const folder of [spec, out]) mkdirSync(folder, { recursive: true });
  const written = spawnSync(process.execPath, [program, 'kernel', '--dir', spec], { encoding: 'utf8' });
  if (written.status !== 0) return { records: [], out, fault: written.stderr };
  const env = {
    ...process.env,
    JUPYTER_PATH: spec,
    JUPYTER_DATA_DIR: join(work, 'data'),
    JUPYTER_RUNTIME_DIR: join(work, 'runtime'),
    JUPYTER_CONFIG_DIR: join(work, 'config'),
    PYDEVD_DISABLE_FILE_VALIDATION: '1',
  };
  const done = spawnSync(python, [script, out, ...files], {
    encoding: 'utf8',
    env,
    timeout: 1_800_000,
    maxBuffer: 1 << 28,
  });
  const records = done.stdout
    .split('\n')
    .filter((line) => line.startsWith('{'))
    .map((line) => JSON.parse(line));
  return { records, out, fault: done.status === 0 ? '' : done.stderr.slice(-2000) };
}
