import { refuse } from '../errors.js';
import type { Scan, Warning } from '../frames/types.js';
import { fitsPixels } from './fitsPixels.js';
import { type FitsImage, fitsValue, parseFits } from './parseFits.js';
import type { SlitImage } from './slitImage.js';

/** What one frame file holds: spectra, and slit images that are yet to be extracted. */
export interface FrameContent {
  readonly scans: readonly Scan[];
  readonly images: readonly { readonly file: string; readonly column: string; readonly image: SlitImage }[];
  readonly warnings: readonly Warning[];
}

const nmPerUnit: readonly [RegExp, number][] = [
  [/^nm$|^nanomet/i, 1],
  [/^angstrom/i, 0.1],
  [/^um$|^micron|^micromet/i, 1000],
  [/^m$|^met(?:er|re)/i, 1e9],
];

/** Wavelengths that the header gives along an axis in a straight line, or null. */
function headerWavelengths(image: FitsImage, axis: 1 | 2, length: number): Float64Array | null {
  const value = (keyword: string): unknown => fitsValue(image.cards, keyword);
  const type = value(`CTYPE${axis}`);
  const unit = value(`CUNIT${axis}`);
  if (typeof type === 'string' && type !== '' && !/^(?:wave|awav|lambda|wavelength)\s*$/i.test(type))
    return null;
  const scale = nmPerUnit.find(([form]) => typeof unit === 'string' && form.test(unit.trim()))?.[1];
  const start = value(`CRVAL${axis}`);
  const step = value(`CDELT${axis}`) ?? value(`CD${axis}_${axis}`);
  const reference = value(`CRPIX${axis}`) ?? 1;
  if (
    scale === undefined ||
    typeof start !== 'number' ||
    typeof step !== 'number' ||
    typeof reference !== 'number'
  )
    return null;
  return Float64Array.from({ length }, (_, i) => scale * (start + step * (i + 1 - reference)));
}

function transposed(counts: Float64Array, width: number, height: number): Float64Array {
  const out = new Float64Array(counts.length);
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) out[c * height + r] = counts[r * width + c]!;
  return out;
}

/**
 * The frames in a FITS file. A 1-D image is a spectrum; a 2-D image is a slit image with the dispersion along axis 1,
 * or along axis 2 where only that has the detector's length.
 *
 * @param bytes - the whole file
 * @param file - name relative to the session folder
 * @param detectorPixels - length of the dispersion; null where the session does not say it rightly
 * @returns spectra and images of all HDUs
 * @throws {BadInputError} as `parseFits`; no image; three or more axes; no axis of the detector's length
 */
export function fitsFrames(bytes: Uint8Array, file: string, detectorPixels: number | null): FrameContent {
  const found = parseFits(bytes, file);
  if (found.length === 0) refuse(file, '', 'holds no image', 'save the frame as a FITS image');
  const scans: Scan[] = [];
  const images: { file: string; column: string; image: SlitImage }[] = [];
  const warnings: Warning[] = [];
  for (const image of found) {
    const place = `HDU ${image.hdu}`;
    const column = found.length === 1 ? '' : image.name === '' ? place : `${place} ${image.name}`;
    const [width = 1, height = 1, ...more] = image.axes;
    if (more.some((n) => n > 1)) {
      refuse(
        file,
        place,
        `has ${image.axes.length} axes (${image.axes.join(' x ')})`,
        'save one spectrum or one image per HDU',
      );
    }
    const along =
      width > 1 &&
      (height === 1 || detectorPixels === null || width === detectorPixels || height !== detectorPixels);
    const pixels = along ? width : height;
    if (detectorPixels !== null && pixels !== detectorPixels && height > 1 && width > 1) {
      const what = `is ${width} x ${height} pixels, neither side has the detector's ${detectorPixels}`;
      refuse(file, place, what, 'correct detector.pixels or the frame');
    }
    const values = fitsPixels(bytes, image);
    if (width === 1 || height === 1) {
      scans.push({
        file,
        column,
        counts: values,
        wavelengthNm: headerWavelengths(image, along ? 1 : 2, pixels),
      });
      continue;
    }
    if (!along)
      warnings.push({
        where: file,
        what: `${place}: the dispersion is taken along axis 2, which has the detector's length`,
      });
    const counts = along ? values : transposed(values, width, height);
    images.push({ file, column, image: { pixels, rows: along ? height : width, counts } });
  }
  return { scans, images, warnings };
}
