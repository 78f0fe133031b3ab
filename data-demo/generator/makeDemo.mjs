import { compactJson } from './compactJson.mjs';
import { demoSeed, demoSpec } from './demoSpec.mjs';
import { simulateSession } from './simulate.mjs';

/**
 * The files of the demonstration session and its truth, in memory.
 *
 * @returns {{ files: { name: string, content: string | Uint8Array }[], truth: string, session: ReturnType<typeof simulateSession> }}
 */
export function makeDemo() {
  const session = simulateSession(demoSpec, demoSeed);
  const { truth } = session;
  const rounded = {
    about: 'What the simulated bench was given; no measurement knows it. Wavelengths in air, nm.',
    seed: demoSeed,
    instrument: demoSpec.instrument,
    detector: demoSpec.detector,
    filterCurves: demoSpec.filters.map(({ id, bands, blockingOd, leak }) => ({
      id,
      bands,
      blockingOd,
      leak: leak ?? null,
    })),
    filters: truth.filters,
    lamps: truth.lamps,
    lines: truth.lines.filter((line) => line.countsPerMs > 0.05),
    lampLevels: truth.lampLevels,
    trouble: truth.trouble,
    stars: session.stars,
    wavelengthNm: Array.from(truth.wavelengthNm),
    lineSpreadNm: Array.from(truth.lineSpreadNm),
  };
  // Eight digits are below any use, and above what a machine's own logarithm may differ by.
  const plain = JSON.parse(
    JSON.stringify(rounded, (_, value) => (typeof value === 'number' ? Number(value.toPrecision(8)) : value)),
  );
  return { files: session.files, truth: `${compactJson(plain, 140)}\n`, session };
}
