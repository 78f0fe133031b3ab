import { createRequire } from 'node:module';
import { emit, isInKernel, showQuantity } from 'halfmax-notebook/display';
import { afterEach, describe, expect, it } from 'vitest';

// A kernel is recognised by its modules being loaded: the test puts stand-ins for them where Node keeps loaded modules.
const { cache } = createRequire(import.meta.url);
const put = (path: string, exports: object): void => {
  cache[path] = { exports } as NodeJS.Module;
};
afterEach(() => {
  for (const path of Object.keys(cache)) if (path.startsWith('/stand-in/')) delete cache[path];
});

describe('emit', () => {
  it('gives the representations back outside of a kernel', () => {
    expect(isInKernel()).toBe(false);
    expect(emit({ 'text/plain': 'a' })).toEqual({ 'text/plain': 'a' });
  });

  it('sends all representations as one output of the cell that runs, and returns nothing', () => {
    const sent: unknown[] = [];
    const jupyter = { lastWriteDisplayData: null as null | ((...args: unknown[]) => void) };
    put('/stand-in/tslab/dist/jupyter.js', jupyter);
    expect(isInKernel()).toBe(false);
    jupyter.lastWriteDisplayData = (...args) => sent.push(args);
    expect(isInKernel()).toBe(true);
    expect(showQuantity('x', { value: 1, standardUncertainty: 0.1 }, 'nm')).toBeUndefined();
    expect(sent).toMatchObject([
      [{ data: { 'text/plain': 'x = (1.00 ± 0.10) nm' }, metadata: {}, transient: {} }, false],
    ]);
  });

  it('falls back to the best representation that the public display can show', () => {
    const shown: unknown[] = [];
    put('/stand-in/tslab/dist/jupyter.js', {});
    put('/stand-in/tslab/dist/public.js', { display: { raw: (...args: unknown[]) => shown.push(args) } });
    expect(emit({ 'text/plain': 'a', 'text/html': '<b>a</b>' })).toBeUndefined();
    expect(emit({ 'text/plain': 'a', 'image/png': 'AAAA' })).toBeUndefined();
    expect(shown).toEqual([
      ['text/html', '<b>a</b>'],
      ['image/png', Buffer.from('AAAA', 'base64')],
    ]);
  });
});
