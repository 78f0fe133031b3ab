import { describe, expect, it } from 'vitest';
import { nearestName } from './nearestName.js';

describe('nearestName', () => {
  it('finds slips of case, letters left out, swapped or changed', () => {
    const known = ['role', 'exposureMs', 'files', 'lamp', 'filter'];
    expect(
      ['exposureMS', 'expsoureMs', 'exposurMs', 'flies', 'lmap'].map((name) => nearestName(name, known)),
    ).toEqual(['exposureMs', 'exposureMs', 'exposureMs', 'files', 'lamp']);
    expect(nearestName('colour', known)).toBeNull();
  });
});
