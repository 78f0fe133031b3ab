const blockBytes = 2880;

/**
 * Encodes one frame as a FITS file with a single axis, 16-bit unsigned by way of BZERO.
 *
 * Source: FITS Standard 4.0 (2018), sections 3, 4.1, 5.2.
 *
 * @param {Float64Array} counts whole numbers from 0 to 65535
 * @param {readonly (readonly [string, string | number, string])[]} cards keyword, value, comment
 * @returns {Uint8Array}
 */
export function encodeFits(counts, cards) {
  return encode(
    counts,
    [card('NAXIS', '1', 'a spectrum'), card('NAXIS1', String(counts.length), 'pixels along the dispersion')],
    cards,
  );
}

/**
 * Encodes a picture as a FITS file with two axes, 16-bit unsigned by way of BZERO.
 *
 * @param {ArrayLike<number>} counts whole numbers from 0 to 65535, row after row
 * @param {number} width
 * @param {readonly (readonly [string, string | number, string])[]} cards keyword, value, comment
 * @returns {Uint8Array}
 */
export function encodeFitsImage(counts, width, cards) {
  return encode(
    counts,
    [
      card('NAXIS', '2', 'a picture'),
      card('NAXIS1', String(width), 'pixels in a row'),
      card('NAXIS2', String(counts.length / width), 'rows'),
    ],
    cards,
  );
}

/**
 * @param {ArrayLike<number>} counts
 * @param {readonly string[]} axes
 * @param {readonly (readonly [string, string | number, string])[]} cards
 * @returns {Uint8Array}
 */
function encode(counts, axes, cards) {
  const header = [
    card('SIMPLE', 'T', 'conforms to FITS'),
    card('BITPIX', '16', 'bits of a value'),
    ...axes,
    card('BSCALE', '1', ''),
    card('BZERO', '32768', 'unsigned counts'),
    ...cards.map(([key, value, comment]) =>
      card(key, typeof value === 'number' ? String(value) : `'${value.padEnd(8)}'`, comment),
    ),
    'END'.padEnd(80),
  ].join('');
  const headerBytes = Math.ceil(header.length / blockBytes) * blockBytes;
  const bytes = new Uint8Array(headerBytes + Math.ceil((2 * counts.length) / blockBytes) * blockBytes);
  bytes.set(new TextEncoder().encode(header.padEnd(headerBytes)));
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < counts.length; i++) view.setInt16(headerBytes + 2 * i, (counts[i] ?? 0) - 32768, false);
  return bytes;
}

/**
 * @param {string} key
 * @param {string} value
 * @param {string} comment
 * @returns {string} 80 characters
 */
function card(key, value, comment) {
  const shown = value.startsWith("'") ? value.padEnd(20) : value.padStart(20);
  return `${key.padEnd(8)}= ${shown}${comment === '' ? '' : ` / ${comment}`}`.padEnd(80);
}
