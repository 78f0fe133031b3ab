import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { haloCommand } from './halo.js';

const folder = mkdtempSync(join(tmpdir(), 'halfmax-halo-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const SIZE = 112;

/** A 16-bit FITS file of a star at (56, 58), counted from 1, with a disk of 12 to 36 pixels. */
function star(name: string, surface: number, seed: number): string {
  const stream = randomStream(seed);
  const data = Buffer.alloc(Math.ceil((2 * SIZE * SIZE) / 2880) * 2880);
  for (let y = 0; y < SIZE; y++) {
    for (let x = 0; x < SIZE; x++) {
      const r = Math.hypot(x - 55, y - 57);
      const disk = surface * (1 / (1 + Math.exp((r - 36) / 0.7)) - 1 / (1 + Math.exp((r - 12) / 0.7)));
      const light = 400 + 2e5 * (1 + r ** 2 / 6) ** -3 + disk + 8 * stream.normal();
      data.writeInt16BE(Math.round(Math.min(30000, light)), 2 * (y * SIZE + x));
    }
  }
  const cards = [
    'SIMPLE  = T',
    'BITPIX  = 16',
    'NAXIS   = 2',
    `NAXIS1  = ${SIZE}`,
    `NAXIS2  = ${SIZE}`,
    'END',
  ];
  const path = join(folder, name);
  writeFileSync(
    path,
    Buffer.concat([
      Buffer.from(
        cards
          .map((card) => card.padEnd(80))
          .join('')
          .padEnd(2880),
      ),
      data,
    ]),
  );
  return path;
}

function run(...args: string[]): string {
  let text = '';
  const out = (more: string): void => {
    text += more;
  };
  expect(haloCommand(args, { out, error: () => {}, showsProgress: false })).toBe(0);
  return text;
}

const good = ['--pixel-um', '5', '--f-number', '4', '--saturation', '29000', '--draws', '100'];

describe('halfmax halo', () => {
  const withHalo = star('a.fits', 60, 1);
  const less = star('b.fits', 30, 2);

  it('prints the halo, the faces that fit and the comparison of two images', () => {
    // 36 pixels of 5 um: 0.36 mm across, at f/4 from 0.72 mm of air.
    const text = run(
      withHalo,
      less,
      ...good,
      '--star-magnitude',
      '5',
      '--zero-point',
      '20',
      '--layers',
      'plate:1.0944:1.52,gap:30',
      '--limit-share',
      '0.001',
    );
    expect(Number(/outer radius \/ pixels +([\d.]+) ±/.exec(text)?.[1])).toBeCloseTo(36, 0);
    expect(Number(/spacing in air \/ mm +([\d.]+) ±/.exec(text)?.[1])).toBeCloseTo(0.72, 1);
    expect(text).toContain('light between the front of the plate and the back of the plate fits');
    expect(text).toContain('shows: both ends');
    expect(Number(/^ {2}b\.fits .* ([\d.]+) ± [\d.]+ \[/m.exec(text)?.[1])).toBeCloseTo(0.5, 0);
    expect(text).not.toMatch(/NaN|undefined(?! *$)|Infinity/m);
  });

  it('says what moving the filter before the corrector would change', () => {
    // A disk of 2 d / N behind it becomes 2 d N / N'^2 before it: at f/4 and f/8 a quarter as wide for the same faces.
    const text = run(withHalo, ...good, '--layers', 'plate:1.0944:1.52,gap:30', '--before-f-number', '8');
    const [, moved, now, change] =
      /corrector: (\d+) µm across instead of (\d+) µm, its\s+surface ([\d.]+) mag/.exec(text) ?? [
        '',
        '',
        '',
        '',
      ];
    expect(Math.abs(Number(moved) / Number(now) - 1 / 4)).toBeLessThan(0.01);
    // The same light on a sixteenth of the area.
    expect(Number(change)).toBeCloseTo(2.5 * Math.log10(16), 2);
    expect(text).toContain('brighter');
    expect(run(withHalo, ...good)).not.toContain('corrector');
  });

  it('holds the halo against the noise of a stack', () => {
    const noise = 'hours:1,electronsPerCount:0.5,sky:2,dark:0.01,readNoise:1.5';
    const judged = (...more: string[]) =>
      JSON.parse(run(withHalo, ...good, '--exposure', '10', ...more, '--json')).halos[0];
    const report = judged('--limit-noise', noise);
    // Signal over root of signal, sky, dark current and 360 readings, 100 pixels, an hour.
    const signal = ((report.disks[0].surfaceCounts.value * 0.5) / 10) * 100 * 3600;
    const variance = signal + 100 * 3600 * (2 + 0.01) + 100 * 360 * 1.5 ** 2;
    expect(report.judgements[0].number / (signal / Math.sqrt(variance))).toBeCloseTo(1, 6);
    expect(report.judgements[0]).toMatchObject({ verdict: 'shows', limit: 5 });
    expect(report.assumed).toEqual([
      'frames of 10 s, as the image',
      'a patch of 100 pixels (common practice, no source)',
    ]);
    const stricter = judged('--limit-noise', `${noise},frameS:60,pixels:4,threshold:1e6,brighterBy:-1`);
    expect(stricter.judgements[0]).toMatchObject({ verdict: 'stays hidden', limit: 1e6 });
    expect(stricter.assumed).toEqual([]);
  });

  it('prints the same as JSON, without NaN or null', () => {
    const parsed = JSON.parse(run(withHalo, ...good, '--json'));
    expect(parsed.halos[0].disks).toHaveLength(1);
    expect(parsed.halos[0].starCounts).toHaveProperty('absent');
    expect(JSON.stringify(parsed.halos)).not.toContain('null');
  });

  it.each([
    [[], 'IMAGE: no image given'],
    [['x.fits'], '--pixel-um: is missing'],
    [['x.fits', ...good, '--obstruction', '1'], '--obstruction: "1" is not a number'],
    [['x.fits', ...good, '--at', '3'], '--at: "3" is no place'],
    [['x.fits', ...good, '--layers', 'gap'], '--layers: "gap" is no layer'],
    [['x.fits', ...good, '--star-magnitude', '5'], '--zero-point: goes with'],
    [['x.fits', ...good, '--limit-share', '0.1', '--limit-surface', '9'], 'does not go with'],
    [['x.fits', ...good, '--limit-share', '0.1', '--limit-noise', 'hours:1'], 'does not go with'],
    [['x.fits', ...good, '--limit-noise', 'hours:1'], '--limit-noise: lacks electronsPerCount, sky'],
    [['x.fits', ...good, '--limit-noise', 'hours:0'], '--limit-noise: hours is 0, not above 0'],
    [['x.fits', ...good, '--limit-noise', 'sky:-1'], '--limit-noise: sky is -1, not 0 or more'],
    [['x.fits', ...good, '--limit-noise', 'hours:1,hours:2'], '--limit-noise: gives hours twice'],
    [['x.fits', ...good, '--limit-noise', 'night:1'], '--limit-noise: "night:1" is no part of a limit'],
    [
      ['x.fits', ...good, '--limit-noise', 'hours:1,electronsPerCount:1,sky:1,dark:0,readNoise:2'],
      '--exposure: is missing',
    ],
    [['x.fits', ...good, '--before-mm', '2'], '--before-mm: goes with'],
    [['x.fits', ...good, '--before-f-number', '0'], '--before-f-number: "0" is not a number'],
    [['none.fits', ...good], 'none.fits: cannot be read: it does not exist'],
  ])('refuses %j', (args, message) => {
    const at = args[0] === 'x.fits' ? [withHalo, ...args.slice(1)] : args;
    expect(() => run(...at)).toThrow(message);
  });
});
