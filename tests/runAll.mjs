// What `npm test` does after the build: style and types beside the tests, since each leaves a core free at times.
import { spawn } from 'node:child_process';

const node = (...args) =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, args, { stdio: 'inherit' });
    child.on('error', () => resolve(1));
    child.on('close', (code) => resolve(code ?? 1));
  });

const codes = await Promise.all([
  node('node_modules/@biomejs/biome/bin/biome', 'check', '.').then(async (style) => {
    const types = await node('node_modules/typescript/bin/tsc', '-p', 'tsconfig.test.json');
    return style || types;
  }),
  node('node_modules/vitest/vitest.mjs', 'run'),
]);
process.exitCode = codes.find((code) => code !== 0) ?? 0;
