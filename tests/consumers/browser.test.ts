import vm from 'node:vm';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { randomSpec } from '../../data-demo/generator/randomSpec.mjs';
import { simulateFrames } from '../../data-demo/generator/simulate.mjs';
import type { BenchSession } from '../../packages/halfmax/src/session/index.js';
import { packageEntries, packageFolder } from './packageEntries.mjs';

/** The entries as one script for a browser; nothing is left outside, so that a Node module fails the build. */
async function bundle(entries: readonly string[]): Promise<{ code: string; modules: string[] }> {
  const lines = entries.map((entry, i) => `import * as entry${i} from '${entry}';`);
  const list = entries.map((entry, i) => `'${entry}': entry${i}`).join(', ');
  const { outputFiles, metafile } = await build({
    stdin: { contents: `${lines.join('\n')}\nexport default { ${list} };`, resolveDir: packageFolder },
    bundle: true,
    platform: 'browser',
    format: 'iife',
    globalName: 'bundled',
    metafile: true,
    write: false,
    logLevel: 'silent',
  });
  return { code: outputFiles[0]!.text, modules: Object.keys(metafile.inputs) };
}

/**
 * Runs a script where nothing of Node is: what a browser and Node both have comes with the language, but for `atob`,
 * which the vector code is unpacked with.
 */
function runBare(code: string, given: Record<string, unknown>, expression: string): unknown {
  const context = vm.createContext({ given: JSON.stringify(given), atob });
  // A look at a global goes through the host and is slow; as a constant it is not.
  const names: string[] = vm.runInContext('Object.getOwnPropertyNames(globalThis)', context);
  const fixed = ['NaN', 'Infinity', 'undefined', 'globalThis', 'eval', 'given'];
  const constants = names.filter((name) => !fixed.includes(name)).join(', ');
  vm.runInContext(`{ const { ${constants} } = globalThis; ${code} }`, context);
  expect(vm.runInContext('[typeof process, typeof require, typeof Buffer].join()', context)).toBe(
    'undefined,undefined,undefined',
  );
  return JSON.parse(vm.runInContext(`JSON.stringify(${expression})`, context) as string);
}

describe('in a browser', () => {
  const browser = packageEntries()
    .filter(({ nodeOnly }) => !nodeOnly)
    .map(({ entry }) => entry);

  it('all entries are offered but the one that reads files', () => {
    const nodeOnly = packageEntries().filter((entry) => entry.nodeOnly);
    expect(nodeOnly.map(({ entry }) => entry)).toEqual(['halfmax/session']);
  });

  it.each(browser)('%s builds without a module of Node and runs', async (entry) => {
    const { code, modules } = await bundle([entry]);
    expect(
      modules.filter(
        (path) => path.includes('node:') || /bundle\/(session|cli|measureWorker|blockWorker)\./.test(path),
      ),
    ).toEqual([]);
    expect(code).not.toMatch(/\brequire\("/);
    expect(runBare(code, {}, `Object.keys(bundled.default['${entry}'])`)).not.toEqual([]);
  });

  it('halfmax/session is refused by the build', async () => {
    await expect(bundle(['halfmax/session'])).rejects.toThrow(/halfmax\/session/);
  });

  it('halfmax/metrics measures a passband, the same as under Node', async () => {
    const { code } = await bundle(['halfmax/metrics']);
    const expression = `(() => {
      const { describeBand, findBands } = bundled.default['halfmax/metrics'];
      const wavelengthNm = Float64Array.from({ length: 301 }, (_, i) => 641.3 + 0.1 * i);
      const transmittance = wavelengthNm.map((nm) => 0.9 * 2 ** -(((nm - 656.3) / 2) ** 2));
      const curve = { wavelengthNm, transmittance, standardUncertainty: new Float64Array(301).fill(0.001) };
      return findBands(curve).map((band) => describeBand(curve, band));
    })()`;
    const found = runBare(code, {}, expression) as {
      fwhmNm: { value: number; standardUncertainty: number };
    }[];
    // The Gaussian is built with a full width of 4 nm.
    const { value, standardUncertainty } = found[0]!.fwhmNm;
    expect(Math.abs(value - 4)).toBeLessThan(4 * standardUncertainty);
    const metrics = await import('halfmax/metrics');
    const under = new Function('bundled', `return ${expression}`)({
      default: { 'halfmax/metrics': metrics },
    });
    expect(found).toEqual(JSON.parse(JSON.stringify(under)));
  });

  it('halfmax/measure measures a session in memory, the same as under Node', { tags: ['long'] }, async () => {
    const spec = randomSpec(3, {
      filters: 1,
      hint: true,
      pixels: 1024,
      rangeNm: [390, 790],
      spanNm: [350, 400],
    });
    const simulated = simulateFrames(spec, 3);
    const { entries, detector, manifest } = simulated;
    const session: Omit<BenchSession, 'entries'> = {
      title: 'A session in memory',
      recorded: null,
      detector,
      filters: (manifest.filters as BenchSession['filters']).map((filter) => ({
        id: filter.id,
        label: filter.label,
        lines: filter.lines,
        claims: filter.claims ?? {},
        price: null,
      })),
      decision: null,
      bench: { fNumber: null, temperatureC: null, spot: null },
      manifest: {},
      inputs: [],
      warnings: [],
    };
    // Typed arrays do not go through JSON: counts travel as plain numbers and are put back on arrival.
    const plain = entries.map((entry) => ({
      ...entry,
      scans: entry.scans.map((scan) => ({ ...scan, counts: Array.from(scan.counts), wavelengthNm: null })),
    }));
    const work = `(() => {
      const { session, entries } = JSON.parse(given);
      for (const { scans } of entries) for (const scan of scans) scan.counts = Float64Array.from(scan.counts);
      const provenance = { package: 'halfmax', version: 'test', node: 'none', seed: 1, draws: 1000 };
      return bundled.default['halfmax/measure'].measureSession({ ...session, entries }, { provenance }).measurement;
    })()`;
    const given = { session, entries: plain };
    const found = runBare((await bundle(['halfmax/measure'])).code, given, work) as {
      filters: { bands: { asMeasured: { fwhmNm: { value: number; standardUncertainty: number } } }[] }[];
    };
    const { value, standardUncertainty } = found.filters[0]!.bands[0]!.asMeasured.fwhmNm;
    const truth = simulated.truth.filters[0]!.bands[0]!.asMeasured.fwhmNm;
    expect(Math.abs(value - truth!)).toBeLessThan(4 * standardUncertainty);
    const measure = await import('halfmax/measure');
    const under = new Function('bundled', 'given', `return ${work}`)(
      { default: { 'halfmax/measure': measure } },
      JSON.stringify(given),
    );
    expect(found).toEqual(JSON.parse(JSON.stringify(under)));
  });
});
