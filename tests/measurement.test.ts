import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../packages/halfmax/src/cli.js';
import type { Measurement } from '../packages/halfmax/src/index.js';

const root = fileURLToPath(new URL('../', import.meta.url));
const schema = JSON.parse(readFileSync(join(root, 'shared', 'measurement.schema.json'), 'utf8'));
const work = mkdtempSync(join(tmpdir(), 'halfmax-measurement-'));
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** The command line on the demonstration session; what it wrote, by file name. */
async function measureDemo(
  out: string,
): Promise<{ status: number; errors: string; files: Map<string, string> }> {
  let errors = '';
  const status = await main(['measure', join(root, 'data-demo', 'session'), '--out', join(work, out)], {
    out: () => {},
    error: (text) => {
      errors += text;
    },
    showsProgress: false,
  });
  const files = readdirSync(join(work, out)).map(
    (name) => [name, readFileSync(join(work, out, name), 'utf8')] as const,
  );
  return { status, errors, files: new Map(files) };
}

/** The schema with every object closed: a field that it does not describe is refused. */
function closed(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(closed);
  if (node === null || typeof node !== 'object') return node;
  const copy = Object.fromEntries(Object.entries(node).map(([key, value]) => [key, closed(value)]));
  return 'properties' in copy && copy['type'] === 'object' ? { ...copy, additionalProperties: false } : copy;
}

const ajv = new Ajv({
  allErrors: true,
  strict: true,
  strictTypes: false,
  strictTuples: false,
  strictRequired: false,
});
const open = ajv.compile(schema);
const shut = ajv.compile({ ...(closed(schema) as object), $id: 'closed' });

function faultsOf(validate: typeof open, value: unknown): string[] {
  return validate(value)
    ? []
    : (validate.errors ?? []).map((fault) => `${fault.instancePath} ${fault.message}`);
}

describe('halfmax measure on the demonstration session', () => {
  let first: Awaited<ReturnType<typeof measureDemo>>;
  let measurement: Measurement;
  beforeAll(async () => {
    first = await measureDemo('first');
    measurement = JSON.parse(first.files.get('measurement.json') ?? 'null');
  });

  it('ends well and says nothing on standard error', () => {
    expect([first.status, first.errors]).toEqual([0, '']);
  });

  it('writes what the schema describes, and nothing that it does not', () => {
    expect(faultsOf(open, measurement)).toEqual([]);
    expect(faultsOf(shut, measurement)).toEqual([]);
  });

  it('gives intervals around their values and one curve per filter', () => {
    const outside: string[] = [];
    JSON.stringify(measurement, (key, value) => {
      if (value !== null && typeof value === 'object' && 'interval95' in value) {
        const [low, high] = value.interval95;
        if (!(low <= value.value && value.value <= high))
          outside.push(`${key}: ${value.value} in ${low}, ${high}`);
      }
      return value;
    });
    expect(outside).toEqual([]);
    const named = measurement.filters.map((filter) => filter.curveFile).filter((file) => file !== null);
    expect(named.length).toBe(4);
    expect([...first.files.keys()].sort()).toEqual([...named, 'measurement.json'].sort());
  });

  it('writes the curves as wavelength_nm, transmittance, standard_uncertainty', () => {
    for (const { curveFile } of measurement.filters) {
      const [head, ...rows] = first.files.get(curveFile!)!.split('\n');
      expect(head).toBe('wavelength_nm,transmittance,standard_uncertainty');
      expect(rows.pop()).toBe('');
      const table = rows.map((row) => row.split(',').map(Number));
      const bad = table.filter((row, i) => {
        const rises = i === 0 || row[0]! > table[i - 1]![0]!;
        return !(row.length === 3 && row.every(Number.isFinite) && row[2]! >= 0 && rises);
      });
      expect(bad).toEqual([]);
      const [from, to] = measurement.calibration.rangeNm;
      expect(table.length).toBeGreaterThan(1000);
      expect(table[0]![0]!).toBeGreaterThanOrEqual(from - 1e-6);
      expect(table.at(-1)![0]!).toBeLessThanOrEqual(to + 1e-6);
    }
  });

  it('gives the same bytes again', async () => {
    const second = await measureDemo('second');
    expect([...second.files.keys()]).toEqual([...first.files.keys()]);
    const different = [...first.files].filter(([name, text]) => second.files.get(name) !== text);
    expect(different.map(([name]) => name)).toEqual([]);
  });

  it.each([
    ['another format', (m) => ({ ...m, format: 'halfmax-measurement/2' })],
    ['no warnings', ({ warnings: _, ...m }) => m],
    ['a null for a number', (m) => band(m, (b) => ({ ...b, asMeasured: { ...b.asMeasured, fwhmNm: null } }))],
    ['a bare number', (m) => band(m, (b) => ({ ...b, asMeasured: { ...b.asMeasured, fwhmNm: 3.2 } }))],
    [
      'a value without uncertainty',
      (m) => band(m, (b) => ({ ...b, corrected: { ...b.corrected, fwhmNm: { value: 3 } } })),
    ],
    [
      'a negative uncertainty',
      (m) => band(m, (b) => ({ ...b, lineSpreadNm: { value: 1, standardUncertainty: -1 } })),
    ],
    ['a number left out', (m) => band(m, (b) => ({ ...b, asMeasured: { fwhmNm: b.asMeasured.fwhmNm } }))],
    [
      'a fifth word for a verdict',
      (m) => band(m, (b) => ({ ...b, claims: [{ ...b.claims[0]!, verdict: 'passed' }] })),
    ],
    [
      'a probability of 2',
      (m) => band(m, (b) => ({ ...b, claims: [{ ...b.claims[0]!, probabilityMet: 2 }] })),
    ],
    ['no calibration lines', (m) => ({ ...m, calibration: { ...m.calibration, lines: [] } })],
    [
      'a broken fingerprint',
      (m) => ({ ...m, provenance: { ...m.provenance, inputs: [{ file: 'a', sha256: 'b' }] } }),
    ],
  ] satisfies [string, (m: Measurement) => unknown][])('the schema refuses %s', (_, change) => {
    expect(faultsOf(open, change(measurement))).not.toEqual([]);
  });

  it('the closed schema refuses a field that it does not describe', () => {
    expect(
      faultsOf(
        shut,
        band(measurement, (b) => ({ ...b, more: 1 })),
      ),
    ).not.toEqual([]);
  });
});

/** The measurement with the first band of its first filter changed. */
function band(
  m: Measurement,
  change: (b: Measurement['filters'][number]['bands'][number]) => unknown,
): unknown {
  const [filter, ...filters] = m.filters;
  const [first, ...bands] = filter!.bands;
  return { ...m, filters: [{ ...filter!, bands: [change(first!), ...bands] }, ...filters] };
}
