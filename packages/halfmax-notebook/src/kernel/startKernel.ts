import { type ChildProcess, spawn } from 'node:child_process';
import { closeSync, openSync, readdirSync, readFileSync, readlinkSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FenceCommand } from '../fence/index.js';
import { type PrivateConnection, privateConnection } from './connection.js';
import { type KernelClient, kernelClient } from './kernelClient.js';
import { type KernelSettings, SETTINGS_VARIABLE } from './kernelSettings.js';

/** How a kernel's process ended. */
export interface KernelEnd {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  /** The last of what the process itself wrote, not into a cell. */
  readonly said: string;
}

/** A kernel that runs. */
export interface RunningKernel {
  readonly client: KernelClient;
  /** Resolves when the process has ended, however it did. */
  readonly ended: Promise<KernelEnd>;
  /** Interrupts the cell that runs, as Ctrl-C does. */
  readonly interrupt: () => void;
  /** Asks the kernel to end, ends it if it does not, and removes all that it left. */
  readonly stop: () => Promise<void>;
}

const SAID_CHARACTERS = 4000;
const STOP_MS = 2000;

/** Kernels that run, to be ended whatever happens to this process. */
const running = new Set<() => void>();
let guards = false;

/**
 * Starts a kernel in a process group and a folder of its own, and waits until it answers.
 *
 * @param settings - of the kernel
 * @param command - makes the command line, fenced or not
 * @param startMs - most time that the start may take
 * @returns the kernel; stop it
 * @throws {Error} the kernel did not come up; nothing is left behind
 */
export async function startKernel(
  settings: KernelSettings,
  command: (connection: PrivateConnection, settings: string) => FenceCommand,
  startMs: number,
): Promise<RunningKernel> {
  const place = await privateConnection();
  const text = JSON.stringify({ ...settings, temporary: place.folder });
  let child: ChildProcess;
  let filterFile: number | null = null;
  try {
    const { program, args, cwd, env, filter } = command(place, text);
    if (filter !== null) filterFile = openWith(join(place.folder, 'filter'), filter);
    child = spawn(program, args, {
      cwd,
      env: { ...env, [SETTINGS_VARIABLE]: text },
      stdio: ['ignore', 'pipe', 'pipe', ...(filterFile === null ? [] : [filterFile])],
      detached: true,
    });
  } catch (fault) {
    rmSync(place.folder, { recursive: true, force: true });
    throw fault;
  } finally {
    if (filterFile !== null) closeSync(filterFile);
  }
  const clean = (): void => {
    endGroup(child.pid);
    endMarked(place.connection.key);
    rmSync(place.folder, { recursive: true, force: true });
  };
  running.add(clean);
  guardProcess();

  let said = '';
  const listen = (data: Buffer): void => {
    said = (said + data.toString('utf8')).slice(-SAID_CHARACTERS);
  };
  child.stdout?.on('data', listen);
  child.stderr?.on('data', listen);
  const ended = new Promise<KernelEnd>((resolve) => {
    child.once('error', (fault) => resolve({ code: null, signal: null, said: `${said}${fault.message}` }));
    child.once('close', (code, signal) => resolve({ code, signal, said }));
    // A grandchild may hold the pipes open: do not wait for it.
    child.once('exit', (code, signal) => setTimeout(() => resolve({ code, signal, said }), 200));
  });

  let broken = '';
  const client = kernelClient(place.connection, (fault) => {
    broken = fault instanceof Error ? fault.message : String(fault);
    endGroup(child.pid);
  });
  let isStopped = false;
  const stop = async (): Promise<void> => {
    if (isStopped) return;
    isStopped = true;
    if (child.exitCode === null && child.signalCode === null && broken === '') {
      void client.request('shutdown_request', { restart: false }, () => {}, 'control').catch(() => {});
      await within(ended, STOP_MS);
    }
    client.close();
    clean();
    await within(ended, STOP_MS);
    running.delete(clean);
  };
  const start = await Promise.race([
    client.ready().then(() => null),
    ended,
    new Promise<'slow'>((resolve) => setTimeout(resolve, startMs, 'slow').unref()),
  ]);
  if (start !== null) {
    await stop();
    const why =
      start === 'slow' ? `it did not answer within ${startMs / 1000} s` : `it ended: ${endText(start)}`;
    throw new Error(`the kernel did not start: ${why}`);
  }
  const interrupt = (): void => {
    const pid = nodePid(child.pid);
    if (pid !== null) quietly(() => process.kill(pid, 'SIGINT'));
  };
  return {
    client,
    ended: ended.then((end) => (broken === '' ? end : { ...end, said: broken })),
    interrupt,
    stop,
  };
}

function openWith(path: string, content: Uint8Array): number {
  writeFileSync(path, content, { mode: 0o600 });
  return openSync(path, 'r');
}

/**
 * How a process ended, in words.
 *
 * @param end - code, signal and last words
 * @returns without a full stop
 */
export function endText({ code, signal, said }: KernelEnd): string {
  const how = signal !== null ? `signal ${signal}` : `exit code ${code}`;
  const words = said.trim().split('\n').slice(-3).join(' / ');
  return words === '' ? how : `${how}, last words: ${words}`;
}

/** Ends whatever still runs, at once: for the very end of this process. */
export function endAllKernels(): void {
  for (const clean of running) quietly(clean);
  running.clear();
}

function guardProcess(): void {
  if (guards) return;
  guards = true;
  process.on('exit', endAllKernels);
}

function endGroup(pid: number | undefined): void {
  if (pid !== undefined) quietly(() => process.kill(-pid, 'SIGKILL'));
}

/** Ends processes that a notebook started and took out of the group: they still carry the kernel's mark. */
function endMarked(key: string): void {
  if (process.platform !== 'linux') return;
  const mark = `${MARK_VARIABLE}=${key.slice(0, MARK_LENGTH)}`;
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name) || Number(name) === process.pid) continue;
    quietly(() => {
      if (readFileSync(`/proc/${name}/environ`, 'latin1').includes(mark))
        process.kill(Number(name), 'SIGKILL');
    });
  }
}

/** Environment variable that marks a kernel and all that it starts. */
export const MARK_VARIABLE = 'HALFMAX_NOTEBOOK_MARK';

/** How much of the key the mark shows: too little to sign with. */
const MARK_LENGTH = 16;

/**
 * The mark of a kernel and all that it starts.
 *
 * @param place - its connection
 * @returns name and value for the environment
 */
export function markOf({ connection }: PrivateConnection): Record<string, string> {
  return { [MARK_VARIABLE]: connection.key.slice(0, MARK_LENGTH) };
}

/** The process that is Node itself: below a fence it is a child of what was started. */
function nodePid(pid: number | undefined): number | null {
  if (pid === undefined) return null;
  if (process.platform !== 'linux') return pid;
  const waiting = [pid];
  for (let at = waiting.shift(); at !== undefined; at = waiting.shift()) {
    try {
      if (readlinkSync(`/proc/${at}/exe`) === readlinkSync('/proc/self/exe')) return at;
      const children = readFileSync(`/proc/${at}/task/${at}/children`, 'utf8').trim();
      if (children !== '') waiting.push(...children.split(' ').map(Number));
    } catch {
      // It ended meanwhile, or belongs to somebody else.
    }
  }
  return null;
}

async function within(promise: Promise<unknown>, ms: number): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  await Promise.race([
    promise,
    new Promise((resolve) => {
      timer = setTimeout(resolve, ms);
    }),
  ]);
  clearTimeout(timer);
}

function quietly(step: () => void): void {
  try {
    step();
  } catch {
    // It is gone already, which is what was wanted.
  }
}
