import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { halfmaxLaws, importFaults, importsOf, notebookLaws } from './roomOrder.js';

const packages = fileURLToPath(new URL('../packages/', import.meta.url));

/** Sources of a package by their path under src, tests left out. */
function sourcesOf(name: string): Map<string, string> {
  const source = join(packages, name, 'src');
  return new Map(
    readdirSync(source, { recursive: true, encoding: 'utf8' })
      .map((path) => path.replaceAll('\\', '/'))
      .filter((path) => path.endsWith('.ts') && !/\.(test|bench)\.ts$/.test(path))
      .sort()
      .map((path) => [path, readFileSync(join(source, path), 'utf8')]),
  );
}

/** Packages that the sources import by name, other than modules of Node. */
function namedIn(files: ReadonlyMap<string, string>): string[] {
  const names = [...files.values()]
    .flatMap(importsOf)
    .map(({ from }) => from)
    .filter((from) => !from.startsWith('.') && !from.startsWith('node:'))
    .map((from) =>
      from
        .split('/')
        .slice(0, from.startsWith('@') ? 2 : 1)
        .join('/'),
    );
  return [...new Set(names)];
}

describe.each([
  ['halfmax', halfmaxLaws, 150],
  ['halfmax-notebook', notebookLaws, 1],
] as const)('imports of %s', (name, laws, least) => {
  const files = sourcesOf(name);
  const manifest = JSON.parse(readFileSync(join(packages, name, 'package.json'), 'utf8'));

  it('go one way, through the index of each room, without circles, and leave Node to the rooms that need it', () => {
    expect(files.size).toBeGreaterThan(least);
    expect(importFaults(files, laws)).toEqual([]);
  });

  it('name only packages that the manifest lists', () => {
    const listed = Object.keys({ ...manifest.dependencies, ...manifest.peerDependencies });
    expect(namedIn(files).filter((one) => !listed.includes(one))).toEqual([]);
  });
});

describe('the check itself', () => {
  const faultsOf = (tree: Record<string, string>): string[] => importFaults(new Map(Object.entries(tree)));

  it('reads every way of naming a module', () => {
    const text = `
      // import { no } from './comment.js';
/** import { no } from './docs.js'; */
import './a.js';
import type { B } from './b.js';
import {
  c,
  type C,
} from '../c/index.js';
export { d } from "./d.js";
export * from './e.js';
export interface F {
  readonly f: import('./f.js').F;
}
const g = await import('node:fs');`;
    expect(importsOf(text).map(({ from, typeOnly }) => `${from}${typeOnly ? ' type' : ''}`)).toEqual([
      './a.js',
      './b.js type',
      '../c/index.js',
      './d.js',
      './e.js',
      './f.js',
      'node:fs',
    ]);
  });

  it.each([
    [
      'a room after its own',
      { 'numeric/a.ts': `import { b } from '../frames/index.js';`, 'frames/index.ts': '' },
    ],
    ['past the index', { 'frames/a.ts': `import { b } from '../numeric/b.js';`, 'numeric/b.ts': '' }],
    ['which a browser has not', { 'metrics/a.ts': `import { readFileSync } from 'node:fs';` }],
    ['which a browser has not', { 'measure/a.ts': `import path from 'path';` }],
    [
      'which a browser has not',
      {
        'session/benchSession.ts': `import { sep } from 'node:path';`,
        'measure/a.ts': `import type { B } from '../session/benchSession.js';`,
      },
    ],
    [
      'needs Node',
      { 'measure/a.ts': `import { readSession } from '../session/index.js';`, 'session/index.ts': '' },
    ],
    [
      'needs Node',
      { 'measure/a.ts': `import { x } from '../session/benchSession.js';`, 'session/benchSession.ts': '' },
    ],
    [
      'itself through numeric/b.ts, numeric/a.ts',
      { 'numeric/a.ts': `import { b } from './b.js';`, 'numeric/b.ts': `import { a } from './a.js';` },
    ],
    ['is no source file', { 'numeric/a.ts': `import { b } from '../../../tests/b.js';` }],
    ['has no place in the order', { 'utils/a.ts': '' }],
    ['take it off the list', { 'verdict/claim.ts': '' }],
  ])('finds %s', (what, tree: Record<string, string>) => {
    expect(faultsOf(tree)).toEqual([expect.stringContaining(what)]);
  });

  it('asks nothing of Node where all rooms may use it', () => {
    const tree = {
      'notebook/index.ts': `import { readFileSync } from 'node:fs';`,
      'run/a.ts': `import { b } from '../notebook/index.js';`,
    };
    expect(importFaults(new Map(Object.entries(tree)), notebookLaws)).toEqual([]);
    const turned = { 'run/index.ts': '', 'notebook/a.ts': `import { b } from '../run/index.js';` };
    expect(importFaults(new Map(Object.entries(turned)), notebookLaws)).toEqual([
      expect.stringContaining('a room after its own'),
    ]);
  });

  it('finds nothing in a tree in order', () => {
    const tree = {
      'errors.ts': '',
      'numeric/a.ts': `import { b } from './b.js';`,
      'numeric/b.ts': `import { Matrix } from 'ml-matrix';`,
      'numeric/index.ts': `export { a } from './a.js';`,
      'frames/a.ts': `import { refuse } from '../errors.js';\nimport { a } from '../numeric/index.js';`,
      'session/benchSession.ts': '',
      'measure/a.ts': `import type { BenchSession } from '../session/benchSession.js';`,
      'session/read.ts': `import { readFileSync } from 'node:fs';`,
    };
    expect(faultsOf(tree)).toEqual([]);
  });
});
