import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const npmWords = ['ci', 'install', 'test', 'pack', 'publish'];

/**
 * What is wrong with the commands of a shell block: each must be a script of the workspace, a tool that is installed, a
 * file that exists, or a command of the package with options that its help names.
 *
 * @param root - top of the checkout
 * @param block - lines of a `sh` block
 * @param help - text of `halfmax --help`
 * @returns one sentence per command that would not run
 */
export function faultsOfCommands(root: string, block: string, help: string): string[] {
  const commands = block
    .replace(/\\\n/g, ' ')
    .split(/\n|&&/)
    .map((line) => line.replace(/(^|\s)#.*$/, '').trim())
    .filter((line) => line !== '');
  return commands.flatMap((command) => {
    const fault = faultOf(root, command.split(/\s+/), help);
    return fault === null ? [] : [`${command}: ${fault}`];
  });
}

function faultOf(root: string, words: readonly string[], help: string): string | null {
  const [tool = '', first = '', ...rest] = words;
  if (tool === 'npm') return faultOfNpm(root, first, rest);
  if (tool === 'npx' && first === 'halfmax') return faultOfHalfmax(rest, help);
  if (tool === 'halfmax') return faultOfHalfmax(words.slice(1), help);
  if (tool === 'npx')
    return existsSync(join(root, 'node_modules/.bin', first)) ? null : `${first} is not installed`;
  if (tool === 'node' || tool === 'python3') {
    if (!existsSync(join(root, first))) return `${first} does not exist`;
    return first === 'packages/halfmax/bin/halfmax.js' ? faultOfHalfmax(rest, help) : null;
  }
  if (tool === 'cp') return existsSync(join(root, first)) ? null : `${first} does not exist`;
  if (tool === 'git') return null;
  return `${tool} is not a known tool`;
}

function faultOfNpm(root: string, first: string, rest: readonly string[]): string | null {
  if (first !== 'run') {
    if (!npmWords.includes(first)) return `npm ${first} is not known`;
    const packages = rest.filter(
      (word) => !word.startsWith('-') && word !== 'halfmax' && first === 'install',
    );
    return packages.length === 0 ? null : `${packages.join(' ')} is not of this project`;
  }
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    scripts: Record<string, string>;
  };
  return Object.hasOwn(manifest.scripts, rest[0] ?? '') ? null : `there is no script ${rest[0]}`;
}

function faultOfHalfmax(words: readonly string[], help: string): string | null {
  const [command = ''] = words;
  const known = command.startsWith('--') || help.includes(`  halfmax ${command} `);
  if (!known) return `halfmax ${command} is not a command`;
  const options = words.filter((word) => word.startsWith('--')).map((word) => word.split('=')[0]!);
  const unknown = options.filter((option) => !new RegExp(`${option}\\b`).test(help));
  return unknown.length === 0 ? null : `${unknown.join(', ')} is not in the help`;
}
