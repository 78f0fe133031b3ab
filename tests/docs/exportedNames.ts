import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

/**
 * Names that built modules export, told by one Node process: in this one each would be transformed for the tests.
 *
 * @param paths - of the modules
 * @returns names by path; none where there is no such file
 */
export function exportedNames(paths: readonly string[]): ReadonlyMap<string, readonly string[]> {
  const built = [...new Set(paths)].filter((path) => existsSync(path));
  const addresses = built.map((path) => [path, pathToFileURL(path).href]);
  const program = `const names = {};
for (const [path, address] of ${JSON.stringify(addresses)}) names[path] = Object.keys(await import(address));
console.log(JSON.stringify(names));`;
  const { stdout, stderr } = spawnSync(process.execPath, ['--input-type=module', '-e', program], {
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  if (stdout === '') throw new Error(stderr);
  const names: Record<string, string[]> = JSON.parse(stdout);
  return new Map(paths.map((path) => [path, names[path] ?? []]));
}
