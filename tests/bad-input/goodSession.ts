import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { randomStream } from '../../packages/halfmax/src/numeric/index.js';
import { lampLines, lampSpecies } from '../../packages/halfmax/src/reference/index.js';

/** A manifest that tests may change at will. */
// biome-ignore lint/suspicious/noExplicitAny: tests put every kind of wrong value into it
export type LooseManifest = any;

/** A session before it is written: the manifest and the text of every frame file. */
export interface SessionDraft {
  manifest: LooseManifest;
  readonly files: Map<string, string | Uint8Array>;
}

const pixels = 1024;
const startNm = 390;
const endNm = 790;

const wavelengthAt = (pixel: number): number => startNm + ((endNm - startNm) * pixel) / (pixels - 1);

/** Counts per ms of each role, before dark and noise. Invented: a small grating instrument of 1.2 nm line width. */
function light(role: string): number[] {
  const species = lampSpecies('Hg-Ar') ?? [];
  const lines = lampLines.filter((line) => species.includes(line.species) && !line.weak);
  return Array.from({ length: pixels }, (_, p) => {
    const nm = wavelengthAt(p);
    const gauss = (centre: number, sigma: number): number => Math.exp(-0.5 * ((nm - centre) / sigma) ** 2);
    if (role === 'lamp') {
      return lines.reduce(
        (sum, line) =>
          sum + 1500 * gauss(line.wavelengthNm, 0.5) * ((line.relativeIntensity ?? 100) > 0 ? 1 : 0),
        0,
      );
    }
    const open = role === 'dark' ? 0 : 900 * gauss(620, 120);
    return role === 'filtered' ? open * 0.9 * gauss(656.3, 2.97) : open;
  });
}

function frame(role: string, exposureMs: number, seed: number): string {
  const random = randomStream(seed);
  const rows = light(role).map((rate, p) => {
    const counts = 1000 + 0.5 * exposureMs + rate * exposureMs;
    const noisy = counts + Math.sqrt(25 + 0.5 * rate * exposureMs) * random.normal();
    return `${p}\t${Math.max(0, Math.round(noisy))}`;
  });
  return `Invented bench\r\nExposure (ms): ${exposureMs}\r\nPixel\tCounts\r\n${rows.join('\r\n')}\r\n`;
}

let built: ReadonlyMap<string, string> | null = null;

function frameFiles(): ReadonlyMap<string, string> {
  if (built !== null) return built;
  const files = new Map<string, string>();
  let seed = 1;
  for (const [role, exposureMs] of [
    ['dark', 20],
    ['lamp', 20],
    ['open', 20],
    ['filtered', 20],
  ] as const) {
    for (let i = 1; i <= 3; i++) files.set(`frames/${role}-${i}.txt`, frame(role, exposureMs, seed++));
  }
  built = files;
  return files;
}

/** A small session with nothing wrong in it: 12 frames of 1024 pixels, one filter. */
export function goodSession(): SessionDraft {
  return {
    files: new Map<string, string | Uint8Array>(frameFiles()),
    manifest: {
      format: 'halfmax-session/1',
      title: 'Bench of an invented observatory',
      recorded: '2026-01-31',
      detector: { pixels, saturationCounts: 65535, wavelengthStartNm: startNm, wavelengthEndNm: endNm },
      frames: [
        { role: 'dark', exposureMs: 20, files: ['frames/dark-*.txt'] },
        { role: 'lamp', lamp: 'Hg-Ar', exposureMs: 20, files: ['frames/lamp-*.txt'] },
        { role: 'open', exposureMs: 20, files: ['frames/open-*.txt'], takenAt: '2026-01-31T20:15:00Z' },
        {
          role: 'filtered',
          filter: 'ha',
          exposureMs: 20,
          files: ['frames/filtered-*.txt'],
          takenAt: '2026-01-31T20:20:00',
        },
      ],
      filters: [
        {
          id: 'ha',
          label: 'Invented H-alpha 7',
          lines: ['H-alpha'],
          claims: { fwhmNm: { value: 7, tolerance: 0.5 } },
        },
      ],
    },
  };
}

/** Writes a draft into a folder; a manifest that is a text or bytes is written as it stands. */
export function writeSession(folder: string, draft: SessionDraft): void {
  mkdirSync(folder, { recursive: true });
  const { manifest } = draft;
  const asIs = typeof manifest === 'string' || manifest instanceof Uint8Array;
  writeFileSync(join(folder, 'session.json'), asIs ? manifest : JSON.stringify(manifest, null, 2));
  for (const [name, content] of draft.files) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
}
