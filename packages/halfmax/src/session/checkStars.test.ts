import { describe, expect, it } from 'vitest';
import { checkStars } from './checkStars.js';

function check(star: Record<string, unknown>, root: Record<string, unknown> = {}) {
  const problems: string[] = [];
  const warnings: string[] = [];
  checkStars([star], ['ha'], root, {
    refuse: (place, what) => problems.push(`${place}: ${what}`),
    warn: (what) => warnings.push(what),
  });
  return { problems, warnings };
}

const good = { filter: 'ha', fNumber: 5 };

describe('checkStars', () => {
  it('has nothing to say of what is right', () => {
    const noise = { kind: 'noise', hours: 2, electronsPerCount: 1, pixels: 9 };
    for (const more of [
      {},
      { shortFile: 'a', shortExposureS: 1 },
      { magnitude: 3, zeroPoint: 20, magnitudeUncertainty: 0.1 },
      { limit: noise },
      { fNumberBefore: 7, movedSpacingMm: 2, fNumberUncertainty: 0.1 },
    ])
      expect(check({ ...good, ...more })).toEqual({ problems: [], warnings: [] });
    expect(check({ ...good, movedSpacingMm: 2 }, { beam: { reducer: { factor: 0.7 } } }).warnings).toEqual(
      [],
    );
  });

  it.each([
    [{ filter: 'o3' }, 'stars[0].filter: "o3" is not the id of any filter'],
    [{ fNumberUncertainty: 5 }, 'stars[0].fNumberUncertainty: is 5, must be below fNumber 5'],
    [{ shortFile: 'a', magnitude: 1, zeroPoint: 2 }, 'stars[0].shortFile: does not go with magnitude'],
    [{ magnitude: 1 }, 'stars[0].zeroPoint: is missing, and magnitude needs it'],
    [{ zeroPoint: 1 }, 'stars[0].magnitude: is missing, and zeroPoint needs it'],
  ])('refuses %j', (more, problem) => {
    expect(check({ ...good, ...more })).toEqual({ problems: [problem], warnings: [] });
  });

  it.each([
    [{ shortExposureS: 1 }, 'stars[0].shortExposureS has no meaning without shortFile; not used'],
    [{ magnitudeUncertainty: 1 }, 'stars[0].magnitudeUncertainty has no meaning without magnitude; not used'],
    [{ movedSpacingMm: 1 }, 'stars[0].movedSpacingMm has no meaning without fNumberBefore; not used'],
    [
      { limit: { kind: 'share', atMost: 0.1, hours: 2 } },
      'stars[0].limit.hours has no meaning for a limit of the kind "share"; not used',
    ],
  ])('warns of %j', (more, warning) => {
    expect(check({ ...good, ...more })).toEqual({ problems: [], warnings: [warning] });
  });

  it('takes anything that JSON can hold', () => {
    for (const limit of [null, 3, [], { kind: 7 }, { kind: 'taste' }])
      expect(check({ filter: 7, fNumber: 'x', limit }).problems).toEqual([]);
  });
});
