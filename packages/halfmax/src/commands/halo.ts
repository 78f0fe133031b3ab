import { basename } from 'node:path';
import { refuse } from '../errors.js';
import {
  type ComparedImage,
  compareHalos,
  type HaloResult,
  type HaloTolerance,
  type Layer,
  measureHalo,
  type ReferenceProfile,
  type StarFlux,
  starFluxFromMagnitude,
  starFluxFromShort,
  wingReference,
} from '../halo/index.js';
import { type HaloReport, haloReport } from '../measure/index.js';
import { randomStream } from '../numeric/index.js';
import { readStarImage, type StarFile } from '../session/index.js';
import { haloText } from './haloText.js';
import { type CommandWords, readOptions, wholeNumber } from './readOptions.js';
import { progressLine, type Terminal } from './terminal.js';

const COMMAND = 'halfmax halo';
const OPTIONS = {
  'pixel-um': 'text',
  'f-number': 'text',
  saturation: 'text',
  'focal-mm': 'text',
  obstruction: 'text',
  at: 'text',
  reach: 'text',
  exposure: 'text',
  short: 'text',
  'short-exposure': 'text',
  'star-magnitude': 'text',
  'zero-point': 'text',
  reference: 'text',
  layers: 'text',
  'limit-share': 'text',
  'limit-surface': 'text',
  'false-alarm': 'text',
  draws: 'text',
  seed: 'text',
  json: 'flag',
} as const;
const DIGITS = 12;

/**
 * `halfmax halo`: the halos about a bright star in one image or several, with the faces that make them, and filters
 * compared.
 *
 * @param args - words after `halo`
 * @param terminal - where to write
 * @returns exit code 0
 * @throws {BadInputError} a wrong command, or an image that cannot be measured
 */
export function haloCommand(args: readonly string[], terminal: Terminal): number {
  const words = readOptions(args, OPTIONS, 'halo');
  const files = words.positional;
  if (files.length === 0) refuse(COMMAND, 'IMAGE', 'no image given', 'name a FITS image of a bright star');
  const pixelSizeUm = needed(words, 'pixel-um', 'size of a pixel in micrometres');
  const fNumber = needed(words, 'f-number', 'f-number of the beam at the sensor');
  const saturationCounts = needed(words, 'saturation', 'counts at which a pixel is full');
  const focalLengthMm = number(words, 'focal-mm', 0, Infinity);
  const obstruction = number(words, 'obstruction', -1e-12, 1);
  const falseAlarm = number(words, 'false-alarm', 0, 0.2);
  const reach = number(words, 'reach', 20, 20000);
  const seed = wholeNumber(words, 'seed', 0, 2 ** 32 - 1, 'halo') ?? 1;
  const draws = wholeNumber(words, 'draws', 100, 1_000_000, 'halo');
  const near = placeOf(words);
  const layers = layersOf(words);
  const tolerance = toleranceOf(words);
  const progress = progressLine(terminal);
  const read = (file: string): StarFile =>
    readStarImage(file, file, {
      saturationCounts,
      ...(near === undefined ? {} : { near }),
      ...(reach === undefined ? {} : { reach: reach + 8 }),
    });
  const measure = (
    file: string,
    image: StarFile,
    star?: StarFlux,
    reference?: ReferenceProfile,
  ): HaloResult =>
    measureHalo(
      image,
      {
        name: file,
        pixelSizeUm,
        fNumber,
        saturationCounts,
        ...(focalLengthMm === undefined ? {} : { focalLengthMm }),
        ...(obstruction === undefined ? {} : { obstruction: Math.max(0, obstruction) }),
        ...(star === undefined ? {} : { star }),
        ...(reference === undefined ? {} : { reference }),
        ...(near === undefined ? {} : { near: { x: near.x - image.offset[0], y: near.y - image.offset[1] } }),
        ...(reach === undefined ? {} : { outerRadiusPixels: reach }),
        ...(falseAlarm === undefined ? {} : { falseAlarm }),
        ...(draws === undefined ? {} : { draws }),
      },
      randomStream(seed),
    );
  try {
    let reference: ReferenceProfile | undefined;
    const referenceFile = words.options.get('reference');
    if (referenceFile !== undefined) {
      progress.show(`read ${referenceFile}`);
      reference = wingReference(measure(referenceFile, read(referenceFile)));
    }
    const reports: HaloReport[] = [];
    const compared: ComparedImage[] = [];
    for (const file of files) {
      progress.show(`read ${file}`);
      const image = read(file);
      const star = starOf(words, image, saturationCounts);
      progress.show(`measure ${file}`);
      const result = measure(file, image, star, reference);
      reports.push(
        haloReport(basename(file), result.measurement, {
          optics: {
            fNumber,
            ...(obstruction === undefined ? {} : { obstruction: Math.max(0, obstruction) }),
          },
          ...(layers === undefined ? {} : { layers }),
          ...(tolerance === undefined ? {} : { tolerance }),
        }),
      );
      compared.push({ label: basename(file), result, micrometresPerPixel: pixelSizeUm });
    }
    const comparison = compared.length > 1 ? compareHalos(compared) : null;
    progress.clear();
    terminal.out(
      words.options.has('json')
        ? `${JSON.stringify({ halos: reports, comparison }, rounded, 1)}\n`
        : haloText(reports, comparison),
    );
    return 0;
  } finally {
    progress.clear();
  }
}

function rounded(_: string, value: unknown): unknown {
  return typeof value === 'number' ? Number(value.toPrecision(DIGITS)) : value;
}

/** A number from an option, above `least` and below `most`. */
function number(words: CommandWords, name: string, least: number, most: number): number | undefined {
  const text = words.options.get(name);
  if (text === undefined) return undefined;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value > least && value < most) return value;
  const range =
    most === Infinity ? `above ${Math.max(0, least)}` : `between ${Math.max(0, least)} and ${most}`;
  return refuse(COMMAND, `--${name}`, `"${text}" is not a number ${range}`, 'correct it or leave it out');
}

function needed(words: CommandWords, name: string, what: string): number {
  const value = number(words, name, 0, Infinity);
  return value ?? refuse(COMMAND, `--${name}`, 'is missing', `give the ${what}`);
}

/** `--at X,Y`, pixels from 1 as in FITS. */
function placeOf(words: CommandWords): { x: number; y: number } | undefined {
  const text = words.options.get('at');
  if (text === undefined) return undefined;
  const parts = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [x, y] = parts;
  if (parts.length !== 2 || x === undefined || y === undefined || !(x >= 1 && x < 1e6 && y >= 1 && y < 1e6))
    refuse(
      COMMAND,
      '--at',
      `"${text}" is no place`,
      'write the column and the row of the star, such as --at 1204,877',
    );
  return { x: x - 1, y: y - 1 };
}

/** `--layers filter:3:1.52,gap:17.5,window:2:1.52,gap:6`: name, thickness in mm, index for glass. */
function layersOf(words: CommandWords): Layer[] | undefined {
  const text = words.options.get('layers');
  if (text === undefined) return undefined;
  return text.split(',').map((part) => {
    const [name = '', thickness, index, ...rest] = part.split(':');
    const thicknessMm = Number(thickness);
    const glass = index === undefined ? 1 : Number(index);
    if (
      name.trim() === '' ||
      rest.length > 0 ||
      !(thicknessMm > 0 && thicknessMm < 1e4) ||
      !(glass >= 1 && glass < 4)
    )
      refuse(
        COMMAND,
        '--layers',
        `"${part}" is no layer`,
        'write NAME:MM for a gap and NAME:MM:INDEX for glass, from the filter to the sensor',
      );
    return { name: name.trim(), thicknessMm, ...(glass > 1 ? { index: glass } : {}) };
  });
}

function toleranceOf(words: CommandWords): HaloTolerance | undefined {
  const atMost = number(words, 'limit-share', 0, 1);
  const atLeast = number(words, 'limit-surface', -50, 50);
  if (atMost !== undefined && atLeast !== undefined)
    refuse(COMMAND, '--limit-share', 'does not go with --limit-surface', 'choose one of them');
  if (atMost !== undefined) return { kind: 'share', atMost };
  return atLeast === undefined ? undefined : { kind: 'surface', atLeast };
}

/** Light of the star from a short exposure or from its magnitude, where one is given. */
function starOf(words: CommandWords, image: StarFile, saturationCounts: number): StarFlux | undefined {
  const short = words.options.get('short');
  const magnitude = number(words, 'star-magnitude', -50, 50);
  const zeroPoint = number(words, 'zero-point', -50, 80);
  if (short !== undefined && magnitude !== undefined)
    refuse(COMMAND, '--short', 'does not go with --star-magnitude', 'choose one of them');
  if ((magnitude === undefined) !== (zeroPoint === undefined))
    refuse(COMMAND, '--zero-point', 'goes with --star-magnitude', 'give both');
  if (magnitude !== undefined && zeroPoint !== undefined)
    return starFluxFromMagnitude(magnitude, zeroPoint, 0);
  if (short === undefined) return undefined;
  const exposure = number(words, 'exposure', 0, Infinity) ?? image.exposureS;
  const file = readStarImage(short, short, { saturationCounts });
  const shortExposure = number(words, 'short-exposure', 0, Infinity) ?? file.exposureS;
  if (exposure === null || shortExposure === null)
    refuse(
      COMMAND,
      exposure === null ? '--exposure' : '--short-exposure',
      'is missing, and the header does not state the exposure',
      'give the exposure in seconds',
    );
  return starFluxFromShort(file, saturationCounts, exposure / shortExposure, short);
}
