import { mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { card, fitsHeader, fitsImage16, joined } from './fitsBytes.js';
import { goodSession, type LooseManifest, type SessionDraft, writeSession } from './goodSession.js';

/** A broken session and the lines that must be said of it. */
export interface BadCase {
  readonly name: string;
  /** Writes the session into an empty folder. */
  build(folder: string): void;
  /** One pattern per expected line: file, place, reason. */
  readonly expect: readonly RegExp[];
}

/** A case that changes the draft of the good session before it is written. */
function draft(name: string, change: (session: SessionDraft) => void, ...expect: RegExp[]): BadCase {
  return {
    name,
    expect,
    build(folder) {
      const session = goodSession();
      change(session);
      writeSession(folder, session);
    },
  };
}

/** A case that changes the manifest only. */
function manifest(name: string, change: (m: LooseManifest) => void, ...expect: RegExp[]): BadCase {
  return draft(name, (session) => change(session.manifest), ...expect);
}

/** A case whose session.json is this text. */
function text(name: string, json: string | Uint8Array, ...expect: RegExp[]): BadCase {
  return draft(
    name,
    (session) => {
      session.manifest = json;
    },
    ...expect,
  );
}

const victim = 'frames/open-2.txt';

/** A case that changes the text of one frame file. */
function frame(name: string, change: (text: string) => string | Uint8Array, ...expect: RegExp[]): BadCase {
  return draft(name, ({ files }) => files.set(victim, change(files.get(victim) as string)), ...expect);
}

/** A case with one star, right but for what the entry is given in addition. */
function star(name: string, more: Record<string, unknown>, ...expect: RegExp[]): BadCase {
  return draft(
    name,
    ({ manifest, files }) => {
      const image = fitsImage16([64, 64], new Int16Array(64 * 64).fill(500));
      files.set('stars/one.fits', image);
      files.set('stars/short.fits', image.slice(0, 2880 + 4000));
      files.set('stars/line.fits', fitsImage16([64], new Int16Array(64)));
      files.set('stars/cube.fits', fitsImage16([8, 8, 3], new Int16Array(192)));
      manifest.stars = [
        {
          filter: 'ha',
          file: 'stars/one.fits',
          pixelSizeUm: 3.8,
          fNumber: 5,
          saturationCounts: 60000,
          ...more,
        },
      ];
    },
    ...expect,
  );
}

/** A case in which the files of the open entry are all of another format. */
function openFile(name: string, file: string, content: string | Uint8Array, ...expect: RegExp[]): BadCase {
  return draft(
    name,
    (session) => {
      session.files.set(file, content);
      session.manifest.frames[2].files = [file];
    },
    ...expect,
  );
}

const zeros = new Int16Array(1024);
const jcamp = (data: string, points = 1024): string =>
  `##TITLE=invented\n##JCAMP-DX=4.24\n##DATA TYPE=UV/VIS SPECTRUM\n##XUNITS=NANOMETERS\n##YUNITS=COUNTS\n##FIRSTX=390\n##LASTX=790\n##NPOINTS=${points}\n##XFACTOR=1\n##YFACTOR=1\n##XYDATA=(X++(Y..Y))\n${data}##END=\n`;
const fullJcamp = (spoilt: number, value: string): string =>
  jcamp(
    Array.from(
      { length: 1024 },
      (_, i) => `${390 + i * 0.391} ${i === spoilt ? value : 100 + (i % 7)}\n`,
    ).join(''),
  );

/** Puts one line of the file into another form; lines from 1. */
const onLine =
  (n: number, change: (line: string) => string) =>
  (whole: string): string =>
    whole
      .split('\r\n')
      .map((line, i) => (i === n - 1 ? change(line) : line))
      .join('\r\n');

/** All cases: what a user may get wrong, by hand, by a program or by a bad disk. */
export const badCases: readonly BadCase[] = [
  // The folder and the manifest as a file
  {
    name: 'the folder is empty',
    build: () => {},
    expect: [/^session\.json: cannot be read: it does not exist/],
  },
  {
    name: 'the folder does not exist',
    build: (folder) => rmSync(folder, { recursive: true }),
    expect: [
      /^.+: the session folder cannot be read: it does not exist; give the folder that holds session\.json/,
    ],
  },
  {
    name: 'a file is given instead of the folder',
    build(folder) {
      rmSync(folder, { recursive: true });
      writeFileSync(folder, '{}');
    },
    expect: [/^.+: is not a folder; give the folder that holds session\.json/],
  },
  {
    name: 'session.json is a folder',
    build: (folder) => mkdirSync(join(folder, 'session.json')),
    expect: [/^session\.json: is a folder, not a file/],
  },
  text('session.json is empty', '', /^session\.json: is empty/),
  text('session.json holds blanks only', ' \n\n', /^session\.json: is empty/),
  text('session.json is a list', '[]', /^session\.json: is not a JSON object/),
  text(
    'trailing comma',
    '{\n  "format": "halfmax-session/1",\n}\n',
    /^session\.json: line 3, column 1: is not JSON: found "}" .*comma/,
  ),
  text(
    'single quotes',
    "{ 'format': 1 }",
    /^session\.json: line 1, column 3: is not JSON: found "'".*double quotes/,
  ),
  text('comment in JSON', '{\n// bench\n}', /^session\.json: line 2, column 1: .*comment/),
  text(
    'JSON cut short',
    '{ "format": "halfmax-session/1", "frames": [',
    /^session\.json: line 1, column 45: .*the file ends/,
  ),
  text(
    'NaN in JSON',
    '{ "a": NaN }',
    /^session\.json: line 1, column 8: is not JSON: found "N" where a value belongs/,
  ),
  text(
    'missing comma in JSON',
    '{ "a": 1\n  "b": 2 }',
    /^session\.json: line 2, column 3: .*a comma is probably missing/,
  ),
  text(
    'brackets nested 100 000 deep',
    '['.repeat(100_000) + ']'.repeat(100_000),
    /^session\.json: line 1, column 65: has more than 64 brackets/,
  ),
  text(
    'objects nested 100 000 deep',
    '{"a":'.repeat(100_000),
    /^session\.json: line 1, column \d+: has more than 64 brackets/,
  ),
  text(
    'session.json larger than 4 MiB',
    ' '.repeat(5 * 1048576),
    /^session\.json: is 5 MiB large, more than the 4 MiB allowed/,
  ),
  text(
    'session.json is a picture',
    new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13]),
    /^session\.json: is not a text: it holds bytes that no text has/,
  ),
  manifest('no format', (m) => delete m.format, /^session\.json: format: is missing; add it/),
  manifest(
    'another format',
    (m) => {
      m.format = 'bench/1';
    },
    /^session\.json: format: is "bench\/1"; write "halfmax-session\/1"/,
  ),
  manifest(
    'a later format',
    (m) => {
      m.format = 'halfmax-session/2';
      m.frames = 7;
    },
    /^session\.json: format: is 2, this version reads format 1; install a later version/,
  ),
  // Fields
  manifest('no detector', (m) => delete m.detector, /^session\.json: detector: is missing/),
  manifest(
    'pixels as text',
    (m) => {
      m.detector.pixels = '1024';
    },
    /^session\.json: detector\.pixels: is "1024", not a whole number/,
  ),
  manifest(
    'half a pixel',
    (m) => {
      m.detector.pixels = 1024.5;
    },
    /^session\.json: detector\.pixels: is 1024\.5, not a whole number/,
  ),
  manifest(
    'eight pixels',
    (m) => {
      m.detector.pixels = 8;
    },
    /^session\.json: detector\.pixels: is 8, must be >= 16/,
  ),
  manifest(
    'a million pixels',
    (m) => {
      m.detector.pixels = 1e6;
    },
    /^session\.json: detector\.pixels: is 1000000, must be <= 100000/,
  ),
  manifest(
    'saturation of zero',
    (m) => {
      m.detector.saturationCounts = 0;
    },
    /^session\.json: detector\.saturationCounts: is 0, must be > 0/,
  ),
  manifest(
    'linearity is a number',
    (m) => {
      m.detector.linearity = 1;
    },
    /^session\.json: detector\.linearity: is 1, not a list/,
  ),
  manifest(
    'linearity holds a text',
    (m) => {
      m.detector.linearity = [1, 'x'];
    },
    /^session\.json: detector\.linearity\[1\]: is "x", not a number/,
  ),
  manifest(
    'wavelengths in micrometres',
    (m) => {
      m.detector.wavelengthStartNm = 0.39;
    },
    /^session\.json: detector\.wavelengthStartNm: is 0\.39, must be >= 100/,
  ),
  manifest(
    'both ends of the range alike',
    (m) => {
      m.detector.wavelengthEndNm = 390;
    },
    /^session\.json: detector\.wavelengthEndNm: is 390, the same/,
  ),
  manifest(
    'a number beyond all numbers',
    (m) => {
      m.detector.saturationCounts = 'X';
    },
    /^session\.json: detector\.saturationCounts: is "X", not a number/,
  ),
  draft(
    '1e999 as a number',
    (s) => {
      s.manifest = JSON.stringify(s.manifest).replace('65535', '1e999');
    },
    /^session\.json: detector\.saturationCounts: is Infinity, not a number/,
  ),
  manifest(
    'no frames',
    (m) => {
      m.frames = [];
    },
    /^session\.json: frames: has 0 items, must have at least 1/,
  ),
  manifest(
    'unknown role',
    (m) => {
      m.frames[2].role = 'flat';
    },
    /^session\.json: frames\[2\]\.role: is "flat"; use one of "dark", "lamp", "open", "filtered"/,
    /^session\.json: frames: has no entry of role "open"/,
  ),
  manifest(
    'exposure of zero',
    (m) => {
      m.frames[2].exposureMs = 0;
    },
    /^session\.json: frames\[2\]\.exposureMs: is 0, must be > 0/,
  ),
  manifest(
    'negative exposure',
    (m) => {
      m.frames[0].exposureMs = -20;
    },
    /^session\.json: frames\[0\]\.exposureMs: is -20, must be > 0/,
  ),
  manifest(
    'misspelled exposure',
    (m) => {
      m.frames[2].exposureMS = 20;
      delete m.frames[2].exposureMs;
    },
    /^session\.json: frames\[2\]\.exposureMs: is missing; rename "exposureMS" to "exposureMs"/,
  ),
  manifest(
    'files is a text',
    (m) => {
      m.frames[2].files = 'frames/open-*.txt';
    },
    /^session\.json: frames\[2\]\.files: is "frames\/open-\*\.txt", not a list/,
  ),
  manifest(
    'lamp without label',
    (m) => delete m.frames[1].lamp,
    /^session\.json: frames\[1\]\.lamp: is missing/,
  ),
  manifest(
    'unknown lamp',
    (m) => {
      m.frames[1].lamp = 'candle';
    },
    /^session\.json: frames\[1\]\.lamp: "candle" is not a known lamp; use one of .*Hg-Ar/,
  ),
  manifest(
    'filtered without filter',
    (m) => delete m.frames[3].filter,
    /^session\.json: frames\[3\]\.filter: is missing; add it/,
  ),
  manifest(
    'unknown filter',
    (m) => {
      m.frames[3].filter = 'hb';
      m.filters[0].id = 'oiii';
    },
    /^session\.json: frames\[3\]\.filter: "hb" is not the id of any filter; use one of "oiii"/,
  ),
  manifest(
    'filter id twice',
    (m) => m.filters.push({ ...m.filters[0], id: 'HA' }),
    /^session\.json: filters\[1\]\.id: "HA" is taken by filters\[0\]/,
  ),
  manifest(
    'filter id that leads elsewhere',
    (m) => {
      m.filters[0].id = m.frames[3].filter = '../ha';
    },
    /^session\.json: filters\[0\]\.id: is "\.\.\/ha"; it is letters/,
  ),
  manifest(
    'unknown emission line',
    (m) => {
      m.filters[0].lines = ['H-omega'];
    },
    /^session\.json: filters\[0\]\.lines\[0\]: "H-omega" is not a known emission line/,
  ),
  manifest(
    'takenAt in words',
    (m) => {
      m.frames[2].takenAt = 'after dinner';
    },
    /^session\.json: frames\[2\]\.takenAt: is "after dinner"; it is an ISO 8601/,
  ),
  manifest(
    'the 30th of February',
    (m) => {
      m.frames[2].takenAt = '2026-02-30T20:00:00Z';
    },
    /^session\.json: frames\[2\]\.takenAt: "2026-02-30T20:00:00Z" is a time that does not exist/,
  ),
  manifest(
    'claim without value',
    (m) => {
      m.filters[0].claims.fwhmNm = { tolerance: 1 };
    },
    /^session\.json: filters\[0\]\.claims\.fwhmNm: .*exactly one of value, atLeast and atMost/,
  ),
  manifest(
    'claim with value and limit',
    (m) => {
      m.filters[0].claims.fwhmNm.atMost = 8;
    },
    /^session\.json: filters\[0\]\.claims\.fwhmNm: .*exactly one of/,
  ),
  manifest(
    'negative tolerance',
    (m) => {
      m.filters[0].claims.fwhmNm.tolerance = -1;
    },
    /^session\.json: filters\[0\]\.claims\.fwhmNm\.tolerance: is -1; it must be a number above 0/,
  ),
  manifest(
    'transmittance in percent',
    (m) => {
      m.filters[0].claims.peakTransmittance = { atLeast: 90 };
    },
    /^session\.json: filters\[0\]\.claims\.peakTransmittance\.atLeast: is 90, must be <= 1; it is a fraction/,
  ),
  manifest(
    'blocking range backwards',
    (m) => {
      m.filters[0].claims.opticalDensity = { atLeast: 4, fromNm: 700, toNm: 600 };
    },
    /^session\.json: filters\[0\]\.claims\.opticalDensity\.toNm: is 600, must be above fromNm 700/,
  ),
  manifest(
    'decision by a rule that is none',
    (m) => {
      m.decision = { rule: 'lenient' };
    },
    /^session\.json: decision\.rule: is "lenient"; use one of "probability", "simple", "guarded"/,
  ),
  manifest(
    'decision with numbers out of range and without a rule',
    (m) => {
      m.decision = { probability: 0.5, multiple: -1, coverageFactor: 0 };
    },
    /^session\.json: decision\.rule: is missing; add it/,
    /^session\.json: decision\.probability: is 0\.5, must be > 0\.5; it is what a verdict must reach/,
    /^session\.json: decision\.multiple: is -1, must be >= 0/,
    /^session\.json: decision\.coverageFactor: is 0, must be > 0/,
  ),
  manifest(
    'bench that cannot be',
    (m) => {
      m.bench = { fNumber: 0, temperatureC: '20', spot: '' };
    },
    /^session\.json: bench\.fNumber: is 0, must be > 0; it is the f-number of the light/,
    /^session\.json: bench\.temperatureC: is "20", not a number/,
    /^session\.json: bench\.spot: is an empty text; fill it in/,
  ),
  manifest(
    'beam that cannot be',
    (m) => {
      m.beam = { fNumber: 0, centralObstruction: 1 };
    },
    /^session\.json: beam\.fNumber: is 0; it must be a number above 0/,
    /^session\.json: beam\.centralObstruction: is 1, must be < 1/,
  ),
  // What a session cannot do without
  manifest(
    'no dark frames',
    (m) => m.frames.splice(0, 1),
    /^session\.json: frames: has no entry of role "dark": frames without light/,
  ),
  manifest(
    'no lamp frames',
    (m) => m.frames.splice(1, 1),
    /^session\.json: frames: has no entry of role "lamp": frames of a line lamp/,
  ),
  manifest(
    'no open frames',
    (m) => m.frames.splice(2, 1),
    /^session\.json: frames: has no entry of role "open": .*divided/,
  ),
  // Which files
  manifest(
    'file that is not there',
    (m) => {
      m.frames[2].files = ['frames/open-9.txt'];
    },
    /^session\.json: frames\[2\]\.files\[0\]: "frames\/open-9\.txt" does not exist in the session folder; did you mean "open-1\.txt"/,
  ),
  manifest(
    'pattern that matches nothing',
    (m) => {
      m.frames[2].files = ['raw/*.csv'];
    },
    /^session\.json: frames\[2\]\.files\[0\]: "raw\/\*\.csv" matches no file/,
  ),
  manifest(
    'absolute path',
    (m) => {
      m.frames[2].files = ['/etc/hostname'];
    },
    /^session\.json: frames\[2\]\.files\[0\]: "\/etc\/hostname" is an absolute path/,
  ),
  manifest(
    'absolute path of another system',
    (m) => {
      m.frames[2].files = ['C:\\bench\\open.txt'];
    },
    /^session\.json: frames\[2\]\.files\[0\]: .* is an absolute path/,
  ),
  manifest(
    'path out of the folder',
    (m) => {
      m.frames[2].files = ['../*.txt'];
    },
    /^session\.json: frames\[2\]\.files\[0\]: "\.\.\/\*\.txt" leads out of the session folder/,
  ),
  {
    name: 'link out of the folder',
    build(folder) {
      const session = goodSession();
      session.manifest.frames[2].files = ['frames/outside.txt'];
      writeSession(folder, session);
      writeFileSync(`${folder}-outside.txt`, '1\n2\n3\n');
      symlinkSync(`${folder}-outside.txt`, join(folder, 'frames', 'outside.txt'));
    },
    expect: [
      /^session\.json: frames\[2\]\.files\[0\]: "frames\/outside\.txt" is a link that leads out of the session folder/,
    ],
  },
  {
    name: 'link that leads in a circle',
    build(folder) {
      const session = goodSession();
      session.manifest.frames[2].files = ['frames/ring.txt'];
      writeSession(folder, session);
      symlinkSync('ring.txt', join(folder, 'frames', 'ring.txt'));
    },
    expect: [/^session\.json: frames\[2\]\.files\[0\]: .*its links lead in a circle/],
  },
  manifest(
    'folder instead of a file',
    (m) => {
      m.frames[2].files = ['frames'];
    },
    /^session\.json: frames\[2\]\.files\[0\]: "frames" is a folder, not a file; name its files, for example "frames\/\*"/,
  ),
  manifest(
    'one frame in two entries',
    (m) => m.frames[3].files.push('frames/open-1.txt'),
    /^session\.json: frames\[3\]\.files\[1\]: "frames\/open-1\.txt" is also a frame of frames\[2\]/,
  ),
  // Frame files: text
  frame('empty frame file', () => '', /^frames\/open-2\.txt: is empty/),
  frame(
    'frame cut short',
    (t) => t.split('\r\n').slice(0, 603).join('\r\n'),
    /^frames\/open-2\.txt: holds 600 values, the detector has 1024 pixels; the file may be cut short/,
  ),
  frame(
    'frame cut short inside a line',
    (t) => t.slice(0, t.indexOf('\r\n500\t') + 5),
    /^frames\/open-2\.txt: line 504: has 1 value, the other lines have 2/,
  ),
  frame(
    'frame too long',
    (t) => `${t}1024\t1000\r\n1025\t1000\r\n`,
    /^frames\/open-2\.txt: holds 1026 values, the detector has 1024 pixels/,
  ),
  frame(
    'a word among the counts',
    onLine(300, (l) => l.replace(/\t.*/, '\tsaturated')),
    /^frames\/open-2\.txt: line 300, column 2: "saturated" is not a number/,
  ),
  frame(
    'a word in the first line of counts',
    onLine(4, (l) => l.replace(/\t.*/, '\tx')),
    /^frames\/open-2\.txt: line 4, column 2: "x" is not a number/,
  ),
  frame(
    'a word in the last line of counts',
    onLine(1027, (l) => l.replace(/\t.*/, '\tx')),
    /^frames\/open-2\.txt: line 1027, column 2: "x" is not a number/,
  ),
  frame(
    'a remark across the counts',
    onLine(300, () => 'connection lost, counts follow'),
    /^frames\/open-2\.txt: line 300, column 1: "connection lost, counts follow" is not a number/,
  ),
  frame(
    'NaN among the counts',
    onLine(300, (l) => l.replace(/\t.*/, '\tNaN')),
    /^frames\/open-2\.txt: line 300, column 2: "NaN" is not a number/,
  ),
  frame(
    'infinity among the counts',
    onLine(300, (l) => l.replace(/\t.*/, '\t1e999')),
    /^frames\/open-2\.txt: line 300, column 2: "1e999" is not a number/,
  ),
  frame(
    'an empty cell',
    onLine(300, (l) => l.replace(/\t.*/, '\t')),
    /^frames\/open-2\.txt: line 300, column 2: is empty/,
  ),
  frame(
    'a line lost',
    (t) => t.replace(/\r\n299\t\d+/, ''),
    /^frames\/open-2\.txt: line 303, column 1: pixel number 300 follows 298/,
  ),
  frame(
    'a line doubled',
    (t) => t.replace(/\r\n(299\t\d+)/, '\r\n$1\r\n$1'),
    /^frames\/open-2\.txt: line 304, column 1: pixel number 299 follows 299/,
  ),
  frame(
    'two decimal signs',
    onLine(300, (l) => l.replace(/\t.*/, '\t1.234,5')),
    /^frames\/open-2\.txt: line 300, column 2: "1\.234,5" .*decimal/,
  ),
  frame(
    'decimal comma or two columns',
    (t) =>
      t
        .split('\r\n')
        .slice(3, -1)
        .map((l) => `${l.split('\t')[1]},12`)
        .join('\n'),
    /^frames\/open-2\.txt: can be read in two ways/,
  ),
  frame(
    'words only',
    () => 'no counts today\nnone tomorrow\n',
    /^frames\/open-2\.txt: holds no line of numbers/,
  ),
  frame(
    'a binary file',
    () => new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 1, 2, 255, 254]),
    /^frames\/open-2\.txt: is neither delimited text, FITS nor JCAMP-DX/,
  ),
  frame(
    'columns that are no raw counts',
    (t) => t.replace('Pixel\tCounts', 'Pixel\tCounts\tDark').replace(/(\d\t\d+)\r\n/g, '$1\t1000\r\n'),
    /^frames\/open-2\.txt: column 3: column 3 is called "Dark"/,
  ),
  // Frame files: FITS
  openFile(
    'FITS cut short',
    'frames/a.fits',
    fitsImage16([1024], zeros).subarray(0, 4000),
    /^frames\/a\.fits: HDU 0: is cut short: 2048 bytes of data are announced, the file holds 1120/,
  ),
  openFile(
    'FITS header without END',
    'frames/a.fits',
    fitsImage16([1024], zeros).subarray(0, 240),
    /^frames\/a\.fits: header: ends before its header does: no END card/,
  ),
  openFile(
    'FITS that announces terabytes',
    'frames/a.fits',
    fitsHeader([
      card('SIMPLE', 'T'),
      card('BITPIX', '-64'),
      card('NAXIS', '2'),
      card('NAXIS1', '1000000'),
      card('NAXIS2', '1000000'),
    ]),
    /^frames\/a\.fits: HDU 0: is cut short: 8000000000000 bytes/,
  ),
  openFile(
    'FITS with a negative axis',
    'frames/a.fits',
    fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '16'), card('NAXIS', '1'), card('NAXIS1', '-4')]),
    /^frames\/a\.fits: HDU 0, NAXIS1: is -4, must be a whole number/,
  ),
  openFile(
    'FITS of the wrong length',
    'frames/a.fits',
    fitsImage16([1000], new Int16Array(1000)),
    /^frames\/a\.fits: holds 1000 values, the detector has 1024 pixels/,
  ),
  openFile(
    'FITS image of the wrong size',
    'frames/a.fits',
    fitsImage16([100, 10], zeros.subarray(0, 1000)),
    /^frames\/a\.fits: HDU 0: is 100 x 10 pixels, neither side has the detector's 1024/,
  ),
  openFile(
    'compressed FITS',
    'frames/a.fits',
    joined(
      fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '8'), card('NAXIS', '0')]),
      fitsHeader([
        card('XTENSION', "'BINTABLE'"),
        card('BITPIX', '8'),
        card('NAXIS', '2'),
        card('NAXIS1', '0'),
        card('NAXIS2', '0'),
        card('PCOUNT', '0'),
        card('GCOUNT', '1'),
        card('ZIMAGE', 'T'),
      ]),
    ),
    /^frames\/a\.fits: HDU 1: is a tile-compressed image/,
  ),
  openFile(
    'FITS without an image',
    'frames/a.fits',
    fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '8'), card('NAXIS', '0')]),
    /^frames\/a\.fits: holds no image/,
  ),
  openFile(
    'FITS with a letter in a number',
    'frames/a.fits',
    fitsImage16([1024], zeros, [card('BZERO', '3276B')]),
    /^frames\/a\.fits: header keyword BZERO: has the value "3276B"/,
  ),
  openFile(
    'a 2-D image beside spectra',
    'frames/a.fits',
    fitsImage16([1024, 4], new Int16Array(4096)),
    /^frames\/dark-1\.txt: is a spectrum, frames\/a\.fits is a 2-D image/,
  ),
  draft(
    '2-D images of different height',
    (s) => {
      s.manifest.frames.forEach((entry: LooseManifest, i: number) => {
        const rows = entry.role === 'open' ? 5 : 4;
        s.files.set(`frames/${i}.fits`, fitsImage16([1024, rows], new Int16Array(1024 * rows)));
        entry.files = [`frames/${i}.fits`];
      });
    },
    /^frames\/2\.fits: is 1024 x 5 pixels, frames\/0\.fits is 1024 x 4/,
  ),
  draft(
    '2-D images of an unknown role',
    (s) => {
      s.files.set('frames/a.fits', fitsImage16([1024, 4], new Int16Array(4096)));
      s.manifest.frames = [{ role: 'sky', exposureMs: 0, files: ['frames/a.fits'] }];
    },
    /frames\[0\]\.role/,
    /frames\[0\]\.exposureMs/,
    /role "dark"/,
    /role "lamp"/,
    /role "open"/,
  ),
  // Frame files: JCAMP-DX
  openFile(
    'JCAMP-DX cut short',
    'frames/a.jdx',
    fullJcamp(-1, '').slice(0, 4000),
    /^frames\/a\.jdx: is cut short: it has no ##END= record/,
  ),
  openFile(
    'JCAMP-DX with a line lost',
    'frames/a.jdx',
    jcamp('390 1 2 3\n', 4),
    /^frames\/a\.jdx: XYDATA: holds 3 values, ##NPOINTS= says 4/,
  ),
  openFile(
    'JCAMP-DX of the wrong length',
    'frames/a.jdx',
    jcamp('390 1 2 3\n', 3),
    /^frames\/a\.jdx: holds 3 values, the detector has 1024 pixels/,
  ),
  openFile(
    'JCAMP-DX with a word',
    'frames/a.jdx',
    fullJcamp(500, 'NaN'),
    /^frames\/a\.jdx: line 512: "NaN" is not a number/,
  ),
  openFile(
    'JCAMP-DX of peaks',
    'frames/a.jdx',
    '##TITLE=a\n##NPOINTS=1\n##PEAK TABLE=(XY..XY)\n1,2\n##END=\n',
    /^frames\/a\.jdx: line 3: holds a table of peaks/,
  ),
  openFile(
    'JCAMP-DX of transmittance',
    'frames/a.jdx',
    fullJcamp(-1, '').replace('COUNTS', 'TRANSMITTANCE'),
    /^frames\/a\.jdx: XYDATA: holds "TRANSMITTANCE"; a frame must hold raw counts/,
  ),
  // Stars
  manifest(
    'star of an unknown filter',
    (m) => {
      m.stars = [
        { filter: 'hb', file: 'frames/dark-1.txt', pixelSizeUm: 3.8, fNumber: 5, saturationCounts: 65535 },
      ];
    },
    /^session\.json: stars\[0\]\.filter: "hb" is not the id/,
    /^frames\/dark-1\.txt: is not a FITS file/,
  ),
  star(
    'star image that does not exist',
    { file: 'stars/non.fits' },
    /^session\.json: stars\[0\]\.file: "stars\/non\.fits" does not exist .*; did you mean "one\.fits"\?/,
  ),
  star(
    'star image that is cut short',
    { file: 'stars/short.fits' },
    /^stars\/short\.fits: HDU 0: is cut short: 8192 bytes of data are announced/,
  ),
  star(
    'star image of one axis',
    { file: 'stars/line.fits' },
    /^stars\/line\.fits: holds no 2-D image; give the image of a star/,
  ),
  star(
    'star image of three colours',
    { file: 'stars/cube.fits' },
    /^stars\/cube\.fits: HDU 0: is an image of 8 x 8 x 3; give one plane/,
  ),
  star(
    'several star images at once',
    { file: 'stars/*.fits' },
    /^session\.json: stars\[0\]\.file: matches 4 files; name one/,
  ),
  star(
    'reference that is no FITS file',
    { referenceFile: 'frames/dark-1.txt' },
    /^frames\/dark-1\.txt: is not a FITS file; a star image must be FITS/,
  ),
  star(
    'short exposure of unknown length',
    { shortFile: 'stars/one.fits' },
    /^session\.json: stars\[0\]\.exposureS: is missing, and the header of stars\/one\.fits does not state/,
  ),
  star(
    'light of a star told twice',
    { shortFile: 'stars/one.fits', exposureS: 60, shortExposureS: 1, magnitude: 3, zeroPoint: 20 },
    /^session\.json: stars\[0\]\.shortFile: does not go with magnitude; keep one of them/,
  ),
  star(
    'magnitude without a zero point',
    { magnitude: 3 },
    /^session\.json: stars\[0\]\.zeroPoint: is missing, and magnitude needs it; give both/,
  ),
  star(
    'zero point without a magnitude',
    { zeroPoint: 20 },
    /^session\.json: stars\[0\]\.magnitude: is missing, and zeroPoint needs it; give both/,
  ),
  star(
    'star before the first pixel',
    { near: { x: 0, y: 20 } },
    /^session\.json: stars\[0\]\.near\.x: is 0, must be >= 1/,
  ),
  star(
    'limit of an unknown kind',
    { limit: { kind: 'taste' } },
    /^session\.json: stars\[0\]\.limit\.kind: is "taste"; use one of "share", "surface", "noise"/,
  ),
  star(
    'limit on the noise without its numbers',
    { limit: { kind: 'noise' } },
    /^session\.json: stars\[0\]\.limit\.hours: is missing; add it/,
    /^session\.json: stars\[0\]\.limit\.electronsPerCount: is missing; add it/,
  ),
  star(
    'limit in per cent',
    { limit: { kind: 'share', atMost: 2 } },
    /^session\.json: stars\[0\]\.limit\.atMost: is 2, must be < 1; it is share of the star's light/,
  ),
  star(
    'layer without thickness, glass lighter than air, obstruction of a whole aperture',
    { obstruction: 1, layers: [{ name: 'filter', thicknessMm: 0, index: 0.9 }] },
    /^session\.json: stars\[0\]\.obstruction: is 1, must be < 1/,
    /^session\.json: stars\[0\]\.layers\[0\]\.thicknessMm: is 0, must be > 0; it is mm, above 0/,
    /^session\.json: stars\[0\]\.layers\[0\]\.index: is 0\.9, must be >= 1/,
  ),
  star(
    'f-number that may be none',
    { fNumberUncertainty: 5 },
    /^session\.json: stars\[0\]\.fNumberUncertainty: is 5, must be below fNumber 5/,
  ),
  // Several at once
  draft(
    'five faults in five places',
    (s) => {
      s.manifest.detector.saturationCounts = -1;
      s.manifest.frames[1].lamp = 'candle';
      s.manifest.frames[3].files = ['nothing-*.txt'];
      s.files.set('frames/dark-1.txt', '1\n2\n3\n');
      s.files.set(victim, '');
    },
    /^session\.json: detector\.saturationCounts/,
    /^session\.json: frames\[1\]\.lamp/,
    /^session\.json: frames\[3\]\.files\[0\]/,
    /^frames\/dark-1\.txt: holds 3 values/,
    /^frames\/open-2\.txt: is empty/,
  ),
];
