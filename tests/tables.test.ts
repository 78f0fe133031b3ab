import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

it('the tables and schemas in the package are those of shared/, made anew', () => {
  const script = fileURLToPath(new URL('../packages/halfmax/scripts/generate-tables.mjs', import.meta.url));
  const { status, stderr } = spawnSync(process.execPath, [script, '--check'], { encoding: 'utf8' });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
});
