import { type Calibration, COUPLING_PIXELS } from '../calibration/index.js';
import { type ReducedFrames, sameExposure } from '../frames/index.js';
import type { BenchSession } from '../session/benchSession.js';
import type { Assumption } from './measurement.js';

/** Half width of the relative non-linearity that is left after the session's polynomial, and without one. */
const NON_LINEARITY_CORRECTED = 0.003;
const NON_LINEARITY_PLAIN = 0.005;
/** Relative flicker of a lamp where too few frames show it. */
const FLICKER = 0.002;
/** Relative drift of a lamp that was scanned but once: lamps drift 2 % and more in minutes. */
const SINGLE_OPEN_DRIFT = 0.02;

/** Values taken where the session states none, and the list of them to be printed. */
export interface Assumed {
  readonly nonLinearity: number;
  readonly flicker: number;
  readonly singleOpenDrift: number;
  readonly list: readonly Assumption[];
}

/**
 * The inputs that nobody stated, with the values taken for them.
 *
 * @param session - the session
 * @param frames - its clean frames
 * @param calibration - its calibration
 * @returns values and the list
 */
export function assumptions(
  session: BenchSession,
  frames: Pick<ReducedFrames, 'flicker'>,
  calibration: Calibration,
): Assumed {
  const polynomial = session.detector.linearity !== null;
  const nonLinearity = polynomial ? NON_LINEARITY_CORRECTED : NON_LINEARITY_PLAIN;
  const list: Assumption[] = [
    {
      input: `non-linearity of the detector left ${polynomial ? 'after the polynomial' : 'without a polynomial'}, half width`,
      value: nonLinearity,
      unit: 'relative',
      source: polynomial
        ? 'below 0.3 % after correction: doi:10.1088/1681-7575/aadd7f'
        : 'common practice, no source',
    },
    {
      input: 'stray light of the instrument, over the open beam',
      value: 0.001,
      unit: 'relative',
      source: 'typical of a single monochromator: ASTM E387',
    },
  ];
  if (calibration.shifts.length === 0) {
    list.push({
      input: 'place of broadband light against lamp light, standard uncertainty',
      value: COUPLING_PIXELS,
      unit: 'pixel',
      source: 'common practice, no source',
    });
  }
  list.push({
    input: 'drift of the dark between its frames and the scans, which the frames do not show',
    value: 0,
    unit: 'counts',
    source: 'none is taken: common practice, no source',
  });
  list.push(...darkAssumptions(session));
  if (session.entries.filter((entry) => entry.role === 'open').length === 1) {
    list.push({
      input: 'drift of the broadband lamp, which a single open scan does not show, standard uncertainty',
      value: SINGLE_OPEN_DRIFT,
      unit: 'relative',
      source: 'measured lamps: 0.2 to 7 % in 100 s; common practice, no source',
    });
  }
  if (frames.flicker === null) {
    list.push({
      input: 'flicker of the broadband lamp from frame to frame, standard uncertainty',
      value: FLICKER,
      unit: 'relative',
      source: 'common practice, no source',
    });
  }
  return {
    nonLinearity,
    flicker: frames.flicker?.relative ?? FLICKER,
    singleOpenDrift: SINGLE_OPEN_DRIFT,
    list,
  };
}

/** What is taken of darks at the exposures of open and filtered scans that they neither have nor bracket. */
function darkAssumptions({ entries }: Pick<BenchSession, 'entries'>): Assumption[] {
  const exposures = (roles: readonly string[]): number[] =>
    entries.filter(({ role }) => roles.includes(role)).map(({ exposureMs }) => exposureMs);
  const darks = exposures(['dark']);
  const least = Math.min(...darks);
  const most = Math.max(...darks);
  const isUnknown = (exposureMs: number): boolean =>
    exposureMs < least * (1 - sameExposure) || exposureMs > most * (1 + sameExposure);
  if (!exposures(['open', 'filtered']).some(isUnknown)) return [];
  if (most <= least * (1 + sameExposure)) {
    return [
      {
        input:
          'share of the dark that may grow with the exposure, which darks of one exposure do not show: from 0 to',
        value: 1,
        unit: 'relative',
        source: 'all that is possible, rectangular: JCGM 100:2008, 4.3.7',
      },
    ];
  }
  return [
    {
      input:
        'error of the dark carried on beyond the exposures of the darks, over the step carried on, half width',
      value: 1,
      unit: 'relative',
      source: 'common practice, no source',
    },
  ];
}
