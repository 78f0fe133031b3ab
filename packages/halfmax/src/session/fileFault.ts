const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'it does not exist',
  EACCES: 'no permission',
  EPERM: 'no permission',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of its path is not a folder',
  ELOOP: 'its links lead in a circle',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'its name is too long',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is read-only',
  EEXIST: 'it is in the way',
  ENOTEMPTY: 'it is in the way',
  EIO: 'the disk reports an error',
};

/**
 * Why the system refused a file, in a few words.
 *
 * @param error - as thrown by node:fs
 * @returns words without a full stop
 * @throws the error itself when it is none of the file system
 * @example
 * fileFault(Object.assign(new Error(), { code: 'ENOSPC' })); // => 'the disk is full'
 */
export function fileFault(error: unknown): string {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== 'string' || !(error instanceof Error)) throw error;
  if (code.startsWith('ERR_')) throw error;
  return reasons[code] ?? `the system says ${code}`;
}
