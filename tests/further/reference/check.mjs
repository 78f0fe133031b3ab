// Makes every tests/reference/*/data.json anew with its generate.py and compares it with the committed one.
//
//   node tests/further/reference/check.mjs [PYTHON]
//
// Texts and shapes must be the same; numbers may differ in their last digits, as they do between versions of numpy and
// scipy or kinds of processor: by 1e-9 of themselves. `versions` says what a file was made with and is not compared.
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const RELATIVE = 1e-9;
const home = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'reference');
const python = process.argv[2] ?? '/usr/bin/python3';
let passed = 0;
let failed = 0;

const topics = readdirSync(home).filter((topic) => existsSync(join(home, topic, 'generate.py')));
for (const topic of topics.sort()) {
  const { good, detail } = compareTopic(topic);
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${topic}: ${detail}`);
}
console.log(`${passed} passed, ${failed} failed`);
if (failed > 0 || passed === 0) process.exitCode = 1;

/** Runs a topic's generator in a folder of its own: some write data.json beside themselves, some print it. */
function compareTopic(topic) {
  const folder = mkdtempSync(join(tmpdir(), `halfmax-reference-${topic}-`));
  try {
    for (const item of readdirSync(join(home, topic), { withFileTypes: true })) {
      if (item.isFile() && item.name !== 'data.json')
        copyFileSync(join(home, topic, item.name), join(folder, item.name));
    }
    const run = spawnSync(python, ['generate.py'], { cwd: folder, encoding: 'utf8', maxBuffer: 1 << 28 });
    if (run.error !== undefined) return { good: false, detail: run.error.message };
    if (run.status !== 0) return { good: false, detail: run.stderr.trim().split('\n').slice(-3).join(' | ') };
    const written = join(folder, 'data.json');
    const fresh = existsSync(written) ? readFileSync(written, 'utf8') : run.stdout;
    const kept = readFileSync(join(home, topic, 'data.json'), 'utf8');
    if (fresh === kept) return { good: true, detail: 'the same bytes' };
    const told = { numbers: 0, largest: 0, faults: [] };
    compare(withoutVersions(JSON.parse(kept)), withoutVersions(JSON.parse(fresh)), '', told);
    const spread = `${told.numbers} numbers differ, by ${told.largest.toExponential(1)} of themselves at most`;
    if (told.faults.length === 0) return { good: true, detail: spread };
    return { good: false, detail: `${spread}; ${told.faults.slice(0, 5).join('; ')}` };
  } catch (error) {
    return { good: false, detail: error.message };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function withoutVersions({ versions: _, ...rest }) {
  return rest;
}

function compare(kept, fresh, place, told) {
  if (typeof kept === 'number' && typeof fresh === 'number') {
    if (kept === fresh) return;
    const apart = Math.abs(kept - fresh) / Math.max(Math.abs(kept), Math.abs(fresh));
    told.numbers++;
    told.largest = Math.max(told.largest, apart);
    if (!(apart <= RELATIVE)) told.faults.push(`${place}: ${kept} kept, ${fresh} made anew`);
  } else if (Array.isArray(kept) && Array.isArray(fresh) && kept.length === fresh.length) {
    for (const [i, item] of kept.entries()) compare(item, fresh[i], `${place}[${i}]`, told);
  } else if (isRecord(kept) && isRecord(fresh) && Object.keys(kept).join() === Object.keys(fresh).join()) {
    for (const key of Object.keys(kept)) compare(kept[key], fresh[key], `${place}.${key}`, told);
  } else if (kept !== fresh) {
    told.faults.push(`${place}: ${shown(kept)} kept, ${shown(fresh)} made anew`);
  }
}

function isRecord(value) {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}

function shown(value) {
  return JSON.stringify(value)?.slice(0, 60);
}
