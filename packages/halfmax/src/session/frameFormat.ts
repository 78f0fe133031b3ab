/** Formats of a frame file. */
export type FrameFormat = 'fits' | 'jcamp' | 'text';

/**
 * The format of a frame file by its first bytes, whatever its name.
 *
 * @param bytes - the file, or its beginning
 * @returns `fits` for a file that begins with SIMPLE, `jcamp` for one whose first record is ##TITLE, else `text`
 */
export function frameFormat(bytes: Uint8Array): FrameFormat {
  const head = String.fromCharCode(...bytes.subarray(0, 512));
  if (/^SIMPLE {2}=/.test(head)) return 'fits';
  // UTF-16 shows as letters with zeros between them.
  const letters = head.replaceAll('\0', '').replace(/^(?:\u00ef\u00bb\u00bf|\u00ff\u00fe|\u00fe\u00ff)/, '');
  return /^\s*##\s*TITLE\s*=/i.test(letters) ? 'jcamp' : 'text';
}
