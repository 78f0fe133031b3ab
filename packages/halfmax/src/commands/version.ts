import { createRequire } from 'node:module';

/**
 * Version of the package, from its package.json.
 *
 * @returns such as `0.1.0`
 */
export function packageVersion(): string {
  const manifest = createRequire(import.meta.url)('halfmax/package.json') as { version: string };
  return manifest.version;
}
