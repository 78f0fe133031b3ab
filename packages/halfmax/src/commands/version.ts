import { readFileSync } from 'node:fs';

/**
 * Version of the package, from its package.json.
 *
 * @returns such as `0.1.0`
 */
export function packageVersion(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
