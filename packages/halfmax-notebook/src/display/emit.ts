import { createRequire } from 'node:module';
import type { MimeBundle } from '../notebook/index.js';

type WriteDisplayData = (message: object, update: boolean) => void;

interface JupyterModule {
  readonly lastWriteDisplayData?: WriteDisplayData | null;
}

interface PublicModule {
  readonly display?: { raw(mime: string, data: unknown): void };
}

/** What the fall-back shows, the first that is there. */
const PREFERENCE = ['image/png', 'text/html', 'text/markdown', 'text/latex', 'text/plain'];

/**
 * Shows one output with several representations: in the cell that runs, where there is one.
 *
 * In a tslab kernel all representations travel in one message; should that kernel no longer offer the way, the best of
 * them goes through its public display. The kernel is recognised by its modules being loaded already, so that nothing is
 * loaded outside of one.
 *
 * @param data - representations by MIME type
 * @param metadata - of the output
 * @returns nothing inside a kernel, so that a cell that ends with the call prints nothing more; the representations outside
 */
export function emit(
  data: MimeBundle,
  metadata: Readonly<Record<string, unknown>> = {},
): MimeBundle | undefined {
  const write = loadedModule<JupyterModule>('/tslab/dist/jupyter.js')?.lastWriteDisplayData;
  if (typeof write === 'function') {
    write({ data, metadata, transient: {} }, false);
    return undefined;
  }
  const display = loadedModule<PublicModule>('/tslab/dist/public.js')?.display;
  if (display !== undefined) {
    const mime = PREFERENCE.find((name) => name in data);
    if (mime !== undefined) {
      const value = data[mime];
      display.raw(mime, mime === 'image/png' ? Buffer.from(String(value), 'base64') : value);
      return undefined;
    }
  }
  return data;
}

/**
 * Whether a cell of a kernel would show what is emitted now.
 *
 * @returns true inside a kernel
 */
export function isInKernel(): boolean {
  return typeof loadedModule<JupyterModule>('/tslab/dist/jupyter.js')?.lastWriteDisplayData === 'function';
}

/** Exports of a module that is loaded already, by the end of its path; the name is only looked up, never loaded. */
function loadedModule<T>(ending: string): T | undefined {
  const { cache } = createRequire(import.meta.url);
  for (const path of Object.keys(cache))
    if (path.replaceAll('\\', '/').endsWith(ending)) return cache[path]?.exports as T | undefined;
  return undefined;
}
