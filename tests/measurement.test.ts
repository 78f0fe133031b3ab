import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Measurement, SessionLook } from '../packages/halfmax/src/measure/index.js';

const root = fileURLToPath(new URL('../', import.meta.url));
const schema = JSON.parse(readFileSync(join(root, 'shared', 'measurement.schema.json'), 'utf8'));
const work = mkdtempSync(join(tmpdir(), 'halfmax-measurement-'));
afterAll(() => rmSync(work, { recursive: true, force: true }));

interface Run {
  readonly status: number | null;
  readonly printed: string;
  readonly errors: string;
  /** What was written, by file name. */
  readonly files: ReadonlyMap<string, string>;
}

const words = (out: string): string[] => [
  'measure',
  join(root, 'data-demo', 'session'),
  '--out',
  join(work, out),
];

function filesOf(out: string): Map<string, string> {
  return new Map(
    readdirSync(join(work, out)).map((name) => [name, readFileSync(join(work, out, name), 'utf8')]),
  );
}

/** Node on a program of the checkout. */
function run(...args: string[]): Omit<Run, 'files'> {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  return { status, printed: stdout, errors: stderr };
}

/** The built program on the demonstration session, with as many threads as it takes of itself where none are named. */
function measureBuilt(out: string, ...options: string[]): Run {
  const program = join('packages', 'halfmax', 'bin', 'halfmax.js');
  return { ...run(program, ...words(out), ...options), files: filesOf(out) };
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
  let first: Run;
  let measurement: Measurement;
  beforeAll(() => {
    first = measureBuilt('first');
    measurement = JSON.parse(first.files.get('measurement.json') ?? 'null');
  }, 120_000);

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

  it('judges by the default rule, says so, and by corrected numbers where there are any', () => {
    expect(measurement.decision).toMatchObject({
      rule: { kind: 'probability', probability: 0.95 },
      stated: false,
    });
    for (const { bands } of measurement.filters) {
      for (const { corrected, claims } of bands) {
        for (const { quantity, basis } of claims) {
          const own = corrected[quantity as keyof typeof corrected];
          expect(basis).toBe(own !== undefined && 'value' in own ? 'corrected' : 'measured');
        }
      }
    }
  });

  it('counts the rounding of a claimed "7 nm" in its deviation', () => {
    const twin = measurement.filters.find(({ id }) => id === 'brennick-twin')!;
    const { step, deviation } = twin.bands[0]!.claims.find(({ quantity }) => quantity === 'fwhmNm')!;
    expect(step).toBe(1);
    // JCGM 100:2008, 4.3.7: a rectangle of full width 1.
    expect('value' in deviation && deviation.standardUncertainty).toBeGreaterThan(1 / Math.sqrt(12));
  });

  it('quotes each band with the number that it reports', () => {
    for (const { label, bands } of measurement.filters) {
      for (const { asMeasured, corrected, quote, monteCarlo } of bands) {
        if (!('text' in quote)) throw new Error(quote.absent);
        const width = quote.basis === 'corrected' ? corrected.fwhmNm : asMeasured.fwhmNm;
        if (!('value' in width)) throw new Error(width.absent);
        const digit = quote.standardUncertainty / 10;
        expect(Math.abs(quote.value - width.value)).toBeLessThanOrEqual(digit);
        expect(quote.draws).toBe(monteCarlo.draws);
        expect(quote.text.startsWith(`${label}: FWHM (`)).toBe(true);
        expect(quote.text).toContain(` ${quote.value.toFixed(decimalsOf(quote.text))} nm with a standard`);
      }
    }
  });

  it('measures the star of each image, compares the filters on it, and names all files among the inputs', () => {
    const { halos, haloComparisons, provenance } = measurement;
    expect(halos.map(({ image }) => image)).toEqual([
      'stars/ossenvale-ha.fits',
      'stars/ossenvale-s2.fits',
      'stars/ossenvale-o3.fits',
    ]);
    const measured = halos.flatMap((halo) => ('absent' in halo ? [] : [halo]));
    expect(measured.map(({ disks }) => disks.length)).toEqual([1, 0, 2]);
    expect(measured.map(({ judgements }) => ('absent' in judgements ? 0 : judgements.length))).toEqual([
      1, 1, 2,
    ]);
    expect(haloComparisons).toHaveLength(1);
    const [comparison] = haloComparisons;
    expect(comparison !== undefined && 'disks' in comparison && comparison.disks.length).toBe(2);
    const files = provenance.inputs.map(({ file }) => file).filter((file) => file.startsWith('stars/'));
    expect(files).toEqual([
      'stars/ossenvale-ha-short.fits',
      'stars/ossenvale-ha.fits',
      'stars/ossenvale-o3.fits',
      'stars/ossenvale-s2-short.fits',
      'stars/ossenvale-s2.fits',
    ]);
    for (const title of ['Bright star through Ossenvale H-alpha 3', 'The filters on the bright star'])
      expect(first.printed).toContain(title);
  });

  it('lists shares of each budget from the largest down', () => {
    for (const { budget, budgets } of measurement.filters.flatMap(({ bands }) => bands)) {
      const sizes = budget.map(({ standardUncertaintyNm }) => standardUncertaintyNm);
      expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
      expect(budgets.fwhmNm.map(({ standardUncertainty }) => standardUncertainty)).toEqual(sizes);
      for (const shares of Object.values(budgets)) {
        const own = shares.map((share: { standardUncertainty: number }) => share.standardUncertainty);
        expect(own).toEqual([...own].sort((a, b) => b - a));
      }
    }
  });

  it('is what a first look has shown: the same numbers as measured, uncertainties of the same size', () => {
    const program = join('packages', 'halfmax', 'bin', 'halfmax.js');
    const { status, printed, errors } = run(program, 'look', join(root, 'data-demo', 'session'), '--json');
    expect([status, errors]).toEqual([0, '']);
    const look: SessionLook = JSON.parse(printed);
    expect(look.frames.rejected).toEqual(measurement.frames.rejected);
    expect(look.scale.residualRmsNm).toBeCloseTo(measurement.calibration.residualRmsNm, 12);
    const looked = look.filters.flatMap(({ bands }) => bands);
    const measured = measurement.filters.flatMap(({ bands }) => bands);
    expect(looked.map(({ target }) => target)).toEqual(measured.map(({ target }) => target));
    looked.forEach((band, k) => {
      const { asMeasured, lines } = measured[k]!;
      const pairs = [
        [band.fwhmNm, asMeasured.fwhmNm],
        [band.centreNm, asMeasured.centreNm],
        [band.peakTransmittance, asMeasured.peakTransmittance],
        ...band.lines.map(({ transmittance }, m) => [transmittance, lines[m]!.transmittance]),
      ];
      for (const [first, whole] of pairs) {
        if (!('value' in first!) || !('value' in whole!)) throw new Error('a number is absent');
        expect(first.value).toBeCloseTo(whole.value, 9);
        // To first order and without the lamp's flicker: no more than the Monte Carlo finds, and most of it.
        const share = first.standardUncertainty / whole.standardUncertainty;
        expect(share).toBeGreaterThan(0.8);
        expect(share).toBeLessThan(1.05);
      }
    });
  });

  it('gives the same bytes again, with and without threads, and prints the quotes when asked', {
    tags: ['long'],
  }, () => {
    const second = measureBuilt('second', '--threads', '1', '--quote');
    expect([...second.files.keys()]).toEqual([...first.files.keys()]);
    const different = [...first.files].filter(([name, text]) => second.files.get(name) !== text);
    expect(different.map(([name]) => name)).toEqual([]);

    const flat = (text: string): string => text.replace(/\s+/g, ' ');
    const texts = measurement.filters.flatMap(({ bands }) =>
      bands.map(({ quote }) => ('text' in quote ? quote.text : quote.absent)),
    );
    expect(texts.filter((text) => !flat(second.printed).includes(text))).toEqual([]);
    expect(texts.filter((text) => flat(first.printed).includes(text))).toEqual([]);
  });

  it('gives the picture and the table of the README', () => {
    const redraw = 'npm run demo && node data-demo/picture/draw.mjs && node data-demo/picture/table.mjs';
    const done = { status: 0, errors: '' };
    const picture = join(work, 'filters.svg');
    expect(run('data-demo/picture/draw.mjs', join(work, 'first'), picture)).toMatchObject(done);
    const isCurrent = readFileSync(picture).equals(readFileSync(join(root, 'data-demo/picture/filters.svg')));
    expect(isCurrent, `stale picture: ${redraw}`).toBe(true);
    const printed = join(work, 'printed.txt');
    writeFileSync(printed, first.printed);
    expect(run('data-demo/picture/table.mjs', '--check', '--printed', printed)).toMatchObject(done);
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
    ['no decision', ({ decision: _, ...m }) => m],
    ['an unknown rule', (m) => ({ ...m, decision: { ...m.decision, rule: { kind: 'lenient' } } })],
    ['no assumptions', ({ assumptions: _, ...m }) => m],
    [
      'a bare text for a quote',
      (m) => band(m, (b) => ({ ...b, quote: 'text' in b.quote ? b.quote.text : '' })),
    ],
    [
      'a quote without its interval',
      (m) => band(m, (b) => ({ ...b, quote: { ...b.quote, interval95: null } })),
    ],
    ['a step of 0', (m) => band(m, (b) => ({ ...b, claims: [{ ...b.claims[0]!, step: 0 }] }))],
    ['a claim on no basis', (m) => band(m, (b) => ({ ...b, claims: [{ ...b.claims[0]!, basis: 'guess' }] }))],
    ['no word on the correction', (m) => band(m, ({ correction: _, ...b }) => b)],
    [
      'a Monte Carlo without draws',
      (m) => band(m, (b) => ({ ...b, monteCarlo: { ...b.monteCarlo, draws: 0 } })),
    ],
    [
      'a negative share',
      (m) => band(m, (b) => ({ ...b, budget: [{ source: 'x', standardUncertaintyNm: -1 }] })),
    ],
    ['a line without its corrected number', (m) => band(m, (b) => ({ ...b, lines: [without(b.lines[0]!)] }))],
    ['no word on halos', ({ halos: _, ...m }) => m],
    ['a halo without its limits', (m) => ({ ...m, halos: [{ ...m.halos[0]!, limits: undefined }] })],
    ['a halo of a nameless filter', (m) => ({ ...m, halos: [{ ...m.halos[0]!, filter: '' }] })],
    [
      'a fourth verdict on a halo',
      (m) => ({
        ...m,
        halos: [{ ...m.halos[0]!, judgements: [{ verdict: 'shines', words: 'x', number: 1, limit: 1 }] }],
      }),
    ],
    [
      'a limit of no kind',
      (m) => ({ ...m, halos: [{ ...m.halos[0]!, tolerance: { kind: 'taste', atMost: 1 } }] }),
    ],
    ['a comparison of nothing', (m) => ({ ...m, haloComparisons: [{ star: null }] })],
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

/** Decimals of the number that a quote gives before its uncertainty. */
function decimalsOf(text: string): number {
  return /\.(\d+) nm with a standard/.exec(text)?.[1]?.length ?? 0;
}

function without({
  corrected: _,
  ...line
}: Measurement['filters'][number]['bands'][number]['lines'][number]): object {
  return line;
}

/** The measurement with the first band of its first filter changed. */
function band(
  m: Measurement,
  change: (b: Measurement['filters'][number]['bands'][number]) => unknown,
): unknown {
  const [filter, ...filters] = m.filters;
  const [first, ...bands] = filter!.bands;
  return { ...m, filters: [{ ...filter!, bands: [change(first!), ...bands] }, ...filters] };
}
