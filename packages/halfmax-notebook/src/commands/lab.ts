import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { findProgram } from '../fence/index.js';
import { writeKernelSpec } from './kernel.js';
import type { Terminal } from './terminal.js';

const HELP = `Jupyter is not installed here. One of these installs it:
  python3 -m pip install jupyterlab plotly   (any system with Python; plotly: figures that move)
  sudo apt-get install jupyter-notebook      (Debian, Ubuntu)
Then start it again. The notebooks need no Jupyter to be run: halfmax-notebook rerun does without.
`;
const ABSENT = 2;

/**
 * `halfmax-notebook lab`: starts Jupyter with the reproducible kernel; nothing is installed for good.
 *
 * @param args - words handed on to Jupyter
 * @param terminal - where to write
 * @returns exit code of Jupyter, or 2 where it is not installed
 */
export async function labCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  const found = findJupyter();
  if (found === null) {
    terminal.error(HELP);
    return ABSENT;
  }
  const folder = mkdtempSync(join(tmpdir(), 'halfmax-jupyter-'));
  try {
    writeKernelSpec(folder);
    const paths = [folder, process.env['JUPYTER_PATH'] ?? ''].filter((path) => path !== '');
    const [program, ...words] = found as [string, ...string[]];
    const rest = args[0] === '--' ? args.slice(1) : args;
    const child = spawn(program, [...words, ...rest], {
      stdio: 'inherit',
      env: { ...process.env, JUPYTER_PATH: paths.join(delimiter) },
    });
    // Ctrl-C reaches Jupyter by itself, which asks; other signals are handed on. This process waits for its end.
    const wait = (): void => {};
    const handOn = (signal: NodeJS.Signals): void => void child.kill(signal);
    process.on('SIGINT', wait).on('SIGTERM', handOn).on('SIGHUP', handOn);
    const code = await new Promise<number>((resolve, reject) => {
      child.once('error', reject);
      child.once('exit', (status) => resolve(status ?? 1));
    });
    process.off('SIGINT', wait).off('SIGTERM', handOn).off('SIGHUP', handOn);
    return code;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The command that starts Jupyter: Lab before Notebook, its own program before a module of Python. */
function findJupyter(): string[] | null {
  const lab = findProgram('jupyter-lab');
  if (lab !== null) return [lab];
  const notebook = findProgram('jupyter-notebook');
  if (notebook !== null) return [notebook];
  for (const python of ['python3', '/usr/bin/python3', 'python']) {
    for (const module of ['jupyterlab', 'notebook']) {
      if (spawnSync(python, ['-c', `import ${module}`], { stdio: 'ignore' }).status === 0)
        return [python, '-m', module];
    }
  }
  return null;
}
