import { availableParallelism } from 'node:os';
import { configDefaults, defineConfig } from 'vitest/config';
import { LongestFirst } from './tests/longestFirst.js';

/** Replace modules of Node, or put stand-ins for loaded ones: each needs a process of its own. */
const replacing = [
  'packages/halfmax/src/session/writeResult.rollback.test.ts',
  'tests/notebook-show/emit.test.ts',
];

/** Runs tests by their tags; heeded in a file as on the command line, though the type of a file's options lacks it. */
export function only(tags: string): object {
  return { tagsFilter: [tags] };
}

export default defineConfig({
  test: {
    // One worker per core: left alone, vitest keeps one core free.
    maxWorkers: availableParallelism(),
    // Time is no test: wide enough for a busy machine.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'forks',
    // Built files are loaded as Node loads them, not made over for the tests.
    server: { deps: { external: [/\/packages\/[^/]+\/dist\//] } },
    sequence: { sequencer: LongestFirst },
    // Tests that need minutes together are marked so and left to tests/further/long/check.mjs.
    tags: [{ name: 'long', description: 'run by .ci/run alone', timeout: 180_000 }],
    ...only('!long'),
    projects: [
      { extends: true, test: { name: 'alone', include: replacing } },
      {
        extends: true,
        // The others share their processes: what they import is loaded once.
        test: {
          name: 'together',
          include: ['packages/*/src/**/*.test.ts', 'tests/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...replacing],
          isolate: false,
        },
      },
    ],
  },
});
