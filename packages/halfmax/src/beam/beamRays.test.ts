import { describe, expect, it } from 'vitest';
import { beamRays } from './beamRays.js';
import { chiefRayDeg } from './chiefRayDeg.js';
import { coneShift } from './coneShift.js';
import { fNumberAtFilter } from './fNumberAtFilter.js';
import { gaussLegendre } from './gaussLegendre.js';
import { raysBetween } from './raysBetween.js';
import { wavelengthAtAngle } from './wavelengthAtAngle.js';

const mean = ({ sineSquared, weight }: ReturnType<typeof beamRays>): number =>
  weight.reduce((sum, part, i) => sum + part * sineSquared[i]!, 0);

describe('gaussLegendre', () => {
  it('integrates powers up to 2 n - 1 exactly', () => {
    const { nodes, weights } = gaussLegendre(6);
    for (let power = 0; power <= 11; power++) {
      const sum = nodes.reduce((total, node, i) => total + weights[i]! * node ** power, 0);
      expect(sum).toBeCloseTo(1 / (power + 1), 14);
    }
  });
});

describe('beamRays', () => {
  it('shares add up to 1, whatever the beam', () => {
    for (const beam of [
      { fNumber: 3 },
      { fNumber: 0.5, centralObstruction: 0.9 },
      { fNumber: 2, pupil: { gaussianEdge: 0.1 }, tiltDeg: 4 },
      { fNumber: Number.POSITIVE_INFINITY, chiefRayDeg: 5 },
    ] as const) {
      expect(beamRays(beam).weight.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    }
  });

  it('mean square of the sine: (1 + e^2) / (8 N^2) for an evenly lit ring', () => {
    for (const e of [0, 0.3, 0.7]) {
      expect(mean(beamRays({ fNumber: 4, centralObstruction: e }))).toBeCloseTo((1 + e * e) / 128, 14);
    }
  });

  it('Gaussian pupil: the closed mean of h^2, and the even pupil for an edge of 1', () => {
    // Integral of h^2 e^(-a h^2) over that of e^(-a h^2) in h^2 from 0 to 1: 1 / a - 1 / (e^a - 1).
    const a = -Math.log(0.2);
    const found = mean(beamRays({ fNumber: 4, pupil: { gaussianEdge: 0.2 } }));
    expect(found * 64).toBeCloseTo(1 / a - 1 / (Math.exp(a) - 1), 12);
    expect(mean(beamRays({ fNumber: 4, pupil: { gaussianEdge: 1 } }))).toBeCloseTo(1 / 128, 14);
  });

  it('a leaning cone: cos^2 averages to cos^2 a cos^2 b + sin^2 a sin^2 b / 2', () => {
    const lean = (3 * Math.PI) / 180;
    const sine = 1 / 72; // mean square of the sine at f/3
    const square = (1 - sine) * Math.cos(lean) ** 2 + (sine * Math.sin(lean) ** 2) / 2;
    expect(mean(beamRays({ fNumber: 3, tiltDeg: 3 }))).toBeCloseTo(1 - square, 12);
  });

  it('tilt and chief ray add, cancel, or stand at right angles', () => {
    const leaning = (tiltDirectionDeg: number): number =>
      mean(beamRays({ fNumber: Number.POSITIVE_INFINITY, chiefRayDeg: 4, tiltDeg: 4, tiltDirectionDeg }));
    expect(leaning(0)).toBeCloseTo(Math.sin((8 * Math.PI) / 180) ** 2, 12);
    expect(leaning(180)).toBeCloseTo(0, 12);
    const across = 1 - Math.cos((4 * Math.PI) / 180) ** 4;
    expect(leaning(90)).toBeCloseTo(across, 12);
  });

  it('an obstruction shifts more and softens less', () => {
    const clear = { fNumber: 2.2 };
    const ring = { fNumber: 2.2, centralObstruction: 0.5 };
    expect(coneShift(656, ring, 2)).toBeLessThan(coneShift(656, clear, 2));
    const width = (beam: Parameters<typeof beamRays>[0]): number => {
      const { sineSquared } = beamRays(beam);
      return Math.max(...sineSquared) - Math.min(...sineSquared);
    };
    expect(width(ring)).toBeLessThan(width(clear));
  });

  it.each([
    [{ fNumber: 0 }, /f-number of 0.5 or more, got 0/],
    [{ fNumber: Number.NaN }, /got NaN/],
    [{ fNumber: 5, centralObstruction: 1 }, /below 1, got 1/],
    [{ fNumber: 5, centralObstruction: -0.1 }, /obstruction/],
    [{ fNumber: 5, pupil: { gaussianEdge: 0 } }, /gaussianEdge/],
    [{ fNumber: 5, tiltDeg: 60 }, /tilt within 45/],
    [{ fNumber: 5, chiefRayDeg: Number.NaN }, /chief ray/],
  ] as const)('refuses %j', (beam, message) => {
    expect(() => beamRays(beam)).toThrow(RangeError);
    expect(() => beamRays(beam)).toThrow(message);
  });
});

describe('raysBetween', () => {
  it('a beam in itself leaves a curve alone', () => {
    const rays = beamRays({ fNumber: 4, centralObstruction: 0.3 });
    const between = raysBetween(rays, rays);
    expect(Math.max(...between.rays.sineSquared.map(Math.abs))).toBeLessThan(1e-12);
    expect(between.staysSoft).toBe(false);
  });

  it('takes mean and variance off, and says what it cannot undo', () => {
    const wide = beamRays({ fNumber: 2 });
    const narrow = beamRays({ fNumber: 6 });
    expect(mean(raysBetween(wide, narrow).rays)).toBeCloseTo(mean(wide) - mean(narrow), 14);
    expect(raysBetween(narrow, wide).staysSoft).toBe(true);
  });
});

describe('the small pieces', () => {
  it('a reducer matters to a filter behind it alone', () => {
    expect(fNumberAtFilter({ fNumber: 7, reducerFactor: 0.7 })).toEqual({
      filter: 4.8999999999999995,
      sensor: 4.8999999999999995,
    });
    expect(fNumberAtFilter({ fNumber: 7, reducerFactor: 0.5, filterPlace: 'before' })).toEqual({
      filter: 7,
      sensor: 3.5,
    });
    expect(() => fNumberAtFilter({ fNumber: 0 })).toThrow('got 0');
    expect(() => fNumberAtFilter({ fNumber: 4, reducerFactor: 0 })).toThrow('factor');
  });

  it('a telecentric optic has no chief-ray angle', () => {
    expect(chiefRayDeg(20, Number.POSITIVE_INFINITY)).toBe(0);
    expect(chiefRayDeg(100, 100)).toBeCloseTo(45, 12);
    expect(() => chiefRayDeg(-1, 100)).toThrow(RangeError);
  });

  it('wavelengthAtAngle goes by the formula and refuses what cannot be', () => {
    expect(wavelengthAtAngle(500, 0, 2)).toBe(500);
    expect(wavelengthAtAngle(500, 30, 1)).toBeCloseTo(500 * Math.cos(Math.PI / 6), 10);
    expect(() => wavelengthAtAngle(500, 95, 2)).toThrow(RangeError);
    expect(() => wavelengthAtAngle(500, 5, 0.9)).toThrow('effective index');
  });
});
