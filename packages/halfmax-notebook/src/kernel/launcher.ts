/**
 * The kernel: tslab with its faults mended, in a process whose random numbers, clock, zone and locale are fixed.
 * Jupyter starts it as `node launcher.js CONNECTION_FILE`; our runner gives it settings in its environment besides.
 */
import { realpathSync } from 'node:fs';
import { createRequire, Module } from 'node:module';
import { homedir } from 'node:os';
import { dirname, join, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cellSources } from './cellSources.js';
import { fixWorld } from './fixWorld.js';
import { defaultSettings, type KernelSettings, SETTINGS_VARIABLE, setKernelWorld } from './kernelSettings.js';
import { missingNames, type PatchedModules, TSLAB_VERSION } from './patchedNames.js';
import { patchTslab } from './patchTslab.js';
import { recordReads } from './recordReads.js';
import { describeDiagnostics, describeThrown, hidePaths, tidyStackTraces } from './tidyErrors.js';
import { watchParent } from './watchParent.js';

const [connectionFile] = process.argv.slice(2);
const toTerminal = process.stderr.write.bind(process.stderr);
const complain = (text: string): void => void toTerminal(`halfmax-notebook kernel: ${text}\n`);

const settings: KernelSettings = JSON.parse(
  process.env[SETTINGS_VARIABLE] ?? JSON.stringify(defaultSettings),
);
delete process.env[SETTINGS_VARIABLE];
process.env['TZ'] = 'UTC';

watchParent(settings.temporary ?? null, settings.watchThread);
const startedAt = settings.startedAt ?? new Date().toISOString();

const require = createRequire(import.meta.url);
const tslab = dirname(require.resolve('tslab/package.json'));
const fromTslab = createRequire(join(tslab, 'package.json'));
/** The folder whose node_modules hold the packages: where a notebook elsewhere finds what it imports. */
const root = dirname(dirname(tslab));
const packageFolder = realpathSync(fileURLToPath(new URL('../..', import.meta.url)));
const halfmax = dirname(realpathSync(fileURLToPath(import.meta.resolve('halfmax/package.json'))));

const modules: PatchedModules = {
  typescript: openCompiler(),
  jupyter: fromTslab('./dist/jupyter.js'),
  executor: fromTslab('./dist/executor.js'),
  converter: fromTslab('./dist/converter.js'),
  zeromq: fromTslab('zeromq'),
};
const { version } = fromTslab('./package.json') as { version: string };
const missing = missingNames(modules);
if (missing.length > 0 || version !== TSLAB_VERSION) {
  const names = missing.length > 0 ? `; it lacks ${missing.join(', ')}` : '';
  complain(`tslab ${version} is not ${TSLAB_VERSION}, which this kernel is made for${names}`);
  process.exit(1);
}
const cwd = process.cwd();
findPackagesFromAnywhere();

const cellFile = '__tslab__.ts';
const sources = cellSources(cellFile);
const folders = [
  { folder: cwd, name: '.' },
  ...(settings.given.session === undefined ? [] : [{ folder: settings.given.session, name: 'session' }]),
  ...(settings.given.out === undefined ? [] : [{ folder: settings.given.out, name: 'out' }]),
  { folder: root, name: '…' },
  { folder: homedir(), name: '~' },
]
  .filter(({ folder }) => folder.length > 1)
  .sort((a, b) => b.folder.length - a.folder.length);

const lateFaults: string[] = [];
const { realNow } = fixWorld(settings.seed, Date.parse(startedAt));
const { onRejection } = patchTslab(modules, {
  cellFile,
  sources,
  realNow,
  describeThrown: (thrown) => describeThrown(thrown, folders),
  describeDiagnostics,
  complain,
  kernelInfo: () => ({
    implementation_version: version,
    language_info: {
      name: 'typescript',
      version: modules.typescript.version,
      mimetype: 'text/typescript',
      file_extension: '.ts',
      codemirror_mode: { mode: 'typescript', name: 'javascript', typescript: true },
    },
    halfmax: {
      startedAt,
      seed: settings.seed,
      used: Object.fromEntries(world.used),
      files: reads.files(),
      lateFaults,
      locale: Intl.DateTimeFormat().resolvedOptions().locale,
      timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    },
  }),
  exit: () => process.exit(0),
});

const kernelFiles = connectionFile === undefined ? [] : [dirname(resolve(connectionFile))];
const reads = recordReads([packageFolder, halfmax, ...kernelFiles]);
reads.nameFolder('notebook', cwd);
if (settings.given.session !== undefined) reads.nameFolder('session', settings.given.session);
const world = { settings, startedAt, nameFolder: reads.nameFolder, used: new Map() };
setKernelWorld(world);
tidyStackTraces(sources, [tslab + sep, join(packageFolder, 'dist', 'kernel') + sep]);

quietWarnings();
if (settings.packagedAddonsOnly) keepAddons();
const { startKernel } = fromTslab('./dist/main.js') as {
  startKernel: (options: { configPath: string; enableFindLocal: boolean }) => void;
};
if (connectionFile === undefined) {
  complain('no connection file given: Jupyter or `halfmax-notebook rerun` starts this program');
  process.exit(2);
}
startKernel({ configPath: connectionFile, enableFindLocal: false });

// tslab writes these into whatever cell ran last and goes on as if nothing had happened.
process.removeAllListeners('uncaughtException');
process.removeAllListeners('unhandledRejection');
const late = (fault: unknown): void => {
  if (onRejection(fault)) return;
  const { ename, evalue } = describeThrown(fault, folders);
  lateFaults.push(`${ename}: ${evalue}`);
  process.stderr.write(`after the cell had ended: ${ename}: ${evalue}\n`);
};
process.on('uncaughtException', late);
process.on('unhandledRejection', late);

/** Native code that a notebook brings along would be outside of what Node permits; that of the packages is needed. */
function keepAddons(): void {
  const raw = process.dlopen;
  const allowed = join(root, 'node_modules') + sep;
  const value = (module: object, file: string, ...flags: number[]): void => {
    const full = realpathSync(file);
    if (!full.startsWith(allowed))
      throw new Error('the fence lets no native code in but that of the packages');
    Reflect.apply(raw, process, [module, full, ...flags]);
  };
  Object.defineProperty(process, 'dlopen', { value, writable: false, configurable: false });
}

/** A warning of Node names its process, which differs from run to run; those on features of Node itself say nothing. */
function quietWarnings(): void {
  process.removeAllListeners('warning');
  process.on('warning', ({ name, message }) => {
    if (name === 'ExperimentalWarning' || name === 'DeprecationWarning') return;
    process.stderr.write(`${name}: ${hidePaths(message, folders)}\n`);
  });
}

/** The compiler's own exports cannot be set; tslab, loaded after this, gets a copy that can. */
function openCompiler(): PatchedModules['typescript'] {
  const path = fromTslab.resolve('@tslab/typescript-for-tslab');
  const compiler = { ...fromTslab(path) };
  fromTslab.cache[path]!.exports = compiler;
  return compiler;
}

/**
 * A notebook that lies elsewhere finds the packages as if they were installed in its own folder: at run time by the
 * search path, in the compiler by a folder of modules that it is made to see.
 */
function findPackagesFromAnywhere(): void {
  const modulesFolder = join(root, 'node_modules');
  process.env['NODE_PATH'] = modulesFolder;
  (Module as unknown as { _initPaths: () => void })._initPaths();
  delete process.env['NODE_PATH'];

  const { typescript } = modules;
  const createHost = typescript.createWatchCompilerHost;
  typescript.createWatchCompilerHost = (files: unknown, given: object, ...args: unknown[]): unknown => {
    // Of all the declarations that packages bring, only those of Node are global to a notebook.
    const options = { ...given, types: ['node'], typeRoots: [join(modulesFolder, '@types')] };
    return createHost(files, options, ...args);
  };
  if (!settings.watchFiles) {
    const nothing = (): object => ({ close: () => {} });
    Object.assign(typescript.sys, { watchFile: nothing, watchDirectory: nothing });
  }
  if (`${cwd}${sep}`.startsWith(root + sep)) return;
  const seen = join(cwd, 'node_modules');
  const forward = (path: string): string =>
    path === seen || path.startsWith(seen + sep) ? modulesFolder + path.slice(seen.length) : path;
  const system = typescript.sys as Record<string, (path: string, ...rest: unknown[]) => unknown>;
  for (const name of ['fileExists', 'readFile', 'directoryExists', 'realpath', 'getDirectories']) {
    const raw = system[name]!;
    system[name] = (path, ...rest) => raw.call(system, forward(path), ...rest);
  }
}
