import type { GivenInputs } from '../kernel/index.js';
import type { Notebook } from '../notebook/index.js';

/** What an executed notebook says it was run with, as far as that can be given again. */
export interface RecordedRun {
  readonly given: GivenInputs;
  readonly seed?: number;
  readonly startedAt?: string;
}

/**
 * What a notebook says it was run with. The session's folder is not among it: its path is not written down.
 *
 * @param notebook - executed by `rerun`, or not
 * @returns inputs, seed and clock, or null where it says nothing
 */
export function recordedRun({ metadata }: Notebook): RecordedRun | null {
  const run = metadata['halfmax'] as
    | { inputs?: Record<string, { value?: unknown; from?: unknown }>; randomSeed?: unknown; clock?: unknown }
    | undefined;
  if (typeof run !== 'object' || run === null) return null;
  const given = Object.entries(run.inputs ?? {}).filter(([, input]) => input?.from === 'command');
  const number = (name: string): number | undefined => {
    const value = given.find(([key]) => key === name)?.[1].value;
    return typeof value === 'number' ? value : undefined;
  };
  const seed = number('seed');
  const draws = number('draws');
  const others = given.filter(([name]) => !['session', 'seed', 'draws', 'out'].includes(name));
  return {
    given: {
      ...(seed === undefined ? {} : { seed }),
      ...(draws === undefined ? {} : { draws }),
      others: Object.fromEntries(others.map(([name, { value }]) => [name, String(value)])),
    },
    ...(typeof run.randomSeed === 'number' ? { seed: run.randomSeed } : {}),
    ...(typeof run.clock === 'string' ? { startedAt: run.clock } : {}),
  };
}
