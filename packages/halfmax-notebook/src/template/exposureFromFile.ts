import { fitsValue, parseFits } from 'halfmax/session';

const UNITS: readonly [RegExp, number][] = [
  [/(?<![a-z])(?:ms|msec|milliseconds?)(?![a-z])/i, 1],
  [/(?<![a-z])(?:us|µs|microseconds?)(?![a-z])/i, 0.001],
  [/(?<![a-z])(?:s|sec|seconds?)(?![a-z])/i, 1000],
];
const HEAD_LINES = 40;

/**
 * The exposure that a frame file states of itself: a line of its head that speaks of exposure or integration with a
 * unit, or EXPTIME of a FITS header.
 *
 * @param bytes - the file
 * @param file - its name, for messages
 * @returns milliseconds, or null where none is stated
 * Source: EXPTIME in seconds is common practice, no source.
 */
export function exposureFromFile(bytes: Uint8Array, file: string): number | null {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 8192));
  if (/^SIMPLE {2}=/.test(head)) {
    const seconds = parseFits(bytes, file)
      .map(({ cards }) => fitsValue(cards, 'EXPTIME'))
      .find((value) => typeof value === 'number');
    return typeof seconds === 'number' && seconds > 0 ? Number((1000 * seconds).toPrecision(12)) : null;
  }
  for (const line of head.split(/\r?\n/).slice(0, HEAD_LINES)) {
    if (!/exposure|integration|shutter/i.test(line)) continue;
    const number = /(?<![\d.,])\d+(?:[.,]\d+)?(?![\d.,])/.exec(line)?.[0];
    const unit = UNITS.find(([form]) => form.test(line))?.[1];
    if (number === undefined || unit === undefined) continue;
    const exposureMs = Number((Number(number.replace(',', '.')) * unit).toPrecision(12));
    if (exposureMs > 0) return exposureMs;
  }
  return null;
}
