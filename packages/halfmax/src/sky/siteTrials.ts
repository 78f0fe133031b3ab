import { splitStream } from '../numeric/index.js';
import { mixSkies } from './mixSkies.js';
import type { SiteStrengths } from './siteStrengths.js';
import type { Sky } from './types.js';
import { type SkyPart, type SkyTrialOptions, strengthTrials } from './uncertainSky.js';
import { vMagnitude } from './vMagnitude.js';

/** A part of a site's sky, and its strength as stated. */
export interface LitPart {
  readonly name: string;
  readonly kind: 'natural' | 'lamp' | 'moon';
  /** Place of a lamp in the mix. */
  readonly index?: number;
  readonly sky: Sky;
  readonly factor: number;
}

const DRAWS = 2000;
/** Streams of the random numbers; lamps take those from `LAMPS` on. */
const BRIGHTNESS = 0;
const AIRGLOW = 1;
const MOON = 2;
const LAMPS = 3;

/**
 * Trials of a site's sky: its brightness is drawn, the airglow varies, lamps fill up what is missing by shares that are
 * drawn, and the moon stands on top.
 *
 * @param parts - natural light, lamps, moon, at their strengths as stated
 * @param brightness - without the moon, V magnitudes per square arcsecond
 * @param strengths - how well each is known
 * @param options - seed and count
 * @returns a part each, with its factors against the strength as stated
 * @throws {RangeError} an uncertainty below 0
 * Source: Monte Carlo of JCGM 101:2008. Where a trial is darker than its natural light, that is scaled down, and there
 * are no lamps; a site without lamps keeps having none.
 */
export function siteTrials(
  parts: readonly LitPart[],
  brightness: number,
  strengths: SiteStrengths,
  options: SkyTrialOptions,
): SkyPart[] {
  const draws = options.draws ?? DRAWS;
  const lit = parts.map(({ sky, factor }) => mixSkies([{ sky, factor }]));
  // Light in V, so that parts add up.
  const flux = lit.map((sky) => 10 ** (-0.4 * vMagnitude(sky)));
  const own = parts.map(({ kind, name, index }) => {
    if (kind === 'lamp') return strengthTrials(strengths.shares[index!]!, options, LAMPS + index!);
    if (kind === 'moon') return strengthTrials(strengths.moon, options, MOON);
    return strengthTrials(name === 'airglow' ? strengths.airglow : 0, options, AIRGLOW);
  });
  const random = splitStream(options.seed ?? 1, BRIGHTNESS);
  const factors = parts.map(() => new Float64Array(draws));
  const sumOf = (kind: LitPart['kind'], k: number): number =>
    parts.reduce((sum, part, p) => (part.kind === kind ? sum + flux[p]! * own[p]![k]! : sum), 0);
  const hasLamps = parts.some(({ kind }) => kind === 'lamp');
  for (let k = 0; k < draws; k++) {
    const wanted = 10 ** (-0.4 * (brightness + strengths.brightness * random.normal()));
    const natural = sumOf('natural', k);
    const lamps = sumOf('lamp', k);
    const scale = hasLamps ? Math.min(1, wanted / natural) : wanted / natural;
    const fill = Math.max(0, wanted - natural) / lamps;
    parts.forEach(({ kind }, p) => {
      const strength = own[p]![k]!;
      factors[p]![k] = kind === 'moon' ? strength : strength * (kind === 'lamp' ? fill : scale);
    });
  }
  return lit.map((sky, p) => ({ sky, factors: factors[p]! }));
}
