import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** What a run was made with, apart from its inputs: the same on every machine that has the same installed. */
export interface RunTools {
  readonly node: string;
  readonly v8: string;
  readonly icu: string;
  readonly platform: string;
  readonly tslab: string;
  readonly typescript: string;
  readonly halfmax: string;
  readonly halfmaxNotebook: string;
  /** Digest of the lockfile that the packages were installed from, or why there is none. */
  readonly lockfile: { readonly sha256: string } | { readonly absent: string };
}

const require = createRequire(import.meta.url);

/**
 * The folder whose node_modules hold the packages: the checkout, or the project that installed them.
 *
 * @returns its path
 */
export function packageRoot(): string {
  return dirname(dirname(dirname(require.resolve('tslab/package.json'))));
}

/**
 * Versions of all that a notebook runs on.
 *
 * @returns versions, and the digest of the lockfile
 */
export function runTools(): RunTools {
  const tslab = require.resolve('tslab/package.json');
  const fromTslab = createRequire(tslab);
  const version = (path: string): string =>
    (JSON.parse(readFileSync(path, 'utf8')) as { version: string }).version;
  const lockfile = join(packageRoot(), 'package-lock.json');
  return {
    node: process.versions.node,
    v8: process.versions.v8,
    icu: process.versions.icu ?? '',
    platform: `${process.platform}-${process.arch}`,
    tslab: version(tslab),
    typescript: version(fromTslab.resolve('@tslab/typescript-for-tslab/package.json')),
    halfmax: version(require.resolve('halfmax/package.json')),
    halfmaxNotebook: version(require.resolve('../../package.json')),
    lockfile: existsSync(lockfile)
      ? { sha256: sha256(readFileSync(lockfile)) }
      : { absent: 'the packages were installed without a package-lock.json' },
  };
}

/**
 * A digest.
 *
 * @param content - text in UTF-8, or bytes
 * @returns SHA-256 in hexadecimal
 */
export function sha256(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}
