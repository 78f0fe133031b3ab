/** What the runner tells a kernel before it starts. */
export interface KernelSettings {
  /** Seed of Math.random, 0 to 4294967295. */
  readonly seed: number;
  /** Time that the clock of the notebook shows: ISO, UTC. Left out: the moment the kernel starts. */
  readonly startedAt?: string;
  /** Inputs given from outside, by name. */
  readonly given: GivenInputs;
  /** Folder of the connection file, to be removed by a kernel whose parent has gone. */
  readonly temporary?: string;
  /** Whether a thread may watch the parent; else a timer does. */
  readonly watchThread: boolean;
  /** Whether helper files that change while the kernel runs are read again: for a person at work. */
  readonly watchFiles: boolean;
  /** Whether native code may be loaded from the folders of the packages alone. */
  readonly packagedAddonsOnly: boolean;
}

/** Inputs given from outside; what is left out keeps the default that the notebook states. */
export interface GivenInputs {
  readonly session?: string;
  readonly seed?: number;
  readonly draws?: number;
  readonly out?: string;
  readonly others: Readonly<Record<string, string>>;
}

/** Environment variable that carries the settings, as JSON; the kernel takes it out of its environment. */
export const SETTINGS_VARIABLE = 'HALFMAX_NOTEBOOK_KERNEL';

/** Settings where nobody gives any: a kernel that Jupyter starts. */
export const defaultSettings: KernelSettings = {
  seed: 1,
  given: { others: {} },
  watchThread: true,
  watchFiles: true,
  packagedAddonsOnly: false,
};

/** What a kernel keeps for the notebook that runs in it. */
export interface KernelWorld {
  readonly settings: KernelSettings;
  /** ISO, UTC. */
  readonly startedAt: string;
  /** Names a folder, so that files read below it are listed as `label:path`. */
  readonly nameFolder: (label: string, folder: string) => void;
  /** Inputs that the notebook asked for, by name. */
  readonly used: Map<string, { readonly value: string | number | boolean; readonly from: InputOrigin }>;
}

/** Where the value of an input comes from. */
export type InputOrigin = 'notebook' | 'command';

const WORLD = Symbol.for('halfmax-notebook.kernel');

/**
 * The world of the kernel that this code runs in.
 *
 * @returns the world, or null outside of our kernel: on a stock kernel or in plain Node
 */
export function kernelWorld(): KernelWorld | null {
  return ((globalThis as Record<symbol, unknown>)[WORLD] as KernelWorld | undefined) ?? null;
}

/** Sets the world: the launcher's business alone. */
export function setKernelWorld(world: KernelWorld): void {
  Object.defineProperty(globalThis, WORLD, { value: world });
}
