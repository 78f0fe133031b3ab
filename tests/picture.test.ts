import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const out = mkdtempSync(join(tmpdir(), 'halfmax-picture-'));
const redraw = 'npm run demo && node data-demo/picture/draw.mjs && node data-demo/picture/table.mjs';

afterAll(() => {
  rmSync(out, { recursive: true, force: true });
});

function run(...args: string[]): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  return stdout;
}

it('the picture and the table of the README are those of the demonstration, measured anew', () => {
  const measured = join(out, 'measured');
  run('packages/halfmax/bin/halfmax.js', 'measure', 'data-demo/session', '--out', measured);
  run('data-demo/picture/draw.mjs', measured, join(out, 'filters.svg'));
  const committed = readFileSync(join(root, 'data-demo/picture/filters.svg'));
  const isCurrent = readFileSync(join(out, 'filters.svg')).equals(committed);
  expect(isCurrent, `stale picture: ${redraw}`).toBe(true);
  run('data-demo/picture/table.mjs', '--check');
}, 60_000);
