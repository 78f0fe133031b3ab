// The vector code in a browser: it is compiled on the main thread of a page, and gives the bytes that Node gives.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { check, open, work } from './bench.mjs';
import { trialsOfABand } from './vectorTrials.mjs';

export async function checkVectors() {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL('./vectorTrials.mjs', import.meta.url))],
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'program',
    platform: 'browser',
    logLevel: 'error',
  });
  const page = join(work, 'vectors.html');
  const script = outputFiles[0].text.replaceAll('</script', '<\\/script');
  writeFileSync(page, `<!doctype html><title>vectors</title><script>${script}</script>`);
  const { page: tab, seen } = await open(page);
  const there = await tab.evaluate('program.trialsOfABand()').catch((fault) => String(fault));
  const here = trialsOfABand();
  check('vectors: a page has no script fault', seen.faults.length === 0, seen.faults.join(' '));
  check(
    'vectors: a page gives the numbers that Node gives, to the last bit',
    here.length === 200 && JSON.stringify(there) === JSON.stringify(here),
    JSON.stringify(there).slice(0, 60),
  );
  await seen.context.close();
}
