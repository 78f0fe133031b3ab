// Opens reports in Chromium: nothing of a hostile notebook runs or is fetched, nobody is kept out, stills are what a browser draws, vectors give Node's numbers.
// Needs Chromium (/usr/bin/chromium, or the path in CHROMIUM). Run: npm run build && node tests/further/browser/check.mjs [--save FOLDER]
import { finish } from './bench.mjs';
import { checkHostile } from './hostileReport.mjs';
import { checkSmallReport } from './smallReport.mjs';
import { checkStills } from './stills.mjs';
import { checkVectors } from './vectors.mjs';
import { checkWorkedReport } from './workedReport.mjs';

try {
  await checkSmallReport();
  await checkHostile();
  await checkStills();
  await checkVectors();
  await checkWorkedReport();
} finally {
  await finish();
}
