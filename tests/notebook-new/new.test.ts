import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from '../../packages/halfmax/src/cli.js';
import { BadInputError } from '../../packages/halfmax/src/errors.js';
import { readSession } from '../../packages/halfmax/src/session/index.js';
import { newCommand } from '../../packages/halfmax-notebook/src/commands/new.js';
import type { Person } from '../../packages/halfmax-notebook/src/commands/newPerson.js';
import { readNotebook } from '../../packages/halfmax-notebook/src/notebook/index.js';
import {
  exposureFromFile,
  exposureFromName,
  filePatterns,
  guessFromName,
  linesFromId,
  sessionDraft,
  surveyFolder,
} from '../../packages/halfmax-notebook/src/template/index.js';

const root = mkdtempSync(join(tmpdir(), 'halfmax-new-'));
const demo = fileURLToPath(new URL('../../data-demo/session/', import.meta.url));
afterAll(() => rmSync(root, { recursive: true, force: true }));

interface Manifest {
  readonly detector: { readonly pixels: unknown; readonly saturationCounts: unknown };
  readonly filters: readonly { readonly id: string; readonly lines: readonly string[] }[];
  readonly frames: readonly Readonly<Record<string, unknown>>[];
}

/** A folder with small frames; the content tells nothing but the count of pixels, unless given. */
function folderWith(name: string, files: readonly string[], content?: string): string {
  const folder = join(root, name);
  files.forEach((file, k) => {
    mkdirSync(join(folder, file, '..'), { recursive: true });
    const rows = Array.from({ length: 32 }, (_, i) => `${i},${100 + ((i * 7 + k) % 13)}`);
    writeFileSync(join(folder, file), content ?? `pixel,counts\n${rows.join('\n')}\n`);
  });
  mkdirSync(folder, { recursive: true });
  return folder;
}

/** Runs the command; a person answers by the first pattern that fits the question. */
async function run(args: readonly string[], answers: readonly [RegExp, string][] | null = null) {
  let out = '';
  const asked: string[] = [];
  const person: Person | null =
    answers === null
      ? null
      : {
          ask: async (question) => {
            asked.push(question);
            return answers.find(([form]) => form.test(question))?.[1] ?? '';
          },
          leave: () => asked.push('left'),
        };
  const terminal = {
    out: (text: string): void => {
      out += text;
    },
    error: () => {},
    showsProgress: false,
  };
  const code = await newCommand(args, terminal, person);
  return { code, out, asked };
}

const manifestIn = (folder: string): Manifest =>
  JSON.parse(readFileSync(join(folder, 'session.json'), 'utf8'));

describe('names of frame files', () => {
  it.each([
    ['dark-300ms-01', 300],
    ['dark_0.3s_01', 300],
    ['dark-0,25s', 250],
    ['lamp 20 ms 3', 20],
    ['open-2s', 2000],
    ['scan-500us', 0.5],
    ['ossenvale-s2-01', null],
    ['frames-01', null],
    ['dark-0ms', null],
  ])('%s: exposure %s ms', (name, exposureMs) => {
    expect(exposureFromName(name)?.exposureMs ?? null).toBe(exposureMs);
  });

  it.each([
    ['darks/dark-30ms-01.csv', { role: 'dark', lamp: null, filter: null, exposureMs: 30 }],
    ['DARK_0.3s_7.FITS', { role: 'dark', lamp: null, filter: null, exposureMs: 300 }],
    ['lamps/lamp-hg-ar-600ms-01.tsv', { role: 'lamp', lamp: 'Hg-Ar', filter: null, exposureMs: 600 }],
    ['lamps/neon-30ms-2.txt', { role: 'lamp', lamp: 'Ne', filter: null, exposureMs: 30 }],
    ['HgAr_60ms.csv', { role: 'lamp', lamp: 'Hg-Ar', filter: null, exposureMs: 60 }],
    ['lamps/first-30ms.csv', { role: 'lamp', lamp: null, filter: null, exposureMs: 30 }],
    ['scans/open-1.csv', { role: 'open', lamp: null, filter: null, exposureMs: null }],
    ['scans/no-filter-60ms-1.csv', { role: 'open', lamp: null, filter: null, exposureMs: 60 }],
    [
      'scans/filtered-ossenvale-ha-60ms-03.tsv',
      { role: 'filtered', lamp: null, filter: 'ossenvale-ha', exposureMs: 60 },
    ],
    [
      'filtered/60ms/brennick_o3_1.csv',
      { role: 'filtered', lamp: null, filter: 'brennick-o3', exposureMs: 60 },
    ],
    ['curve.csv', { role: null, lamp: null, filter: null, exposureMs: null }],
  ])('%s', (path, expected) => {
    expect(guessFromName(path)).toMatchObject(expected);
  });

  it('join files that differ in their running number alone', () => {
    const stems = ['a/dark-30ms-01.csv', 'a/dark-30ms-12.csv', 'a/dark-60ms-01.csv', 'b/dark-30ms-01.csv'];
    expect(stems.map((path) => guessFromName(path).stem)).toEqual([
      'a/dark-30ms',
      'a/dark-30ms',
      'a/dark-60ms',
      'b/dark-30ms',
    ]);
    expect(guessFromName('dark-0.3s.csv').stem).not.toBe(guessFromName('dark-0.6s.csv').stem);
  });

  it.each([
    ['ossenvale-ha', ['H-alpha']],
    ['x-h-beta-8', ['H-beta']],
    ['ossenvale-s2', ['[S II] 671.6', '[S II] 673.1']],
    ['brennick-o3-7', ['[O III] 500.7']],
    ['brennick-twin', null],
    ['7', null],
  ])('%s: lines %j', (id, lines) => {
    expect(linesFromId(id)).toEqual(lines);
  });

  it('a pattern takes in no other file', () => {
    const all = ['s/ha-1.csv', 's/ha-2.csv', 's/ha-x.csv', 's/o3-1.csv', 's/o3-2.csv', 's/o3-3.fits'];
    expect(filePatterns(all.slice(0, 2), all)).toEqual(['s/ha-1.csv', 's/ha-2.csv']);
    expect(filePatterns(all.slice(3), all)).toEqual(['s/o3-*.csv', 's/o3-3.fits']);
  });
});

describe('exposure in a file', () => {
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  it.each([
    ['Exposure;30,0;ms\npixel;counts\n0;1', 30],
    ['Integration time (ms)\t600\n373.61\t977', 600],
    ['# exposure: 1.5 s\n0 1', 1500],
    ['# exposure: 20\n0 1', null],
    ['pixel,counts\n0,600', null],
  ])('%j: %s ms', (text, expected) => {
    expect(exposureFromFile(bytes(text), 'a.csv')).toBe(expected);
  });
});

describe('halfmax-notebook new', () => {
  it('writes a session that halfmax measure takes, from frames with good names', async () => {
    const folder = join(root, 'grimsdale');
    for (const part of ['darks', 'lamps', 'scans'])
      cpSync(join(demo, part), join(folder, part), {
        recursive: true,
        // One of the filters is enough.
        filter: (path) => !/ossenvale-(?:s2|o3)|open-\d|brennick/.test(path),
      });
    for (const k of [1, 2, 3])
      cpSync(join(demo, `scans/open-${k}.csv`), join(folder, `scans/open-60ms-${k}.csv`));
    const { code, out, asked } = await run(
      [folder],
      [
        [/not to be trusted/, '61500'],
        [/^Day on which/, '2025-03-14'],
        [/^Title/, 'One filter'],
        [/^Name of the filter/, 'Ossenvale H-alpha 3'],
        [/data sheet/, 'yes'],
        [/Centre/, '656.3 -0.3 +0.5'],
        [/FWHM/, '3 ± 0,4 nm'],
        [/Peak/, 'at least 88 %'],
        [/at the line/, 'at least 0.85'],
        [/Blocking/, 'at least 4 from 400 to 630'],
        [/Price/, '349 eur'],
      ],
    );
    expect(code).toBe(0);
    // Each of the eleven is asked once; then the person is let go.
    expect(asked).toHaveLength(12);
    expect(asked.at(-1)).toBe('left');
    expect(out).not.toContain('TODO');
    expect(out).toContain('takenAt');
    expect(readFileSync(join(folder, 'grimsdale.ipynb'), 'utf8')).toContain('# One filter');
    const { detector, filters, frames } = manifestIn(folder);
    expect(detector).toEqual({ pixels: 2048, saturationCounts: 61500 });
    // As the demonstration's own session.json has it, which was written by hand.
    const own = JSON.parse(readFileSync(join(demo, 'session.json'), 'utf8'));
    expect(filters).toEqual([own.filters.find(({ id }: { id: string }) => id === 'ossenvale-ha')]);
    expect(manifestIn(folder)).toMatchObject({ recorded: own.recorded, title: 'One filter' });
    expect(frames.map(({ role }) => role)).toEqual([
      ...Array(4).fill('dark'),
      ...Array(4).fill('lamp'),
      ...Array(3).fill('open'),
      ...Array(2).fill('filtered'),
    ]);
    expect(frames[0]).toEqual({ role: 'dark', exposureMs: 30, files: ['darks/dark-30ms-*.csv'] });

    const results = join(root, 'results');
    const texts: string[] = [];
    const terminal = {
      out: (text: string) => void texts.push(text),
      error: (text: string) => void texts.push(text),
      showsProgress: false,
    };
    expect([await main(['measure', folder, '--out', results, '--draws', '1000'], terminal), texts]).toEqual([
      0,
      texts,
    ]);
    const { filters: measured } = JSON.parse(readFileSync(join(results, 'measurement.json'), 'utf8'));
    // The generator's own record of the demonstration: the band's centre, made without any measurement.
    const truth = JSON.parse(
      readFileSync(fileURLToPath(new URL('../../data-demo/truth.json', import.meta.url)), 'utf8'),
    );
    const centre = truth.filters.find(({ id }: { id: string }) => id === 'ossenvale-ha').bands[0].asMeasured
      .centreNm;
    const found = measured.find(({ id }: { id: string }) => id === 'ossenvale-ha').bands[0].asMeasured
      .centreNm;
    expect(Math.abs(found.value - centre)).toBeLessThan(4 * found.standardUncertainty);
    expect(measured[0].bands[0].claims.map(({ quantity }: { quantity: string }) => quantity).sort()).toEqual([
      'centreNm',
      'fwhmNm',
      'opticalDensity 400 to 630 nm',
      'peakTransmittance',
      'transmittanceAtLine',
    ]);
  }, 180_000);

  it('leaves open what nobody tells, and measure refuses each by its place', async () => {
    const folder = folderWith('open-ends', [
      'dark-1.csv',
      'dark-2.csv',
      'lamp-1-30ms.csv',
      'open-30ms-1.csv',
      'filtered-twin-30ms.csv',
      'thing-30ms.csv',
    ]);
    const { code, out } = await run([folder]);
    expect(code).toBe(0);
    const { detector, filters, frames } = manifestIn(folder);
    expect(detector.pixels).toBe(32);
    expect(String(detector.saturationCounts)).toMatch(/^TODO: .*highest in the files looked at: 11\d/);
    expect(filters[0]!.lines[0]).toMatch(/^TODO/);
    expect(frames.at(-1)!['role']).toMatch(/^TODO/);
    let problems: readonly { place: string; what: string }[] = [];
    try {
      readSession(folder);
    } catch (fault) {
      expect(fault).toBeInstanceOf(BadInputError);
      ({ problems } = fault as BadInputError);
    }
    const places = [
      'detector.saturationCounts',
      'filters[0].lines[0]',
      'frames[0].exposureMs',
      'frames[1].lamp',
      'frames[4].role',
    ];
    for (const place of places) {
      expect(problems.find((one) => one.place === place)?.what, place).toContain('TODO');
      expect(out).toContain(`${place.replace('.lines[0]', '.lines')}: `);
    }
  });

  it('asks for each of them, again after an answer that cannot be', async () => {
    const folder = folderWith('asked', ['dark-1.csv', 'thing-30ms.csv', 'lamp-x-20ms.csv']);
    const { asked } = await run(
      [folder],
      [
        [/dark, lamp, open or filtered/, 'filtered'],
        [/Short name/, 'twin-7'],
        [/lines of the filter twin-7/, 'O III, Hα'],
        [/Exposure of dark-1/, '0,5'],
        [/Gas/, 'krypton'],
      ],
    );
    const { filters, frames, detector } = manifestIn(folder);
    expect(frames.find(({ role }) => role === 'dark')!['exposureMs']).toBe(0.5);
    expect(frames.find(({ role }) => role === 'filtered')).toMatchObject({
      filter: 'twin-7',
      exposureMs: 30,
    });
    expect(filters).toEqual([{ id: 'twin-7', label: 'twin-7', lines: ['O III', 'Hα'] }]);
    expect(asked.filter((question) => /Gas/.test(question))).toHaveLength(3);
    expect(asked.filter((question) => /^That cannot be\. Gas/.test(question))).toHaveLength(2);
    expect(frames.find(({ role }) => role === 'lamp')!['lamp']).toMatch(/^TODO/);
    expect(detector.saturationCounts).toMatch(/^TODO/);
  });

  it('never writes over a file', async () => {
    const folder = folderWith('kept', ['dark-30ms-1.csv']);
    writeFileSync(join(folder, 'session.json'), 'mine');
    const { out } = await run([folder]);
    expect(readFileSync(join(folder, 'session.json'), 'utf8')).toBe('mine');
    expect(existsSync(join(folder, 'kept.ipynb'))).toBe(true);
    expect(out).toContain('Left as they are:\n  session.json');
    writeFileSync(join(folder, 'kept.ipynb'), 'mine too');
    await expect(run([folder])).rejects.toThrow(/kept\.ipynb already/);
    expect(readFileSync(join(folder, 'kept.ipynb'), 'utf8')).toBe('mine too');
    await run([folder, '--name', 'other']);
    expect(existsSync(join(folder, 'other.ipynb'))).toBe(true);
  });

  it('makes an empty folder and says how frames are named, but writes nothing yet', async () => {
    const { out } = await run([join(root, 'new', 'night')]);
    expect(out).toContain('dark-300ms-01.csv');
    expect(existsSync(join(root, 'new', 'night', 'session.json'))).toBe(false);
  });

  it('passes over what is no frame, and says so', () => {
    const folder = folderWith('mixed', ['dark-30ms-1.csv', 'dark-30ms-2.csv']);
    writeFileSync(join(folder, 'notes.txt'), 'clouds at ten\n');
    writeFileSync(join(folder, 'table.csv'), 'nm,t\n500,0.1\n501,0.2\n');
    writeFileSync(join(folder, '.hidden.csv'), 'x');
    const survey = surveyFolder(folder);
    expect(survey.groups).toEqual([
      {
        role: 'dark',
        lamp: null,
        filter: null,
        exposureMs: 30,
        files: ['dark-30ms-1.csv', 'dark-30ms-2.csv'],
        takenAt: null,
      },
    ]);
    expect(survey.remarks.some((line) => line.startsWith('notes.txt: '))).toBe(true);
    expect(survey.remarks.some((line) => line.startsWith('table.csv: '))).toBe(true);
    expect(sessionDraft('x', survey).missing.map(({ what }) => what)).toContain(
      'no open frames were recognised',
    );
  });

  it('writes a notebook of whole cells that measures its own folder', async () => {
    const folder = folderWith('my night (2)', ['dark-30ms-1.csv']);
    await run([folder]);
    const notebook = readNotebook(readFileSync(join(folder, 'my-night-2.ipynb'), 'utf8'), 'my-night-2.ipynb');
    expect(notebook.cells.map(({ id }) => id)).toEqual([...new Set(notebook.cells.map(({ id }) => id))]);
    expect(notebook.cells.find(({ id }) => id === 'inputs')?.source).toContain("session: '.'");
  });

  it.each([
    [[], /no folder given/],
    [['a', 'b'], /one folder at a time/],
    [['a', '--name', '../x'], /no plain file name/],
    [['a', '--force'], /not an option/],
    [[join(demo, 'session.json')], /not a folder/],
  ])('refuses %j', async (args, message) => {
    await expect(run(args)).rejects.toThrow(message);
  });
});
