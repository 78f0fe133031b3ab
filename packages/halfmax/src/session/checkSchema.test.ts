import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { goodSession } from '../../../../tests/bad-input/goodSession.js';
import { checkSchema } from './checkSchema.js';
import { sessionSchema } from './sessionSchema.generated.js';

describe('checkSchema', () => {
  it('uses a schema that is itself valid and the same as the shared one', () => {
    const ajv = new Ajv({ strict: true, strictTypes: false, strictTuples: false });
    expect(ajv.validateSchema(sessionSchema)).toBe(true);
    const shared = readFileSync(new URL('../../../../shared/session.schema.json', import.meta.url), 'utf8');
    expect(sessionSchema).toEqual(JSON.parse(shared));
  });

  it('accepts a good manifest and reports every fault of a bad one, by field', () => {
    const { manifest } = goodSession();
    expect(checkSchema(manifest, 'session.json')).toEqual([]);
    manifest.detector.pixels = -1;
    manifest.frames[1].files = [];
    manifest.filters[0].claims.fwhmNm.tolerance = [0, 0];
    const problems = checkSchema(manifest, 'session.json');
    expect(problems.map(({ place, what }) => `${place} ${what}`)).toEqual([
      'detector.pixels is -1, must be >= 16',
      'frames[1].files has 0 items, must have at least 1',
      'filters[0].claims.fwhmNm.tolerance is a list',
    ]);
  });
});
