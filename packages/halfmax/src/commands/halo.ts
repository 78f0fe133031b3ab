import { basename } from 'node:path';
import { refuse } from '../errors.js';
import {
  type ComparedImage,
  compareHalos,
  type HaloResult,
  measureHalo,
  type ReferenceProfile,
  type StarFlux,
  wingReference,
} from '../halo/index.js';
import { type HaloReport, haloReport } from '../measure/index.js';
import { randomStream } from '../numeric/index.js';
import { readStarImage, type StarFile } from '../session/index.js';
import { haloLimit } from './haloLimit.js';
import {
  beforeOf,
  HALO_COMMAND,
  layersOf,
  neededNumber,
  numberOption,
  placeOf,
  starOf,
} from './haloOptions.js';
import { haloText } from './haloText.js';
import { readOptions, wholeNumber } from './readOptions.js';
import { progressLine, type Terminal } from './terminal.js';

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
  'limit-noise': 'text',
  'before-f-number': 'text',
  'before-mm': 'text',
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
  if (files.length === 0)
    refuse(HALO_COMMAND, 'IMAGE', 'no image given', 'name a FITS image of a bright star');
  const pixelSizeUm = neededNumber(words, 'pixel-um', 'size of a pixel in micrometres');
  const fNumber = neededNumber(words, 'f-number', 'f-number of the beam at the sensor');
  const saturationCounts = neededNumber(words, 'saturation', 'counts at which a pixel is full');
  const focalLengthMm = numberOption(words, 'focal-mm', 0, Infinity);
  const obstruction = numberOption(words, 'obstruction', -1e-12, 1);
  const falseAlarm = numberOption(words, 'false-alarm', 0, 0.2);
  const reach = numberOption(words, 'reach', 20, 20000);
  const seed = wholeNumber(words, 'seed', 0, 2 ** 32 - 1, 'halo') ?? 1;
  const draws = wholeNumber(words, 'draws', 100, 1_000_000, 'halo');
  const near = placeOf(words);
  const layers = layersOf(words);
  const before = beforeOf(words);
  const limit = haloLimit(words);
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
          ...(before === undefined ? {} : { before }),
          ...limit(image.exposureS),
        }),
      );
      compared.push({ label: basename(file), result, micrometresPerPixel: pixelSizeUm });
    }
    const comparison = compared.length > 1 ? compareHalos(compared) : null;
    progress.clear();
    terminal.out(
      words.options.has('json')
        ? `${JSON.stringify({ halos: reports, comparison }, rounded, 1)}\n`
        : haloText(reports, comparison, before !== undefined),
    );
    return 0;
  } finally {
    progress.clear();
  }
}

function rounded(_: string, value: unknown): unknown {
  return typeof value === 'number' ? Number(value.toPrecision(DIGITS)) : value;
}
