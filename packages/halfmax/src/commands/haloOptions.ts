import { refuse } from '../errors.js';
import { type Layer, type StarFlux, starFluxFromMagnitude, starFluxFromShort } from '../halo/index.js';
import type { FilterPlaceBefore } from '../measure/index.js';
import { readStarImage, type StarFile } from '../session/index.js';
import type { CommandWords } from './readOptions.js';

/** Its name in messages. */
export const HALO_COMMAND = 'halfmax halo';

/** A number from an option, above `least` and below `most`. */
export function numberOption(
  words: CommandWords,
  name: string,
  least: number,
  most: number,
): number | undefined {
  const text = words.options.get(name);
  if (text === undefined) return undefined;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value > least && value < most) return value;
  const range =
    most === Infinity ? `above ${Math.max(0, least)}` : `between ${Math.max(0, least)} and ${most}`;
  return refuse(
    HALO_COMMAND,
    `--${name}`,
    `"${text}" is not a number ${range}`,
    'correct it or leave it out',
  );
}

/** A number that must be given. */
export function neededNumber(words: CommandWords, name: string, what: string): number {
  const value = numberOption(words, name, 0, Infinity);
  return value ?? refuse(HALO_COMMAND, `--${name}`, 'is missing', `give the ${what}`);
}

/** `--at X,Y`, pixels from 1 as in FITS. */
export function placeOf(words: CommandWords): { x: number; y: number } | undefined {
  const text = words.options.get('at');
  if (text === undefined) return undefined;
  const parts = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [x, y] = parts;
  if (parts.length !== 2 || x === undefined || y === undefined || !(x >= 1 && x < 1e6 && y >= 1 && y < 1e6))
    refuse(
      HALO_COMMAND,
      '--at',
      `"${text}" is no place`,
      'write the column and the row of the star, such as --at 1204,877',
    );
  return { x: x - 1, y: y - 1 };
}

/** `--layers filter:3:1.52,gap:17.5,window:2:1.52,gap:6`: name, thickness in mm, index for glass. */
export function layersOf(words: CommandWords): Layer[] | undefined {
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
        HALO_COMMAND,
        '--layers',
        `"${part}" is no layer`,
        'write NAME:MM for a gap and NAME:MM:INDEX for glass, from the filter to the sensor',
      );
    return { name: name.trim(), thicknessMm, ...(glass > 1 ? { index: glass } : {}) };
  });
}

/** `--before-f-number F` and `--before-mm D`: light before the corrector, and distance of the faces there. */
export function beforeOf(words: CommandWords): FilterPlaceBefore | undefined {
  const fNumber = numberOption(words, 'before-f-number', 0, Infinity);
  const spacingMm = numberOption(words, 'before-mm', 0, 1e4);
  if (fNumber === undefined && spacingMm !== undefined)
    refuse(HALO_COMMAND, '--before-mm', 'goes with --before-f-number', 'give both, or leave it out');
  return fNumber === undefined ? undefined : { fNumber, spacingMm: spacingMm ?? null };
}

/** Light of the star from a short exposure or from its magnitude, where one is given. */
export function starOf(words: CommandWords, image: StarFile, saturationCounts: number): StarFlux | undefined {
  const short = words.options.get('short');
  const magnitude = numberOption(words, 'star-magnitude', -50, 50);
  const zeroPoint = numberOption(words, 'zero-point', -50, 80);
  if (short !== undefined && magnitude !== undefined)
    refuse(HALO_COMMAND, '--short', 'does not go with --star-magnitude', 'choose one of them');
  if ((magnitude === undefined) !== (zeroPoint === undefined))
    refuse(HALO_COMMAND, '--zero-point', 'goes with --star-magnitude', 'give both');
  if (magnitude !== undefined && zeroPoint !== undefined)
    return starFluxFromMagnitude(magnitude, zeroPoint, 0);
  if (short === undefined) return undefined;
  const exposure = numberOption(words, 'exposure', 0, Infinity) ?? image.exposureS;
  const file = readStarImage(short, short, { saturationCounts });
  const shortExposure = numberOption(words, 'short-exposure', 0, Infinity) ?? file.exposureS;
  if (exposure === null || shortExposure === null)
    refuse(
      HALO_COMMAND,
      exposure === null ? '--exposure' : '--short-exposure',
      'is missing, and the header does not state the exposure',
      'give the exposure in seconds',
    );
  return starFluxFromShort(file, saturationCounts, exposure / shortExposure, short);
}
