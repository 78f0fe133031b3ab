import { describe, expect, it } from 'vitest';
import type { BeamLineReport, SkyReport } from '../measure/index.js';
import { quantity } from '../metrics/index.js';
import { beamLines, skyLines } from './usageLines.js';

const line: BeamLineReport = {
  line: 'H-alpha',
  wavelengthNm: 656.28,
  effectiveIndex: [1.7, 2.1],
  centralObstruction: 0.38,
  pupil: 'uniform',
  chiefRayDeg: 0,
  tiltDeg: 0,
  corrected: true,
  measuredAtFNumber: null,
  temperatureDifferenceK: -12.4,
  collimated: quantity(0.898, 0.0023),
  inBeam: [
    { fNumber: 2.8, transmittance: quantity(0.505, 0.068) },
    { fNumber: 6, transmittance: quantity(0.892, 0.0028) },
  ],
  fastest: {
    share: 0.9,
    fNumber: quantity(3.88, 0.23),
    beyondFast: 0,
    beyondSlow: 0,
    between: [1, 30],
  },
  staysSoft: false,
};

const sky: SkyReport = {
  fNumber: 2.8,
  corrected: true,
  skyTransmittance: quantity(0.0068, 0.00001),
  effectiveWidthNm: quantity(2.0425, 0.0038),
  skyPerPixel: quantity(0.0953, 0.0002),
  skyLimitedFrameS: quantity(230.4, 0.4),
  frameS: 230.4,
  lines: [
    {
      name: 'H-alpha',
      wavelengthNm: 656.28,
      transmittance: quantity(0.505, 0.07),
      signalPerPixel: quantity(0.0148, 0.0021),
      contrast: quantity(0.156, 0.022),
      gain: quantity(6.12, 0.85),
      hours: quantity(16.1, 4.4),
      hoursSameSky: quantity(16.1, 4.4),
      colourShare: 1,
      hoursToEqualNight: quantity(0.259, 0.07),
      hoursSavedPerNight: quantity(7.741, 0.07),
      pricePerHourSaved: { ...quantity(45.09, 0.41), currency: 'EUR' },
    },
  ],
  continuum: {
    temperatureK: 5772,
    share: 0.0104,
    shareUncertainty: 0.0001,
    magnitudesLost: 4.96,
    signalToNoise: 0.126,
    signalToNoiseUncertainty: 0.001,
  },
  rangeNm: [400, 700],
  unseenNm: 0,
};

describe('beamLines', () => {
  it('gives a row each line with a column each focal ratio, and what was taken', () => {
    const [head, row, ...notes] = beamLines([line]);
    expect(head).toMatch(/parallel +f\/2\.8 +f\/6 +90 % kept down to/);
    expect(row).toMatch(/H-alpha +0\.8980 ± 0\.0023 +0\.505 ± 0\.068 +0\.8920 ± 0\.0028 +f\/3\.88 ± 0\.23$/);
    expect(notes.join(' ').replace(/\s+/g, ' ').trim()).toBe(
      '(effective index 1.7 to 2.1, obstruction 0.38, light of the bench taken as parallel, ' +
        '-12 K against the bench, line spread taken out)',
    );
  });

  it('says one index, the cone on the bench and what it softened', () => {
    const soft = { ...line, effectiveIndex: [2, 2], centralObstruction: 0, measuredAtFNumber: 4 } as const;
    const text = beamLines([{ ...soft, temperatureDifferenceK: null, staysSoft: true }]).join(' ');
    expect(text).toContain('effective index 2, measured at f/4, line spread taken out, the cone');
    expect(text).not.toContain('obstruction');
    expect(text).not.toContain('against the bench');
  });

  it('names what of the beam is out of the ordinary, and a line spread that is still in', () => {
    const odd = {
      ...line,
      pupil: { gaussianEdge: 0.3 },
      chiefRayDeg: 2.5,
      tiltDeg: 4,
      corrected: false,
    };
    const text = beamLines([odd]).join(' ').replace(/\s+/g, ' ');
    expect(text).toContain(
      'pupil that falls to 0.3 at its edge, chief ray at 2.5 degrees, filter tilted by 4 degrees',
    );
    expect(text).toContain('line spread of the instrument still in the curve');
    expect(skyLines({ ...sky, corrected: false }, 8).join(' ')).toContain('line spread of the');
  });

  it('is one-sided where the ratios looked at end', () => {
    const ending = (more: object): string =>
      beamLines([{ ...line, fastest: { ...line.fastest, ...more } }])[1]!.trimEnd();
    expect(ending({ beyondFast: 0.03 })).toMatch(/or faster$/);
    expect(ending({ beyondSlow: 0.03 })).toMatch(/or slower$/);
    expect(ending({ fNumber: { absent: 'never' } })).toMatch(/–$/);
  });

  it('is nothing without a line', () => expect(beamLines([])).toEqual([]));
});

describe('skyLines', () => {
  it('gives a row each line, the hours of the night and the price with its currency', () => {
    const [head, row, ...notes] = skyLines(sky, 8);
    expect(head).toMatch(/under the sky +T +line \/ sky +gain +hours +equal 8 h +price per hour saved/);
    expect(row).toMatch(/0\.505 ± 0\.070 +0\.156 ± 0\.022 +6\.12 ± 0\.85 +16\.1 ± 4\.4 +0\.259 ± 0\.070/);
    expect(row).toMatch(/45\.09 ± 0\.41 EUR$/);
    const text = notes.join(' ').replace(/\s+/g, ' ');
    expect(text).toContain('f/2.8, sky as through 2.0425 ± 0.0038 nm');
    expect(text).toContain('frames of 230 s');
    expect(text).toContain('loses 4.96 mag');
    expect(text).not.toContain('not measured');
  });

  it('gives the reasons where a number is absent', () => {
    expect(skyLines({ absent: 'no passband is for a known line' }, 8).join(' ')).toBe(
      '  under the sky: – (no passband is for a known line)',
    );
    const [one] = sky.lines;
    const bare = {
      ...sky,
      lines: [{ ...one!, pricePerHourSaved: { absent: 'no price is stated' } }],
      continuum: { ...sky.continuum, magnitudesLost: { absent: 'nothing of it is left' } },
      unseenNm: 14.2,
    };
    const text = skyLines(bare, 8).join(' ').replace(/\s+/g, ' ');
    expect(text).toContain('– (no price is stated)');
    expect(text).toContain('nothing of it is left');
    expect(text).toContain('14 nm of the camera');
  });
});
