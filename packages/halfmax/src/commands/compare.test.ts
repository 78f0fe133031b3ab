import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BadInputError } from '../errors.js';
import { quantity } from '../metrics/index.js';
import { compareCommand } from './compare.js';

let folder: string;

/** A measurement as far as the comparison reads it: one H-alpha filter of a width. */
function write(
  name: string,
  filters: readonly { id: string; widthNm: number; price: unknown }[],
  extra = {},
): string {
  const list = filters.map(({ id, widthNm, price }) => {
    const rows = Array.from({ length: 1600 }, (_, i) => {
      const at = 390 + 0.2 * i;
      return `${at.toFixed(2)},${(0.9 / (1 + ((2 * (at - 656.5)) / widthNm) ** 6)).toFixed(6)},0.002`;
    });
    writeFileSync(
      join(folder, `curve-${id}.csv`),
      `wavelength_nm,transmittance,standard_uncertainty\n${rows.join('\n')}\n`,
    );
    const asMeasured = { centreNm: quantity(656.5, 0.02), peakTransmittance: quantity(0.9, 0.003) };
    const band = { target: ['H-alpha'], asMeasured, quote: { absent: 'no' } };
    return { id, label: `Filter, ${id}`, curveFile: `curve-${id}.csv`, bands: [band], price };
  });
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify({ format: 'halfmax-measurement/1', filters: list, ...extra }));
  return path;
}

async function run(...args: string[]): Promise<string> {
  let text = '';
  await compareCommand(args, { out: (part) => (text += part), error: () => {}, showsProgress: false });
  return text;
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'compare-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('halfmax compare', () => {
  const conditions = {
    site: { skyBrightness: 18.5, nightHours: 6 },
    beam: { fNumber: 6, effectiveIndex: 2 },
  };
  const price = { amount: 200, currency: 'CHF' };

  it('ranks the filters of two measurements, as text, CSV and JSON', async () => {
    const one = write('one.json', [{ id: 'wide', widthNm: 12, price }], { conditions });
    const two = write('two.json', [{ id: 'narrow', widthNm: 6, price: null }]);
    const text = await run(one, two, '--draws', '1000');
    expect(text).toContain('Sky of V 18.50');
    expect(text).toContain('f/6');
    expect(text.indexOf('Filter, narrow')).toBeLessThan(text.indexOf('Filter, wide'));
    expect(text).toMatch(/CHF/);
    expect(text).toContain('no price is stated');

    const csv = (await run(one, two, '--draws', '1000', '--csv')).trimEnd().split('\n');
    expect(csv).toHaveLength(3);
    const columns = csv[0]!.split(',').length;
    expect(csv[1]).toContain('"Filter, narrow"');
    for (const row of csv.slice(1)) expect(row.replace(/"[^"]*"/g, '').split(',')).toHaveLength(columns);

    const json = JSON.parse(await run(one, two, '--draws', '1000', '--json'));
    expect(json.format).toBe('halfmax-comparison/1');
    expect(json.lines[0].filters.map(({ id }: { id: string }) => id)).toEqual(['narrow', 'wide']);
    expect(json.nightHours).toBe(6);
  });

  it('says that a measurement does not hold the measured sky it names', async () => {
    const site = { ...conditions.site, spectrum: { file: 'sky.csv', unit: 'relative photons' } };
    const one = write('sky.json', [{ id: 'wide', widthNm: 12, price }], { conditions: { site } });
    expect((await run(one, '--draws', '1000')).replace(/\s+/g, ' ')).toContain(
      'a measurement does not hold the measured one (sky.csv): name the session folder',
    );
  });

  it.each([
    [[], 'nothing to compare'],
    [['nowhere'], 'does not exist'],
    [['x', '--csv', '--json'], 'does not go with'],
    [['x', '--draws', '10'], 'whole number from 1000'],
  ])('refuses %j', async (args, message) => {
    await expect(run(...args)).rejects.toThrow(BadInputError);
    await expect(run(...args)).rejects.toThrow(message);
  });

  it('refuses what is no measurement, and conditions that cannot be', async () => {
    const other = join(folder, 'other.json');
    writeFileSync(other, '{"format": "something/1"}');
    await expect(run(other)).rejects.toThrow('is not halfmax-measurement/1');
    writeFileSync(other, '{"format": "halfmax-measurement/1", "filters": [{}]}');
    await expect(run(other)).rejects.toThrow('are not as halfmax measure writes them');
    const lamp = { site: { lightSources: [{ source: 'candle', share: 1 }] } };
    const bad = write('bad.json', [{ id: 'wide', widthNm: 12, price: null }], { conditions: lamp });
    await expect(run(bad)).rejects.toThrow(
      'site.lightSources[0].source: "candle" is not a known light source',
    );
    const fast = write('fast.json', [{ id: 'wide', widthNm: 12, price: null }], {
      conditions: { beam: { fNumber: 0.2, effectiveIndex: [2, 1] } },
    });
    await expect(run(fast)).rejects.toThrow('the wrong way round');
    await expect(run(fast)).rejects.toThrow('f/0.2');
  });
});
