import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { entriesImported, packageEntries, packageFolder } from './packageEntries.mjs';
import { compileConsumer } from './typescript/compile.mjs';

const here = fileURLToPath(new URL('./', import.meta.url));
const manifest = JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8'));
const entries = packageEntries();
const folder = mkdtempSync(join(tmpdir(), 'halfmax-consumer-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the published package', () => {
  const packed = spawnSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
    cwd: packageFolder,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  const files: string[] = JSON.parse(packed.stdout)[0].files.map((file: { path: string }) => file.path);

  it('holds what its manifest points to, and its papers', () => {
    const targets = [
      manifest.main,
      manifest.types,
      ...Object.values<string>(manifest.bin),
      ...entries.flatMap(({ types, code }) => [types, code]),
    ].map((path: string) => path.replace(/^\.\//, ''));
    const papers = ['README.md', 'CHANGELOG.md', 'LICENSE'];
    expect([...targets, ...papers].filter((path) => !files.includes(path))).toEqual([]);
  });

  it('holds nothing but built code and its types: no tests, no build records, nothing left over', () => {
    const bundle = 'dist/bundle/';
    const code = files.filter((path) => path.startsWith(bundle)).map((path) => path.slice(bundle.length));
    const parts = code.filter((name) => /^part-[A-Z0-9]+\.js$/.test(name));
    const text = code.map((name) => readFileSync(join(packageFolder, bundle, name), 'utf8')).join('\n');
    expect(parts.filter((name) => !text.includes(`./${name}`))).toEqual([]);
    const named = entries.map((entry) => entry.code.replace(`./${bundle}`, ''));
    const programs = ['cli.js', 'measureWorker.js', 'blockWorker.js'];
    expect(code.filter((name) => !parts.includes(name)).sort()).toEqual([...named, ...programs].sort());
    const types = files.filter((path) => path.startsWith('dist/') && !path.startsWith(bundle));
    const strays = types.filter((path) => {
      const source = path.replace(/^dist\//, 'src/').replace(/\.d\.ts$/, '.ts');
      return /\.(test|bench)\./.test(path) || !existsSync(join(packageFolder, source));
    });
    expect(strays).toEqual([]);
    const others = files.filter((path) => !path.startsWith('dist/'));
    const known = ['CHANGELOG.md', 'LICENSE', 'README.md', 'bin/halfmax.js', 'package.json'];
    expect(others.sort()).toEqual(known);
  });

  it('has an entry for every room that stands in src, and tells older resolvers the same', () => {
    // Commands are called by their program, vectors by the rooms that know what they work out.
    const inner = ['commands', 'vector'];
    const rooms = readdirSync(join(packageFolder, 'src'), { withFileTypes: true })
      .filter((item) => item.isDirectory() && !inner.includes(item.name))
      .map((item) => item.name);
    expect(entries.map(({ room }) => room).sort()).toEqual(['', ...rooms].sort());
    const older = Object.fromEntries(
      entries.filter(({ room }) => room !== '').map(({ room, types }) => [room, [types]]),
    );
    expect(manifest.typesVersions).toEqual({ '*': older });
    const whole = entries.find(({ room }) => room === '');
    expect([manifest.types, manifest.main]).toEqual([whole?.types, whole?.code]);
  });
});

describe('programs that use it', () => {
  const wanted = entries.map(({ entry }) => entry).sort();

  it.each(['esm/everyEntry.mjs', 'typescript/everyEntry.ts'])('%s imports every entry', (file) => {
    expect(entriesImported(readFileSync(join(here, file), 'utf8')).sort()).toEqual(wanted);
  });

  it('as ES modules: every entry loads and offers names', () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [join(here, 'esm', 'everyEntry.mjs')], {
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const { version, names } = JSON.parse(stdout);
    expect(version).toBe(manifest.version);
    expect(Object.keys(names).sort()).toEqual(wanted);
    expect(wanted.filter((entry) => names[entry].length === 0)).toEqual([]);
  });

  const compiles = (resolution: 'node16' | 'node10'): void => {
    const home = join(folder, resolution);
    mkdirSync(join(home, 'node_modules'), { recursive: true });
    symlinkSync(packageFolder, join(home, 'node_modules', 'halfmax'), 'junction');
    const compiler = fileURLToPath(import.meta.resolve('typescript/bin/tsc'));
    expect(compileConsumer(home, compiler, resolution)).toEqual({ status: 0, output: '' });
  };

  it('in strict TypeScript, imports resolved as node16', () => compiles('node16'));

  it('in strict TypeScript, imports resolved as node10', { tags: ['long'] }, () => compiles('node10'));
});
