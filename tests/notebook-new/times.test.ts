import { mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readSession } from '../../packages/halfmax/src/session/index.js';
import { newCommand } from '../../packages/halfmax-notebook/src/commands/new.js';
import { surveyFolder, timeFromFile } from '../../packages/halfmax-notebook/src/template/index.js';

const root = mkdtempSync(join(tmpdir(), 'halfmax-times-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const PIXELS = 32;

/** A FITS file of one row. */
function fits(...cards: readonly string[]): Buffer {
  const head = [
    'SIMPLE  =                    T',
    'BITPIX  =                   16',
    'NAXIS   =                    1',
    `NAXIS1  =                   ${PIXELS}`,
    'EXPTIME =                 0.06',
    ...cards,
    'END',
  ].map((card) => card.padEnd(80));
  const data = Buffer.alloc(2880);
  for (let i = 0; i < PIXELS; i++) data.writeInt16BE(100 + i, 2 * i);
  return Buffer.concat([Buffer.from(head.join('').padEnd(2880)), data]);
}

function folderWith(name: string, files: Readonly<Record<string, string | Buffer>>): string {
  const folder = join(root, name);
  mkdirSync(folder);
  for (const [file, content] of Object.entries(files)) writeFileSync(join(folder, file), content);
  return folder;
}

const at = (clock: string): Buffer => fits(`DATE-OBS= '2025-03-14T${clock}'`);

async function start(folder: string, day: string | null) {
  const asked: string[] = [];
  let out = '';
  const terminal = {
    out: (text: string): void => {
      out += text;
    },
    error: () => {},
    showsProgress: false,
  };
  await newCommand([folder], terminal, {
    ask: async (question) => {
      asked.push(question);
      if (/Day on which/.test(question) && day !== null) return day;
      return /not to be trusted/.test(question) ? '60000' : '';
    },
    leave: () => {},
  });
  return { asked, out, manifest: JSON.parse(readFileSync(join(folder, 'session.json'), 'utf8')) };
}

describe('the time that a file states', () => {
  // FITS Standard 4.0, section 9.1.1 and 9.2.1: ISO 8601, UTC unless TIMESYS says otherwise.
  it.each([
    [`DATE-OBS= '2025-03-14T18:16:00'`, '', '2025-03-14', '2025-03-14T18:16:00.000Z'],
    [`DATE-OBS= '2025-03-14T18:16:00.5'`, `TIMESYS = 'UTC     '`, '2025-03-14', '2025-03-14T18:16:00.500Z'],
    [`DATE-OBS= '2025-03-14T18:16:00'`, `TIMESYS = 'TT      '`, '2025-03-14', null],
    [`DATE-OBS= '2025-03-14'`, '', '2025-03-14', null],
  ])('%s %s', (first, second, day, time) => {
    const stated = timeFromFile(fits(first, second));
    expect(stated?.day).toBe(day);
    expect(stated?.ms ?? null).toBe(time === null ? null : Date.parse(time));
  });

  it.each([`DATE-OBS= '14/03/25'`, `DATE-OBS= '2025-02-30T00:00:00'`, `DATE    = '2025-03-14T18:16:00'`])(
    'none: %s',
    (card) => {
      expect(timeFromFile(fits(card))).toBeNull();
    },
  );

  it.each([
    ['Date: 2025-03-14T19:16:00+01:00\n1\n2', '2025-03-14', '2025-03-14T18:16:00Z'],
    ['# recorded 2025-03-14 18:16:00 UTC\n1', '2025-03-14', '2025-03-14T18:16:00Z'],
    // A clock of no known zone: the day alone is taken.
    ['Date: 2025-03-14 18:16:00\n1', '2025-03-14', null],
    ['Calibration date: 2019-01-01T00:00:00Z\n1', null, null],
    ['pixel,counts\n0,600', null, null],
  ])('%j', (text, day, time) => {
    const stated = timeFromFile(new TextEncoder().encode(text));
    expect(stated?.day ?? null).toBe(day);
    expect(stated?.ms ?? null).toBe(time === null ? null : Date.parse(time));
  });
});

describe('halfmax-notebook new with times', () => {
  it('keeps open scans apart between which a filter was scanned, each with its time', async () => {
    const folder = folderWith('timed', {
      'open-60ms-1.fits': at('18:00:00'),
      'open-60ms-2.fits': at('18:00:10'),
      'filtered-x-ha-60ms-1.fits': at('18:10:00'),
      'filtered-x-ha-60ms-2.fits': at('18:10:10'),
      'open-60ms-3.fits': at('18:20:00'),
      'dark-60ms-1.fits': at('18:05:00'),
      'lamp-ne-60ms-1.fits': at('17:00:00'),
    });
    const { manifest, asked, out } = await start(folder, null);
    const scans = manifest.frames.filter(
      ({ role }: { role: string }) => role === 'open' || role === 'filtered',
    );
    expect(scans.map(({ takenAt, files }: { takenAt: string; files: string[] }) => [takenAt, files])).toEqual(
      [
        ['2025-03-14T18:00:05.000Z', ['open-60ms-1.fits', 'open-60ms-2.fits']],
        ['2025-03-14T18:20:00.000Z', ['open-60ms-3.fits']],
        ['2025-03-14T18:10:05.000Z', ['filtered-x-ha-60ms-*.fits']],
      ],
    );
    expect(manifest.recorded).toBe('2025-03-14');
    // What the files state is not asked for, and nothing is lost.
    expect(asked.some((question) => /^Day/.test(question))).toBe(false);
    expect(out).not.toContain('drift');
    expect(readSession(folder).recorded).toBe('2025-03-14');
  });

  it('leaves the time out where one file does not state it, and says what that costs', async () => {
    const folder = folderWith('half', {
      'open-60ms-1.fits': at('18:00:00'),
      'open-60ms-2.fits': fits(),
      'filtered-x-ha-60ms-1.fits': at('18:10:00'),
    });
    const { manifest, out } = await start(folder, null);
    const open = manifest.frames.filter(({ role }: { role: string }) => role === 'open');
    expect(open).toHaveLength(1);
    expect(open[0]).not.toHaveProperty('takenAt');
    expect(out).toMatch(/drift of the lamp .*cannot be taken out/);
  });

  const untold = (name: string): string => {
    const folder = folderWith(name, { 'open-60ms-1.fits': fits(), 'open-60ms-2.fits': fits() });
    // Noon of the zone of this machine, so that the day is the same in each.
    const noon = new Date(2025, 2, 15, 12);
    for (const k of [1, 2]) utimesSync(join(folder, `open-60ms-${k}.fits`), noon, noon);
    return folder;
  };

  it.each([
    ['confirmed', 'yes', '2025-03-15', 1],
    ['corrected', '2025-03-14', '2025-03-14', 1],
    ['open', '', undefined, 1],
    ['impossible', '2025-02-30', undefined, 3],
  ])('proposes the day of the last change: %s', async (name, answer, recorded, times) => {
    const { manifest, asked } = await start(untold(name), answer);
    expect(manifest.recorded).toBe(recorded);
    const questions = asked.filter((question) => /Day on which/.test(question));
    expect(questions).toHaveLength(times);
    expect(questions[0]).toContain('2025-03-15');
    expect(JSON.stringify(manifest)).not.toContain('takenAt');
  });

  it('takes no day of a last change where nobody confirms it', () => {
    expect(surveyFolder(untold('nobody')).day).toEqual({ day: '2025-03-15', isStated: false });
  });
});
