import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take seconds, the longest first: begun last, one of them would keep a core waiting for the end. */
const longest = [
  'measurement.test.ts',
  'docs.test.ts',
  'reduceFrames.test.ts',
  'badInput.test.ts',
  'threads.test.ts',
  'jcgm101.test.ts',
  'consumers/package.test.ts',
  'calibrate.test.ts',
  'consumers/browser.test.ts',
  'measureStars.test.ts',
  'identifyScale.test.ts',
  'kernel.test.ts',
  'still.test.ts',
  'bruteForce.test.ts',
  'measureHalo.test.ts',
  'types.test.ts',
];

/** Orders test files so that the long ones come first, in a fresh clone too, where no earlier run tells which they are. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const placeOf = ({ moduleId }: TestSpecification): number => {
      const place = longest.findIndex((name) => moduleId.endsWith(`/${name}`));
      return place < 0 ? longest.length : place;
    };
    const sorted = await super.sort(files);
    return sorted.sort((a, b) => placeOf(a) - placeOf(b));
  }
}
