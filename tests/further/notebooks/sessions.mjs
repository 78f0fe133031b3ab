import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { demoSpec } from '../../../data-demo/generator/demoSpec.mjs';
import { simulateSession } from '../../../data-demo/generator/simulate.mjs';

const demo = join(dirname(fileURLToPath(import.meta.url)), '../../../data-demo/session');

/**
 * Another bench: half the pixels, mounted the other way, another range, another line spread, no site and no beam.
 *
 * @type {import('../../../data-demo/generator/types.mjs').SessionSpec}
 */
const otherBench = {
  ...demoSpec,
  title: 'Two filters on another bench (invented)',
  recorded: '2025-05-02',
  instrument: {
    geometry: { ...demoSpec.instrument.geometry, pixels: 1024, pixelUm: 24, axisNm: 600, reversed: true },
    lineSpread: { shape: 'gaussian', unit: 'nm', start: 1.5, middle: 1.4, end: 1.6, blur: 0.8 },
    throughput: { ...demoSpec.instrument.throughput, centreNm: 590, redEdgeNm: 800, etalon: null },
  },
  detector: {
    ...demoSpec.detector,
    hotPixels: [{ pixel: 700, countsPerMs: 4 }],
    linearity: null,
    declareLinearity: false,
  },
  nominalRange: { startNm: 770, endNm: 425 },
  filters: demoSpec.filters.filter(({ id }) => id === 'ossenvale-s2' || id === 'brennick-twin'),
  trouble: [],
  extra: {},
  formats: [],
  ownScaleErrorNm: [],
};

/**
 * The bench that the colleague's notebook in notebooks/colleague was run on, with filters of its own.
 *
 * @type {import('../../../data-demo/generator/types.mjs').SessionSpec}
 */
const colleagueBench = {
  ...demoSpec,
  title: 'An evening at the club bench of Thornholt (invented)',
  recorded: '2025-04-11',
  detector: { ...demoSpec.detector, linearity: null, declareLinearity: false, hotPixels: [] },
  filters: demoSpec.filters
    .filter(({ id }) => id === 'ossenvale-ha')
    .map((filter) => ({
      ...filter,
      id: 'thornholt-ha',
      label: 'Thornholt club H-alpha',
      bands: [
        {
          ...filter.bands[0],
          shape: /** @type {const} */ ('butterworth'),
          cavities: 3,
          centreNm: 656.4,
          fwhmNm: 3.28,
          peak: 0.9,
        },
      ],
      claims: {},
    })),
  trouble: [],
  extra: {},
  formats: [],
  ownScaleErrorNm: [],
};

/**
 * Writes the session of the colleague's notebook.
 *
 * @param {string} folder where to
 * @returns {string} the session folder
 */
export function makeColleagueSession(folder) {
  return writeSession(join(folder, 'thornholt-2025-04-11'), colleagueBench, 411);
}

/**
 * @param {string} folder
 * @param {import('../../../data-demo/generator/types.mjs').SessionSpec} spec
 * @param {number} seed
 */
function writeSession(folder, spec, seed) {
  for (const { name, content } of simulateSession(spec, seed).files) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  return folder;
}

/**
 * Writes the sessions that notebooks are tried on beside the demonstration.
 *
 * @param {string} folder where to
 * @returns {{ name: string, session: string, lacks?: (notebook: string) => string }[]} and, of a session with gaps,
 *   the name of what a notebook does not find there and has to speak of
 */
export function makeSessions(folder) {
  const other = writeSession(join(folder, 'another-bench'), otherBench, 77);
  // Without the lamp of neon, and without the scans of a filter that stays in the list of filters: the harder case.
  const scanned = ['ossenvale-o3', 'brennick-twin'];
  const missing = 'ossenvale-ha';
  const isThere = (/** @type {{ lamp?: string, filter?: string }} */ { lamp, filter }) =>
    lamp !== 'Ne' && (filter === undefined || scanned.includes(filter));
  const gaps = copyOf(join(folder, 'gaps'), (manifest) => ({
    ...manifest,
    frames: manifest.frames.filter(isThere),
    filters: manifest.filters.filter((/** @type {{ id: string }} */ { id }) =>
      [missing, ...scanned].includes(id),
    ),
    stars: manifest.stars?.filter((/** @type {{ filter: string }} */ { filter }) =>
      [missing, ...scanned].includes(filter),
    ),
  }));
  return [
    { name: 'another bench', session: other },
    {
      name: 'a lamp and a filter missing',
      session: gaps,
      // The lamps are the matter of the first notebook, pictures of stars that of the last; the scans that of all others.
      lacks: (notebook) =>
        notebook.startsWith('01-') ? 'neon' : labelOf(notebook.startsWith('12-') ? 'brennick-twin' : missing),
    },
  ];
}

/** @param {string} id of a filter of the demonstration */
function labelOf(id) {
  const { filters } = JSON.parse(readFileSync(join(demo, 'session.json'), 'utf8'));
  return filters.find((/** @type {{ id: string }} */ filter) => filter.id === id).label;
}

/**
 * @param {string} folder
 * @param {(manifest: Record<string, any>) => { frames: readonly object[] }} change
 */
function copyOf(folder, change) {
  cpSync(demo, folder, { recursive: true });
  const file = join(folder, 'session.json');
  const manifest = JSON.parse(readFileSync(file, 'utf8'));
  const changed = change(manifest);
  if (changed.frames.length === manifest.frames.length) throw new Error(`nothing was left out of ${folder}`);
  writeFileSync(file, `${JSON.stringify(changed, null, 2)}\n`);
  return folder;
}
