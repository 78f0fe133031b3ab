// The vector code is what its sources give, and reads every band of the demonstration as the plain code does, at noise
// from a tenth to thirty times as large. Run: node tests/further/vector/check.mjs, after a build.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { crossingReader, crossingRows } from 'halfmax/metrics';
import { randomStream } from 'halfmax/numeric';
import { bandOf } from '../../bench/bandOf.mjs';

const BATCHES = 80;
const scales = [0.1, 1, 5, 30];
let passed = 0;
let failed = 0;
function check(name, isRight, detail) {
  process.stdout.write(`${isRight ? 'pass' : 'FAIL'}  ${name}: ${detail}\n`);
  if (isRight) passed++;
  else failed++;
}

const root = fileURLToPath(new URL('../../..', import.meta.url));
const made = spawnSync(process.execPath, ['packages/halfmax/scripts/generate-vector.mjs', '--check'], {
  cwd: root,
  encoding: 'utf8',
});
check('code made anew from assembly/', made.status === 0, made.status === 0 ? 'the same bytes' : made.stderr);

/** Reads noisy trials in both ways: largest relative difference, trials with a number in one way alone, those with none. */
function compare({ curve, range, lineSpreadNm }, scale) {
  const standardUncertainty = curve.standardUncertainty.map((u) => u * scale);
  const noisy = { ...curve, standardUncertainty };
  const reader = crossingReader(noisy, range, { lineSpreadNm });
  const { firstPixel, endPixel, trials, read } = crossingRows(noisy, range, { lineSpreadNm });
  const pixels = new Float64Array((endPixel - firstPixel) * trials);
  const found = new Float64Array(4 * trials);
  const drawn = Float64Array.from(curve.transmittance);
  const single = new Float64Array(4);
  const stream = randomStream(21);
  const sums = { apart: 0, differ: 0, none: 0 };
  for (let batch = 0; batch < BATCHES; batch++) {
    for (let i = firstPixel, at = 0; i < endPixel; i++)
      for (let trial = 0; trial < trials; trial++)
        pixels[at++] = curve.transmittance[i] + standardUncertainty[i] * stream.normal();
    read(pixels, found);
    for (let trial = 0; trial < trials; trial++) {
      for (let i = firstPixel; i < endPixel; i++) drawn[i] = pixels[(i - firstPixel) * trials + trial];
      const has = reader.read(drawn, single);
      if (!has) sums.none++;
      for (let k = 0; k < 4; k++) {
        const other = found[k * trials + trial];
        if (has === Number.isNaN(other)) sums.differ++;
        else if (has) sums.apart = Math.max(sums.apart, Math.abs(other / single[k] - 1));
      }
    }
  }
  return { ...sums, draws: BATCHES * trials };
}

const { filters } = JSON.parse(readFileSync(`${root}data-demo/session/session.json`, 'utf8'));
for (const { id } of filters) {
  let bands = 0;
  for (;;) {
    const band = await bandOf(id, bands).catch((fault) => (bands === 0 ? Promise.reject(fault) : null));
    if (band === null) break;
    bands++;
    for (const scale of scales) {
      const { apart, differ, none, draws } = compare(band, scale);
      const detail = `${apart.toExponential(1)} apart in ${draws} trials, ${none} without a number`;
      check(`${id}, band ${bands}, noise times ${scale}`, apart < 1e-9 && differ === 0, detail);
    }
  }
  check(`${id}: bands read`, bands > 0, `${bands}`);
}
process.stdout.write(`${passed} passed, ${failed} failed\n`);
process.exitCode = failed > 0 ? 1 : 0;
