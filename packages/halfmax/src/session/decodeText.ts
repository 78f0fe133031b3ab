import { refuse } from '../errors.js';

/** Control characters that no text file holds: all below blank but tab, line breaks, form feed and the old end-of-file mark. */
function holdsControlCharacters(text: string): boolean {
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c < 32 && c !== 9 && c !== 10 && c !== 11 && c !== 12 && c !== 13 && c !== 26) return true;
  }
  return false;
}

/**
 * Bytes of a text file to text: UTF-8, UTF-16 with a byte-order mark, else Latin-1 (degree and micro signs of older
 * programs).
 *
 * @param bytes - the whole file
 * @param fileName - named in messages
 * @param complaint - what to say of a binary file
 * @param fix - and what to do about it
 * @returns the text without byte-order mark
 * @throws {BadInputError} control characters: a binary file
 * @example
 * decodeText(new Uint8Array([0xb5, 0x6d]), 'a.txt'); // => 'µm'
 */
export function decodeText(
  bytes: Uint8Array,
  fileName: string,
  complaint: string = 'is not a text',
  fix: string = 'is it the right file?',
): string {
  let text: string;
  if (bytes[0] === 0xff && bytes[1] === 0xfe) text = new TextDecoder('utf-16le').decode(bytes);
  else if (bytes[0] === 0xfe && bytes[1] === 0xff) text = new TextDecoder('utf-16be').decode(bytes);
  else {
    try {
      text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    } catch {
      text = new TextDecoder('latin1').decode(bytes);
    }
  }
  if (holdsControlCharacters(text)) {
    refuse(fileName, '', `${complaint}: it holds bytes that no text has`, fix);
  }
  return text;
}
