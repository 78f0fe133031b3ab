// Imports every entry of the package and prints the names that each offers, as JSON.
import { createRequire } from 'node:module';
import * as whole from 'halfmax';
import * as beam from 'halfmax/beam';
import * as calibration from 'halfmax/calibration';
import * as correction from 'halfmax/correction';
import * as frames from 'halfmax/frames';
import * as halo from 'halfmax/halo';
import * as measure from 'halfmax/measure';
import * as metrics from 'halfmax/metrics';
import * as numeric from 'halfmax/numeric';
import * as reference from 'halfmax/reference';
import * as session from 'halfmax/session';
import * as sky from 'halfmax/sky';
import * as transmittance from 'halfmax/transmittance';
import * as uncertainty from 'halfmax/uncertainty';
import * as verdict from 'halfmax/verdict';

const rooms = {
  beam,
  calibration,
  correction,
  frames,
  halo,
  measure,
  metrics,
  numeric,
  reference,
  session,
  sky,
  transmittance,
  uncertainty,
  verdict,
};
const names = { halfmax: Object.keys(whole) };
for (const [room, module] of Object.entries(rooms)) names[`halfmax/${room}`] = Object.keys(module);
const { version } = createRequire(import.meta.url)('halfmax/package.json');
process.stdout.write(`${JSON.stringify({ version, names })}\n`);
