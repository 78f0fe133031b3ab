// Jupyter's Notebook on the loopback, over a copy of the worked notebooks, in folders of its own.
import { spawn, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { program, root, until } from '../kernel/bench.mjs';

/** The program of Debian's package jupyter-notebook. */
export const notebookProgram = process.env.JUPYTER_NOTEBOOK ?? '/usr/bin/jupyter-notebook';

/**
 * Starts the server; the notebooks are trusted, as a reader does by a click.
 *
 * @param {string} work folder for everything
 * @param {Record<string, string>} more further notebooks by their names
 * @returns {Promise<{ url: (notebook: string) => string, stop: () => Promise<void> }>}
 */
export async function startNotebook(work, more) {
  const spec = join(work, 'spec');
  const checkout = join(work, 'checkout');
  const runtime = join(work, 'runtime');
  for (const folder of [spec, checkout, runtime]) mkdirSync(folder, { recursive: true });
  for (const name of ['node_modules', 'data-demo']) symlinkSync(join(root, name), join(checkout, name));
  const notebooks = join(checkout, 'notebooks');
  cpSync(join(root, 'notebooks'), notebooks, { recursive: true });
  for (const [name, text] of Object.entries(more)) writeFileSync(join(notebooks, name), text);
  const env = {
    ...process.env,
    JUPYTER_PATH: spec,
    JUPYTER_DATA_DIR: join(work, 'data'),
    JUPYTER_RUNTIME_DIR: runtime,
    JUPYTER_CONFIG_DIR: join(work, 'config'),
    PYDEVD_DISABLE_FILE_VALIDATION: '1',
  };
  const written = spawnSync(process.execPath, [program, 'kernel', '--dir', spec], { encoding: 'utf8' });
  if (written.status !== 0) throw new Error(written.stderr);
  const names = readdirSync(notebooks).filter((name) => name.endsWith('.ipynb'));
  const signed = spawnSync('/usr/bin/python3', ['-m', 'nbformat.sign', ...names], {
    cwd: notebooks,
    env,
    encoding: 'utf8',
  });
  if (signed.status !== 0) throw new Error(signed.stderr);
  const words = ['--no-browser', '--allow-root', '--ip=127.0.0.1', `--notebook-dir=${checkout}`];
  const child = spawn(notebookProgram, words, { env, stdio: 'ignore' });
  let isOver = false;
  const over = new Promise((resolve) => {
    child.once('exit', () => {
      isOver = true;
      resolve();
    });
  });
  const info = () => readdirSync(runtime).find((name) => /^nbserver-\d+\.json$/.test(name));
  const stop = async () => {
    if (!isOver) child.kill('SIGTERM');
    await over;
  };
  if (!(await until(() => isOver || info() !== undefined)) || isOver || !existsSync(join(runtime, info()))) {
    await stop();
    throw new Error('Jupyter has not started');
  }
  const { port, token } = JSON.parse(readFileSync(join(runtime, info()), 'utf8'));
  return {
    url: (notebook) => `http://127.0.0.1:${port}/notebooks/notebooks/${notebook}?token=${token}`,
    stop,
  };
}
