import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from '../../packages/halfmax/src/cli.js';

const demo = fileURLToPath(new URL('../../data-demo/session', import.meta.url));
const work = mkdtempSync(join(tmpdir(), 'halfmax-bad-bench-'));
afterAll(() => rmSync(work, { recursive: true, force: true }));

interface Manifest {
  stars?: unknown;
  detector: { saturationCounts: number };
  frames: { role: string; lamp?: string; filter?: string; files: string[] }[];
}

/** The demonstration session with a fault of the bench in it, measured. */
async function measure(change: (manifest: Manifest, folder: string) => void): Promise<{
  code: number | null;
  errors: string[];
  written: string[];
}> {
  const folder = mkdtempSync(join(work, 'session-'));
  cpSync(demo, folder, { recursive: true });
  const path = join(folder, 'session.json');
  const manifest = JSON.parse(readFileSync(path, 'utf8')) as Manifest;
  delete manifest.stars;
  change(manifest, folder);
  writeFileSync(path, JSON.stringify(manifest));
  const out = mkdtempSync(join(work, 'out-'));
  let errors = '';
  const code = await main(['measure', folder, '--out', out, '--threads', '1', '--draws', '1000'], {
    out: () => {},
    error: (text) => {
      errors += text;
    },
    showsProgress: false,
  });
  return { code, errors: errors.trimEnd().split('\n'), written: readdirSync(out) };
}

describe('halfmax measure refuses a real session', () => {
  it('whose lamps have exchanged labels, and says what they fit', async () => {
    const { code, errors, written } = await measure(({ frames }) => {
      for (const entry of frames) {
        if (entry.lamp !== undefined) entry.lamp = entry.lamp === 'Ne' ? 'Hg-Ar' : 'Ne';
      }
    });
    expect([code, errors.length, written]).toEqual([2, 1, []]);
    expect(errors[0]).toMatch(/^session\.json: frames\[4\].*\("Ne"\) fit a Hg-Ar lamp.*: correct the label$/);
  });

  it('whose scans are saturated everywhere, entry by entry', async () => {
    const { code, errors, written } = await measure((manifest) => {
      manifest.detector.saturationCounts = 10;
    });
    expect([code, written]).toEqual([2, []]);
    expect(errors.length).toBeGreaterThan(3);
    for (const line of errors)
      expect(line).toMatch(/: frames\[\d+\]: every pixel of every frame is saturated; take the scan again/);
  });

  it('with an empty frame file', async () => {
    const { code, errors, written } = await measure(({ frames }, folder) => {
      const open = frames.find(({ role }) => role === 'open')!;
      writeFileSync(join(folder, open.files[0]!), '');
    });
    expect([code, errors, written]).toEqual([2, ['scans/open-1.csv: is empty; copy or write it again'], []]);
  });
});
