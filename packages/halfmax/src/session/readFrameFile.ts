import { decodeText } from './decodeText.js';
import { type FrameContent, fitsFrames } from './fitsFrames.js';
import { frameFormat } from './frameFormat.js';
import { parseJcamp } from './parseJcamp.js';
import { readDelimitedScans } from './readDelimitedScans.js';

/**
 * The frames in the bytes of one file; the format is told by the content, not by the name.
 *
 * @param bytes - the whole file
 * @param file - name relative to the session folder
 * @param detectorPixels - length of the dispersion, null where it is not known
 * @returns spectra, slit images and warnings
 * @throws {BadInputError} a file of no known format, or a damaged one
 */
export function readFrameFile(bytes: Uint8Array, file: string, detectorPixels: number | null): FrameContent {
  const format = frameFormat(bytes);
  if (format === 'fits') return fitsFrames(bytes, file, detectorPixels);
  const text = decodeText(
    bytes,
    file,
    'is neither delimited text, FITS nor JCAMP-DX',
    'export the frame in one of these formats',
  );
  const scans = format === 'jcamp' ? parseJcamp(text, file) : readDelimitedScans(text, file);
  return { scans, images: [], warnings: [] };
}
