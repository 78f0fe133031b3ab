/** Where a command writes. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly error: (text: string) => void;
  /** Whether a progress line makes sense: a person looks at standard error. */
  readonly showsProgress: boolean;
}

/**
 * The terminal of this process.
 *
 * @returns standard output and standard error
 */
export function processTerminal(): Terminal {
  return {
    out: (text) => process.stdout.write(text),
    error: (text) => process.stderr.write(text),
    showsProgress: process.stderr.isTTY === true,
  };
}
