import { mkdirSync, realpathSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fixedEnvironment, launcherFile } from '../fence/index.js';
import { refuse } from '../notebook/index.js';
import { readOptions } from './readOptions.js';
import type { Terminal } from './terminal.js';

/**
 * `halfmax-notebook kernel`: writes a kernelspec into a folder, so that Jupyter runs the reproducible kernel.
 *
 * @param args - words after `kernel`
 * @param terminal - where to write
 * @returns exit code 0
 * @throws {BadInputError} a wrong command, or a folder that cannot be written to
 */
export function kernelCommand(args: readonly string[], terminal: Terminal): number {
  const words = readOptions(args, { dir: 'text' }, 'kernel');
  const place = 'halfmax-notebook kernel';
  const [surplus] = words.positional;
  if (surplus !== undefined) refuse(place, surplus, 'is not expected', 'write --dir DIR');
  const dir = words.options.get('dir')?.[0];
  if (dir === undefined) refuse(place, '--dir', 'no folder given', 'write --dir DIR');
  const folder = resolve(dir);
  let file: string;
  try {
    file = writeKernelSpec(folder);
  } catch (fault) {
    const what = fault instanceof Error ? fault.message : String(fault);
    refuse(dir, '', `cannot be written to: ${what}`, 'give another --dir');
  }
  terminal.out(`${file}\nStart Jupyter with JUPYTER_PATH=${folder}\n`);
  return 0;
}

/**
 * Writes the kernelspec.
 *
 * @param folder - for JUPYTER_PATH
 * @returns path of the kernelspec
 */
export function writeKernelSpec(folder: string): string {
  // The name is tslab's, so that the notebooks open on a plain tslab kernel too.
  const spec = join(folder, 'kernels', 'tslab');
  mkdirSync(spec, { recursive: true });
  const file = join(spec, 'kernel.json');
  writeFileSync(file, `${JSON.stringify(kernelSpec(), null, 1)}\n`);
  return file;
}

function kernelSpec(): object {
  return {
    argv: [realpathSync(process.execPath), '--no-warnings', launcherFile, '{connection_file}'],
    display_name: 'TypeScript (halfmax)',
    language: 'typescript',
    interrupt_mode: 'signal',
    env: fixedEnvironment,
  };
}
