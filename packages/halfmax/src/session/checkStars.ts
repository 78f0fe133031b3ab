import { asNumber, asRecord, asText, type LooseRecord } from './manifest.js';
import { quoteValue } from './quoteValue.js';

/** Collects what is found. */
interface StarFindings {
  refuse(place: string, what: string, fix: string): void;
  warn(what: string): void;
}

/** Fields that mean nothing without another. */
const COMPANIONS = [
  ['shortExposureS', 'shortFile'],
  ['magnitudeUncertainty', 'magnitude'],
  ['fNumberUncertainty', 'fNumber'],
] as const;

/** Numbers of a limit, by the kind that they belong to. */
const LIMIT_FIELDS: Readonly<Record<string, readonly string[]>> = {
  share: ['atMost'],
  surface: ['atLeast'],
  noise: [
    'hours',
    'electronsPerCount',
    'brighterBy',
    'sky',
    'dark',
    'readNoise',
    'frameS',
    'pixels',
    'threshold',
  ],
};

/**
 * Checks what a schema cannot say of the stars of a session: ids that must be known, fields that belong together.
 *
 * @param stars - entries of `stars`
 * @param ids - of the filters
 * @param root - the whole manifest
 * @param found - gets every problem and warning
 */
export function checkStars(
  stars: readonly LooseRecord[],
  ids: readonly string[],
  root: LooseRecord,
  found: StarFindings,
): void {
  const hasReducer = asRecord(asRecord(root['beam'])['reducer'])['factor'] !== undefined;
  stars.forEach((star, i) => {
    const place = `stars[${i}]`;
    const filter = asText(star['filter']);
    if (filter !== null && !ids.includes(filter)) {
      const what = `${quoteValue(filter)} is not the id of any filter`;
      found.refuse(`${place}.filter`, what, 'use an id from filters');
    }
    const fNumber = asNumber(star['fNumber']);
    const uncertainty = asNumber(star['fNumberUncertainty']);
    if (fNumber !== null && uncertainty !== null && uncertainty >= fNumber) {
      const what = `is ${uncertainty}, must be below fNumber ${fNumber}`;
      found.refuse(`${place}.fNumberUncertainty`, what, 'correct it or leave it out');
    }
    const [isShort, isMagnitude] = [star['shortFile'] !== undefined, star['magnitude'] !== undefined];
    if (isShort && isMagnitude)
      found.refuse(`${place}.shortFile`, 'does not go with magnitude', 'keep one of them');
    if (isMagnitude && star['zeroPoint'] === undefined)
      found.refuse(`${place}.zeroPoint`, 'is missing, and magnitude needs it', 'give both');
    if (!isMagnitude && star['zeroPoint'] !== undefined)
      found.refuse(`${place}.magnitude`, 'is missing, and zeroPoint needs it', 'give both');
    for (const [field, needs] of COMPANIONS) {
      if (star[field] !== undefined && star[needs] === undefined)
        found.warn(`${place}.${field} has no meaning without ${needs}; not used`);
    }
    if (star['movedSpacingMm'] !== undefined && star['fNumberBefore'] === undefined && !hasReducer)
      found.warn(`${place}.movedSpacingMm has no meaning without fNumberBefore; not used`);
    checkLimit(asRecord(star['limit']), `${place}.limit`, found);
  });
}

function checkLimit(limit: LooseRecord, place: string, found: StarFindings): void {
  const kind = asText(limit['kind']) ?? '';
  const own = LIMIT_FIELDS[kind];
  if (own === undefined) return;
  for (const field of Object.values(LIMIT_FIELDS).flat()) {
    if (limit[field] !== undefined && !own.includes(field))
      found.warn(`${place}.${field} has no meaning for a limit of the kind ${quoteValue(kind)}; not used`);
  }
}
