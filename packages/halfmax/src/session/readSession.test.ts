import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { card, fitsImage16 } from '../../../../tests/bad-input/fitsBytes.js';
import { goodSession, type SessionDraft, writeSession } from '../../../../tests/bad-input/goodSession.js';
import type { BenchSession } from './benchSession.js';
import { readSession } from './readSession.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'halfmax-session-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

function read(change: (session: SessionDraft) => void = () => {}): BenchSession {
  const session = goodSession();
  change(session);
  writeSession(folder, session);
  return readSession(folder);
}

describe('readSession', () => {
  it('gives plain data: entries in the order of the manifest, files in the order of their names', () => {
    const session = read();
    expect(session.entries.map(({ role, exposureMs }) => [role, exposureMs])).toEqual([
      ['dark', 20],
      ['lamp', 20],
      ['open', 20],
      ['filtered', 20],
    ]);
    expect(session.entries[0]!.scans.map(({ file }) => file)).toEqual([
      'frames/dark-1.txt',
      'frames/dark-2.txt',
      'frames/dark-3.txt',
    ]);
    expect(session.entries[1]!.lamp).toBe('Hg-Ar');
    expect(session.entries[3]!.filter).toBe('ha');
    expect(session.detector).toEqual({
      pixels: 1024,
      saturationCounts: 65535,
      wavelengthStartNm: 390,
      wavelengthEndNm: 790,
      linearity: null,
    });
    expect(session.filters[0]).toEqual({
      id: 'ha',
      label: 'Invented H-alpha 7',
      lines: ['H-alpha'],
      claims: { fwhmNm: { value: 7, tolerance: 0.5 } },
      price: null,
    });
  });

  it('reads times as UTC where no zone is given', () => {
    const { entries } = read(({ manifest }) => {
      manifest.frames[1].takenAt = '2026-01-31T21:15:00.5+01:00';
    });
    expect(entries.map(({ takenAtMs }) => takenAtMs)).toEqual([
      null,
      Date.UTC(2026, 0, 31, 20, 15, 0, 500),
      Date.UTC(2026, 0, 31, 20, 15),
      Date.UTC(2026, 0, 31, 20, 20),
    ]);
  });

  it('hashes every file that it read, in the order of names', () => {
    const { inputs } = read();
    expect(inputs.map(({ file }) => file)).toEqual(inputs.map(({ file }) => file).sort());
    expect(inputs).toHaveLength(13);
    for (const { file, sha256 } of inputs) {
      expect(sha256).toBe(
        createHash('sha256')
          .update(readFileSync(join(folder, file)))
          .digest('hex'),
      );
    }
  });

  it('accepts a byte-order mark and a folder reached through a link', () => {
    const session = goodSession();
    session.manifest = `\ufeff${JSON.stringify(session.manifest)}`;
    writeSession(join(folder, 'real'), session);
    symlinkSync('real', join(folder, 'link'));
    expect(readSession(join(folder, 'link')).warnings).toEqual([]);
  });

  it('uses a file once that two patterns of an entry name, and sorts names by code units', () => {
    const { entries } = read(({ manifest, files }) => {
      files.set('frames/open-10.txt', `${files.get('frames/open-1.txt')}\r\n`);
      manifest.frames[2].files = ['frames/open-1*.txt', 'frames/*pen-*.txt', './frames/open-1.txt'];
    });
    expect(entries[2]!.scans.map(({ file }) => file)).toEqual([
      'frames/open-1.txt',
      'frames/open-10.txt',
      'frames/open-2.txt',
      'frames/open-3.txt',
    ]);
  });

  it('lets a star stand in any segment, but not for a hidden file', () => {
    const { entries } = read(({ manifest, files }) => {
      files.set('frames/._open-1.txt', new Uint8Array([0, 5, 22, 7]));
      manifest.frames[2].files = ['fr*s/*open*'];
    });
    expect(entries[2]!.scans).toHaveLength(3);
  });

  it('keeps fields that it does not know, and warns of each with a guess', () => {
    const session = read(({ manifest }) => {
      manifest.frames[0].colour = 'black';
      manifest.detector.saturationCount = 1;
      manifest.filters[0].claims.fwhmNM = { value: 7 };
    });
    expect(session.warnings).toEqual([
      {
        where: 'session.json',
        what: 'detector.saturationCount is not a field this version knows; kept, not used; did you mean saturationCounts?',
      },
      { where: 'session.json', what: 'frames[0].colour is not a field this version knows; kept, not used' },
      {
        where: 'session.json',
        what: 'filters[0].claims.fwhmNM is not a field this version knows; kept, not used; did you mean fwhmNm?',
      },
    ]);
    expect((session.manifest['detector'] as Record<string, unknown>)['saturationCount']).toBe(1);
  });

  it('warns of labels without meaning, filters without frames, copies and doubled keys', () => {
    const { warnings } = read((session) => {
      const { manifest, files } = session;
      manifest.frames[0].lamp = 'Ne';
      manifest.frames[1].filter = 'ha';
      manifest.filters.push({ id: 'oiii', lines: ['[O III]'] });
      delete manifest.detector.wavelengthEndNm;
      files.set('frames/open-4.txt', files.get('frames/open-1.txt')!);
      session.manifest = JSON.stringify(manifest).replace('"title"', '"title":"twice","title"');
    });
    const lines = warnings.map(({ where, what }) => `${where}: ${what}`);
    for (const pattern of [
      /"title" is given twice/,
      /frames\[0\]\.lamp has no meaning/,
      /frames\[1\]\.filter has no meaning/,
      /filter "oiii" has no filtered frames/,
      /only one of wavelengthStartNm/,
      /open-4\.txt: holds the very bytes of frames\/open-1\.txt/,
    ]) {
      expect(
        lines.some((line) => pattern.test(line)),
        `${pattern}\n${lines.join('\n')}`,
      ).toBe(true);
    }
    expect(lines).toHaveLength(6);
  });

  it('extracts 2-D frames along one trace and marks saturated pixels', () => {
    const image = (height: (p: number) => number): Uint8Array => {
      const stored = new Int16Array(1024 * 12);
      for (let r = 0; r < 12; r++) {
        for (let p = 0; p < 1024; p++)
          stored[r * 1024 + p] = 100 + 10 * r + Math.round(height(p) * Math.exp(-0.5 * ((r - 5) / 1.5) ** 2));
      }
      return fitsImage16([1024, 12], stored, [card('BZERO', '0')]);
    };
    const { entries, warnings } = read(({ manifest, files }) => {
      files.set(
        'frames/dark.fits',
        image(() => 0),
      );
      files.set(
        'frames/lamp.fits',
        image((p) => (p === 500 ? 30000 : 0)),
      );
      files.set(
        'frames/open.fits',
        image(() => 5000),
      );
      files.set(
        'frames/filtered.fits',
        image(() => 2500),
      );
      manifest.detector.saturationCounts = 20000;
      for (const frame of manifest.frames) frame.files = [`frames/${frame.role}.fits`];
    });
    const [dark, lamp, open, filtered] = entries.map((entry) => entry.scans[0]!.counts);
    // Stored as whole counts, so good to 0.5 in 2500. One trace in all frames: the slope of the dark along the rows comes off, and the ratio is that of the light.
    expect((filtered![7]! - dark![7]!) / (open![7]! - dark![7]!)).toBeCloseTo(0.5, 3);
    expect(lamp![500]).toBeNaN();
    expect(lamp![499]).toBe(dark![499]);
    expect(warnings.map(({ what }) => what).join()).toMatch(
      /mean of the rows is taken along rows 4\.\d to 7\.\d/,
    );
  });

  it('says which file may not be read', () => {
    const session = goodSession();
    chmodSync(folder, 0o755);
    writeSession(join(folder, 'session'), session);
    chmodSync(join(folder, 'session', 'frames', 'open-2.txt'), 0o000);
    const isRoot = process.getuid?.() === 0;
    // The superuser may read anything: step down for the moment of the test.
    if (isRoot) process.seteuid?.(65534);
    try {
      expect(() => readSession(join(folder, 'session'))).toThrow(
        /^frames\/open-2\.txt: cannot be read: no permission; check/,
      );
    } finally {
      if (isRoot) process.seteuid?.(0);
    }
  });

  it('reads a claim of each form', () => {
    const claims = {
      fwhmNm: { value: 7, tolerance: [0.3, 0.5] },
      centreNm: { value: 656.3 },
      peakTransmittance: { atLeast: 0.9 },
      transmittanceAtLine: { atMost: 0.99 },
      opticalDensity: { atLeast: 4, fromNm: 400, toNm: 600 },
    };
    const session = read(({ manifest }) => {
      manifest.filters[0].claims = claims;
      manifest.filters[0].price = { amount: 199, currency: 'EUR' };
      manifest.site = {
        skyBrightness: 19.5,
        airmass: 1.2,
        quantumEfficiency: [
          [400, 0.8],
          [700, 0.6],
        ],
      };
      manifest.beam = { fNumber: [2, 5], centralObstruction: 0.4, effectiveIndex: [1.8, 2.1] };
    });
    expect(session.filters[0]!.claims).toEqual(claims);
    expect(session.warnings).toEqual([]);
  });

  it('reads the rule of the verdicts, with the numbers that it leaves out', () => {
    const decisionOf = (decision: unknown) => {
      const session = read(({ manifest }) => {
        if (decision !== undefined) manifest.decision = decision;
      });
      expect(session.warnings).toEqual([]);
      return session.decision;
    };
    expect(decisionOf(undefined)).toBeNull();
    expect(decisionOf({ rule: 'probability' })).toEqual({ kind: 'probability', probability: 0.95 });
    expect(decisionOf({ rule: 'probability', probability: 0.9 })).toEqual({
      kind: 'probability',
      probability: 0.9,
    });
    expect(decisionOf({ rule: 'simple' })).toEqual({ kind: 'simple' });
    expect(decisionOf({ rule: 'guarded' })).toEqual({ kind: 'guarded', multiple: 1, coverageFactor: 2 });
    expect(decisionOf({ rule: 'guarded', multiple: 0, coverageFactor: 3 })).toEqual({
      kind: 'guarded',
      multiple: 0,
      coverageFactor: 3,
    });
  });

  it('warns of a number that belongs to another rule', () => {
    const { warnings } = read(({ manifest }) => {
      manifest.decision = { rule: 'simple', probability: 0.9 };
    });
    expect(warnings.map(({ what }) => what)).toEqual([
      'decision.probability has no meaning for the rule "simple"; not used',
    ]);
  });

  it('reads how the filters stood on the bench, null where nothing is said', () => {
    expect(read(() => {}).bench).toEqual({ fNumber: null, temperatureC: null, spot: null });
    const { bench, warnings } = read(({ manifest }) => {
      manifest.bench = { fNumber: 8, temperatureC: -2.5, spot: 'centre, 6 mm' };
    });
    expect(bench).toEqual({ fNumber: 8, temperatureC: -2.5, spot: 'centre, 6 mm' });
    expect(warnings).toEqual([]);
  });

  it('refuses a pipe without waiting for a writer', () => {
    const session = goodSession();
    session.manifest.frames[2].files = ['frames/pipe'];
    writeSession(folder, session);
    execFileSync('mkfifo', [join(folder, 'frames', 'pipe')]);
    expect(() => readSession(folder)).toThrow(/"frames\/pipe" is not a regular file/);
  });
});
