import { existsSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findProgram } from './findProgram.js';
import { forbidCalls } from './forbidCalls.js';

/** A command line with all that belongs to it. */
export interface FenceCommand {
  readonly program: string;
  readonly args: readonly string[];
  readonly cwd: string;
  readonly env: Readonly<Record<string, string>>;
  /** Filter of system calls that the program reads from file descriptor 3, or null. */
  readonly filter: Uint8Array | null;
}

/** What keeps a notebook from the rest of the machine. */
export type FenceKind = 'bwrap' | 'node' | 'none';

/** What the kernel needs, and may touch. */
export interface KernelPlaces {
  /** Folder that the notebook runs in: its own. */
  readonly cwd: string;
  /** The notebook's file. */
  readonly notebook: string;
  /** Session folder, or null. */
  readonly session: string | null;
  /** Folder that it may write to. */
  readonly out: string;
  /** Folder with the connection file and the sockets. */
  readonly connectionFolder: string;
  readonly connectionFile: string;
  /** Environment variables besides those that make it reproducible. */
  readonly env: Readonly<Record<string, string>>;
}

/** The launcher: what node runs as a kernel. */
export const launcherFile: string = fileURLToPath(new URL('../kernel/launcher.js', import.meta.url));

/** Environment of every kernel: no language, zone or setting of the person who runs it. */
export const fixedEnvironment: Readonly<Record<string, string>> = {
  TZ: 'UTC',
  LANG: 'C.UTF-8',
  LC_ALL: 'C.UTF-8',
  NO_COLOR: '1',
};

const SHARE_OF_HEAP = 0.75;

/**
 * The command line of a kernel behind a fence.
 *
 * @param kind - of fence
 * @param places - what the kernel may touch
 * @param memoryMb - most memory, in MB
 * @returns program, words, folder and environment
 */
export function kernelCommand(kind: FenceKind, places: KernelPlaces, memoryMb: number): FenceCommand {
  const node = realpathSync(process.execPath);
  const env = {
    PATH: [dirname(node), '/usr/bin', '/bin'].join(delimiter),
    HOME: kind === 'none' ? (process.env['HOME'] ?? '/') : places.out,
    TMPDIR: kind === 'none' ? tmpdir() : places.out,
    ...fixedEnvironment,
    ...places.env,
    ...(process.platform === 'win32' ? windowsEnvironment() : {}),
  };
  const heap = [`--max-old-space-size=${Math.max(64, Math.floor(memoryMb * SHARE_OF_HEAP))}`];
  const limited = limitMemory(memoryMb);
  const words = ['--no-warnings', ...heap];
  const launch = [launcherFile, places.connectionFile];
  if (kind === 'none') return asCommand([...limited, node, ...words, ...launch], places.cwd, env);
  if (kind === 'node') {
    const command = [...dieWithParent(), ...limited, node, ...words, ...nodePermissions(places), ...launch];
    return asCommand(command, places.cwd, env);
  }
  const filter = forbidCalls(process.arch);
  const command = [...bubble(places, node, filter !== null), ...limited, node, ...words, ...launch];
  return asCommand(command, '/', env, filter);
}

/**
 * Whether the system itself can hold a process to an amount of memory here; else only the heap of Node is held.
 *
 * @returns true where prlimit is there
 */
export function limitsAllMemory(): boolean {
  return limitMemory(1).length > 0;
}

function limitMemory(memoryMb: number): string[] {
  const prlimit = process.platform === 'linux' ? findProgram('prlimit') : null;
  // No core file of a kernel that ran out of memory, either.
  return prlimit === null ? [] : [prlimit, `--data=${memoryMb * 1024 * 1024}`, '--core=0', '--'];
}

/** Behind the permission model no thread may watch the parent, so the system does. */
function dieWithParent(): string[] {
  const setpriv = process.platform === 'linux' ? findProgram('setpriv') : null;
  return setpriv === null ? [] : [setpriv, '--pdeathsig', 'KILL', '--'];
}

function asCommand(
  words: readonly string[],
  cwd: string,
  env: Record<string, string>,
  filter: Uint8Array | null = null,
): FenceCommand {
  const [program, ...args] = words as [string, ...string[]];
  return { program, args, cwd, env, filter };
}

function windowsEnvironment(): Record<string, string> {
  const kept = ['SystemRoot', 'TEMP', 'TMP', 'PATH', 'USERPROFILE'];
  return Object.fromEntries(
    kept.flatMap((name) => (process.env[name] === undefined ? [] : [[name, process.env[name]]])),
  );
}

/** Folders that hold the packages: node_modules, and those that its links lead to. */
export function packageFolders(): string[] {
  const require = createRequire(import.meta.url);
  const modules = dirname(dirname(require.resolve('tslab/package.json')));
  const own = realpathSync(fileURLToPath(new URL('../..', import.meta.url)));
  const folders = new Set([modules]);
  const add = (name: string): void => {
    const link = join(modules, name);
    if (!existsSync(link)) return;
    const target = realpathSync(link);
    if (!target.startsWith(modules)) folders.add(target);
  };
  for (const name of readdirSync(modules)) {
    if (!name.startsWith('@')) add(name);
    else for (const inner of readdirSync(join(modules, name))) add(join(name, inner));
  }
  if (!own.startsWith(modules)) folders.add(own);
  return [...folders];
}

/** What the launcher reads of a package that is linked to: not its sources, tests or other files. */
function partsOf(folder: string): string[] {
  if (folder.endsWith('node_modules')) return [folder];
  const manifest = join(folder, 'package.json');
  const files = existsSync(manifest)
    ? ((JSON.parse(readFileSync(manifest, 'utf8')) as { files?: string[]; main?: string }).files ?? [])
    : [];
  // Patterns such as `dist/**/*.d.ts` stand for the folder that they begin with.
  const published = files.map((pattern) => pattern.split('/')[0]!).filter((name) => /^[\w-]+$/.test(name));
  const parts = new Set(['package.json', 'node_modules', ...published]);
  const kept = [...parts].map((part) => join(folder, part)).filter((path) => existsSync(path));
  return files.length === 0 ? [folder] : kept;
}

function nodePermissions(places: KernelPlaces): string[] {
  const folders = [
    ...packageFolders().flatMap(partsOf),
    places.connectionFolder,
    places.out,
    ...(places.session === null ? [] : [places.session]),
  ];
  const reads = [
    '/etc/alpine-release',
    places.notebook,
    // A folder named twice, or with and without the star, makes Node 20 stop with an assertion.
    ...folders.map((path) => (statSync(path).isDirectory() ? join(path, '*') : path)),
  ];
  const writes = [join(places.out, '*'), join(places.connectionFolder, '*')];
  return [
    '--experimental-permission',
    '--allow-addons',
    ...reads.map((path) => `--allow-fs-read=${path}`),
    ...writes.map((path) => `--allow-fs-write=${path}`),
  ];
}

/** The command that walls off everything: what is not named here is not there. */
function bubble(places: KernelPlaces, node: string, isFiltered: boolean): string[] {
  const readable = [
    '/usr',
    ...(node.startsWith('/usr/') ? [] : [node]),
    ...packageFolders().flatMap(partsOf),
    places.notebook,
    ...(places.session === null ? [] : [places.session]),
  ];
  const system = ['/bin', '/sbin', '/lib', '/lib64', '/lib32'].filter((path) => existsSync(path));
  const cache = ['/etc/ld.so.cache', '/etc/alternatives'].filter((path) => existsSync(path));
  return [
    findProgram('bwrap') ?? 'bwrap',
    ...['--unshare-all', '--die-with-parent', '--new-session', '--cap-drop', 'ALL'],
    ...['--hostname', 'notebook', '--proc', '/proc', '--dev', '/dev'],
    ...['--dir', '/tmp'],
    ...[...system, ...cache].flatMap((path) => ['--ro-bind', realpathSync(path), path]),
    ...readable.flatMap((path) => ['--ro-bind', path, path]),
    ...['--dir', places.cwd],
    ...[places.out, places.connectionFolder].flatMap((path) => ['--bind', path, path]),
    ...['--remount-ro', '/dev', '--remount-ro', '/'],
    ...(isFiltered ? ['--seccomp', '3'] : []),
    ...['--chdir', places.cwd, '--'],
  ];
}
