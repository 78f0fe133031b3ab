import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { inspectCommand } from './inspect.js';

const folder = mkdtempSync(join(tmpdir(), 'halfmax-inspect-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A Gaussian of 4 nm at 656.3 nm, peak 0.9, with a leak of 0.08 at 620 nm. */
function inspect(name: string, uncertainty: string, ...options: string[]): string {
  const rows = Array.from({ length: 1001 }, (_, i) => {
    const nm = 600 + 0.1 * i;
    const leak = 0.08 * 2 ** -(((nm - 620) / 1.5) ** 2);
    const t = 0.9 * 2 ** -(((nm - 656.3) / 2) ** 2) + leak;
    return `${nm.toFixed(1)},${t.toFixed(8)}${uncertainty}`;
  });
  const head = `wavelength_nm,transmittance${uncertainty === '' ? '' : ',standard_uncertainty'}`;
  const file = join(folder, name);
  writeFileSync(file, `${head}\n${rows.join('\n')}\n`);
  let text = '';
  const status = inspectCommand([file, ...options], {
    out: (more) => {
      text += more;
    },
    error: () => {},
    showsProgress: false,
  });
  expect(status).toBe(0);
  return text;
}

describe('halfmax inspect', () => {
  it('prints the numbers of the band, the blocking with its leak, and what the uncertainty leaves out', () => {
    const text = inspect('curve.csv', ',0.0005');
    expect(Number(/FWHM \/ nm +([\d.]+) ±/.exec(text)?.[1])).toBeCloseTo(4, 2);
    expect(text).toMatch(/^out of band, seen from 600 to 700 nm: mean optical density /m);
    const leak = /^ {2}leak at ([\d.]+) nm: transmittance ([\d.]+) ±/m.exec(text);
    expect(Number(leak?.[1])).toBeCloseTo(620, 0);
    expect(Number(leak?.[2])).toBeCloseTo(0.08, 2);
    // Both [N II] lines beside H-alpha, by the formula of the curve.
    const at = (name: string): number =>
      Number(new RegExp(`transmittance at ${name} +([\\d.]+) ±`).exec(text)?.[1]);
    expect(at('H-alpha')).toBeCloseTo(0.9, 3);
    expect(at('\\[N II\\] 654.8')).toBeCloseTo(0.9 * 2 ** -(((654.8 - 656.3) / 2) ** 2), 1);
    expect(at('\\[N II\\] 658.3')).toBeCloseTo(0.9 * 2 ** -(((658.35 - 656.3) / 2) ** 2), 1);
    expect(text).not.toContain('[O III]');
    expect(text).toMatch(/^ {2}blue side, 600 to 6\d\d nm: mean .*, worst 1\.\d\d* ± .* at 620\.\d nm$/m);
    expect(text).toContain('The uncertainty of the wavelengths is not in these numbers');
  });

  it('says that a table without uncertainty gives none', () => {
    const text = inspect('bare.csv', '');
    expect(text).toContain('the table gives no uncertainty, so none is stated');
    expect(text).not.toContain('A number after ±');
  });

  it('prints JSON when asked', () => {
    const { bands, outOfBand } = JSON.parse(inspect('again.csv', ',0.0005', '--json'));
    expect(bands).toHaveLength(1);
    expect(bands[0].lines.map(({ name }: { name: string }) => name)).toEqual([
      '[N II] 654.8',
      'H-alpha',
      '[N II] 658.3',
    ]);
    expect(outOfBand.leaks).toHaveLength(1);
  });
});
