import { type InputProblem, refuse } from '../errors.js';
import type { Layer } from '../halo/index.js';
import type { StarEntry, StarLight, StarLimit, StarPicture } from './benchSession.js';
import { collectProblems } from './collectProblems.js';
import { expandPattern } from './expandPattern.js';
import { hashFile } from './hashFile.js';
import { asList, asNumber, asRecord, asText, type LooseRecord } from './manifest.js';
import { readStarImage, type StarImageOptions } from './readStarImage.js';

/** Where the files of the stars lie, and what was found in them. */
interface StarReading {
  readonly root: string;
  readonly where: string;
  readonly inputs: Map<string, string>;
  readonly problems: InputProblem[];
}

/** Where saturation is not stated right, the image is looked at all the same. */
const FULL = 65535;

/**
 * Reads the star images that a session names: of each the surroundings of the star.
 *
 * @param root - session folder, links resolved
 * @param manifest - parsed session.json, right or not
 * @param where - name of the manifest for messages
 * @returns entries (of use only where nothing is wrong), hashes of the files, everything that is wrong
 */
export function readStars(
  root: string,
  manifest: unknown,
  where: string,
): { stars: StarEntry[]; inputs: { file: string; sha256: string }[]; problems: InputProblem[] } {
  const reading: StarReading = { root, where, inputs: new Map(), problems: [] };
  const stars = asList(asRecord(manifest)['stars']).flatMap((star, i) => {
    const entry = readStar(asRecord(star), i, reading);
    return entry === null ? [] : [entry];
  });
  return {
    stars,
    inputs: Array.from(reading.inputs, ([file, sha256]) => ({ file, sha256 })),
    problems: reading.problems,
  };
}

function readStar(star: LooseRecord, index: number, reading: StarReading): StarEntry | null {
  const { where, problems } = reading;
  const place = `stars[${index}]`;
  const near = placeOf(asRecord(star['near']));
  const options: StarImageOptions = {
    saturationCounts: asNumber(star['saturationCounts']) ?? FULL,
    ...(near === null ? {} : { near }),
  };
  const picture = pictureOf(star, 'file', 'exposureS', place, options, reading);
  // The star may stand elsewhere in the short exposure, which is a frame of its own.
  const { saturationCounts } = options;
  const short = pictureOf(star, 'shortFile', 'shortExposureS', place, { saturationCounts }, reading);
  const reference = pictureOf(star, 'referenceFile', null, place, options, reading);
  if (picture === null) return null;
  let exposureRatio = 1;
  if (short !== null) {
    collectProblems(problems, () => {
      exposureRatio =
        exposureOf(picture, `${place}.exposureS`, where) /
        exposureOf(short, `${place}.shortExposureS`, where);
    });
  }
  return {
    index,
    filter: asText(star['filter']) ?? '',
    star: asText(star['star']),
    picture,
    pixelSizeUm: star['pixelSizeUm'] as number,
    fNumber: star['fNumber'] as number,
    fNumberUncertainty: asNumber(star['fNumberUncertainty']) ?? 0,
    saturationCounts,
    focalLengthMm: asNumber(star['focalLengthMm']),
    obstruction: asNumber(star['obstruction']),
    near,
    light: short === null ? magnitudeOf(star) : { kind: 'short', picture: short, exposureRatio },
    reference,
    layers: star['layers'] === undefined ? null : (star['layers'] as Layer[]),
    limit: star['limit'] === undefined ? null : (star['limit'] as StarLimit),
    fNumberBefore: asNumber(star['fNumberBefore']),
    movedSpacingMm: asNumber(star['movedSpacingMm']),
  };
}

function pictureOf(
  star: LooseRecord,
  field: string,
  exposureField: string | null,
  place: string,
  options: StarImageOptions,
  { root, where, inputs, problems }: StarReading,
): StarPicture | null {
  const pattern = asText(star[field]);
  if (pattern === null || pattern === '') return null;
  return collectProblems(problems, () => {
    const files = expandPattern(root, pattern, where, `${place}.${field}`);
    if (files.length > 1) refuse(where, `${place}.${field}`, `matches ${files.length} files`, 'name one');
    const { file, realPath } = files[0]!;
    const { exposureS, ...image } = readStarImage(realPath, file, options);
    if (!inputs.has(file)) inputs.set(file, hashFile(realPath, file));
    const stated = exposureField === null ? null : asNumber(star[exposureField]);
    return { file, image, exposureS: stated ?? exposureS };
  });
}

function exposureOf({ file, exposureS }: StarPicture, place: string, where: string): number {
  if (exposureS !== null) return exposureS;
  const what = `is missing, and the header of ${file} does not state the exposure`;
  return refuse(where, place, what, 'give the exposure in seconds');
}

/** Pixels count from 1 in the session, as in FITS. */
function placeOf(near: LooseRecord): { x: number; y: number } | null {
  const [x, y] = [asNumber(near['x']), asNumber(near['y'])];
  return x === null || y === null ? null : { x: x - 1, y: y - 1 };
}

function magnitudeOf(star: LooseRecord): StarLight | null {
  const [magnitude, zeroPoint] = [asNumber(star['magnitude']), asNumber(star['zeroPoint'])];
  if (magnitude === null || zeroPoint === null) return null;
  return {
    kind: 'magnitude',
    magnitude,
    zeroPoint,
    uncertainty: asNumber(star['magnitudeUncertainty']) ?? 0,
  };
}
