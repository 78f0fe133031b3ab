import { BadInputError } from '../errors.js';
import type { LabelledLamp } from './roughScale.js';

/** Refuses a session whose lamps give no scale, with the reason and what to do. */
export function refuseLamps(lamps: readonly LabelledLamp[], what: string, fix: string): never {
  const place = lamps.map(({ lamp }) => lamp.where).join(', ');
  throw new BadInputError([
    { where: 'session.json', place, what: `the lamp frames give no wavelength scale: ${what}`, fix },
  ]);
}
