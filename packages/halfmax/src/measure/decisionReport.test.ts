import { describe, expect, it } from 'vitest';
import { decisionReport } from './decisionReport.js';

describe('decisionReport', () => {
  it('takes 95 % where the session states no rule, and says that it did', () => {
    const report = decisionReport(null);
    expect(report.stated).toBe(false);
    expect(report.rule).toEqual({ kind: 'probability', probability: 0.95 });
    expect(report.words).toContain('reaches 95 %');
  });

  it('names the numbers of a stated rule', () => {
    expect(decisionReport({ kind: 'probability', probability: 0.995 }).words).toContain('99.5 %');
    expect(decisionReport({ kind: 'simple' }).words).toContain('near 50 %');
    const guarded = decisionReport({ kind: 'guarded', multiple: 1.5, coverageFactor: 2 });
    expect(guarded.stated).toBe(true);
    expect(guarded.words).toContain('by 3 standard uncertainties');
  });
});
