import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { describeBandTruth } from '../../data-demo/generator/bandTruth.mjs';
import { demoSpec } from '../../data-demo/generator/demoSpec.mjs';
import { exposeFrame, measuredCounts } from '../../data-demo/generator/detector.mjs';
import { createGrating } from '../../data-demo/generator/grating.mjs';
import { addLine, cutContinuum, imageContinuum, seenThrough } from '../../data-demo/generator/image.mjs';
import { spreadTable, spreadWidth } from '../../data-demo/generator/lineSpread.mjs';
import { makeDemo } from '../../data-demo/generator/makeDemo.mjs';
import { createRandom } from '../../data-demo/generator/random.mjs';
import { randomSpec } from '../../data-demo/generator/randomSpec.mjs';
import { simulateFrames, simulateSession } from '../../data-demo/generator/simulate.mjs';
import { starLight, takeStar } from '../../data-demo/generator/starImage.mjs';
import { lampBrightness } from '../../data-demo/generator/throughput.mjs';
import { transmittanceOf } from '../../data-demo/generator/transmittance.mjs';

const home = fileURLToPath(new URL('../../data-demo/', import.meta.url));

describe('the demonstration session', () => {
  const demo = makeDemo();

  it('is byte for byte what the generator makes', () => {
    const made = new Map(demo.files.map(({ name, content }) => [name, Buffer.from(content)]));
    const found = readdirSync(join(home, 'session'), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name).slice(join(home, 'session').length + 1))
      .sort();
    expect(found).toEqual([...made.keys()].sort());
    const different = found.filter(
      (name) => !readFileSync(join(home, 'session', name)).equals(made.get(name)!),
    );
    expect(different).toEqual([]);
    expect(readFileSync(join(home, 'truth.json'), 'utf8') === demo.truth).toBe(true);
  });

  it('stays below 6 MB', () => {
    expect(demo.files.reduce((sum, file) => sum + file.content.length, 0)).toBeLessThan(6e6);
  });

  it('keeps the counts of every frame in its file', () => {
    const text = String(demo.files.find((file) => file.name === 'scans/open-2.csv')?.content);
    const column = text
      .trim()
      .split('\n')
      .slice(1)
      .map((row) => Number(row.split(',')[4]));
    expect(column).toEqual(
      Array.from(
        demo.session.entries.find((entry) => entry.scans[3]?.file === 'scans/open-2.csv')!.scans[3]!.counts,
      ),
    );
    const bytes = demo.files.find((file) => file.name.endsWith('s2-60ms-02.fits'))?.content as Uint8Array;
    const frame = demo.session.entries
      .flatMap((entry) => entry.scans)
      .find((scan) => scan.file.endsWith('s2-60ms-02.fits'))!;
    expect(Array.from(frame.counts, (_, i) => Buffer.from(bytes).readInt16BE(2880 + 2 * i) + 32768)).toEqual(
      Array.from(frame.counts),
    );
    expect(bytes.length % 2880).toBe(0);
  });
});

describe('the star images of the demonstration', () => {
  const demo = makeDemo();
  const manifest = JSON.parse(String(demo.files[0]!.content));

  it('are FITS images of 16 bits, named by the session, with their exposures', () => {
    const named = manifest.stars.flatMap((star: { file: string; shortFile?: string }) => [
      star.file,
      ...(star.shortFile === undefined ? [] : [star.shortFile]),
    ]);
    const written = demo.files.filter(({ name }) => name.startsWith('stars/'));
    expect(written.map(({ name }) => name)).toEqual(named);
    for (const { name, content } of written) {
      const bytes = Buffer.from(content);
      const cards = bytes.toString('latin1', 0, 2880).match(/.{80}/g)!;
      const value = (key: string) =>
        Number(cards.find((one) => one.startsWith(key.padEnd(8)))?.slice(10, 30));
      expect([value('BITPIX'), value('NAXIS'), value('BZERO')]).toEqual([16, 2, 32768]);
      expect(bytes.length).toBe(2880 + Math.ceil((2 * value('NAXIS1') * value('NAXIS2')) / 2880) * 2880);
      expect(value('EXPTIME')).toBe(name.includes('short') ? 1.5 : 300);
    }
  });

  it('have one halo, none and two, of the sizes that the spacings make', () => {
    const { stars } = demo.session;
    expect(stars.map(({ halos }) => halos.length)).toEqual([1, 0, 2]);
    // Diameter 2 d / N at f/4, pixels of 5.4 um: both faces of 3 mm of glass of index 1.52, and 3.3 mm of air.
    const [own, gap] = [3 / 1.52, 3.3].map((spacing) => (2000 * spacing) / 4 / 5.4 / 2);
    expect(stars[0]!.halos[0]!.outerPixels).toBeCloseTo(own!, 9);
    expect(stars[2]!.halos.map(({ outerPixels }) => outerPixels)).toEqual([
      expect.closeTo(own!, 9),
      expect.closeTo(gap!, 9),
    ]);
  });

  it('belong to the filters of the session alone', () => {
    const filters = demoSpec.filters.filter(({ id }) => id === 'ossenvale-s2');
    const { manifest: smaller, files } = simulateSession({ ...demoSpec, filters, trouble: [] }, 1);
    expect((smaller as { stars?: unknown[] }).stars).toHaveLength(1);
    expect(files.filter(({ name }) => name.startsWith('stars/')).map(({ name }) => name)).toEqual([
      'stars/ossenvale-s2.fits',
      'stars/ossenvale-s2-short.fits',
    ]);
  });
});

describe('starLight', () => {
  const spread = { fwhmPixels: 3, beta: 3, aureoleShare: 0, aureolePower: 2.5 };
  const scene = {
    width: 301,
    height: 301,
    x: 150,
    y: 150,
    counts: 1e6,
    skyCounts: 0,
    slope: [0, 0] as const,
    disks: [],
    spikes: { angleDeg: 20, share: 0 },
    neighbours: [],
    hotPixels: [],
  };
  const sum = (light: ArrayLike<number>) => Array.from(light).reduce((total, value) => total + value, 0);

  it('holds the light of the star', () => {
    // Outside of a circle of radius R a Moffat star of power 3 has (1 + R^2 / a^2)^-2: below 1e-6 here. A pixel takes
    // the light at its centre, which for a core as wide as this is right to 1e-3.
    expect(Math.abs(sum(starLight(scene, spread)) / 1e6 - 1)).toBeLessThan(1e-3);
  });

  it('holds the light of a disk, flat between its edges', () => {
    const disk = { inner: 30, outer: 90, dx: 4, dy: -2, counts: 5e4 };
    const without = starLight(scene, spread);
    const more = starLight({ ...scene, disks: [disk] }, spread).map((value, i) => value - without[i]!);
    // The edges are cut into pixels: a part in a thousand.
    expect(Math.abs(sum(more) / 5e4 - 1)).toBeLessThan(1e-3);
    const surface = 5e4 / (Math.PI * (90 ** 2 - 30 ** 2));
    expect(more[(150 - 2) * 301 + 154 + 60]! / surface).toBeCloseTo(1, 9);
    expect(more[(150 - 2) * 301 + 154]).toBeCloseTo(0, 9);
    // Half of it at the edge.
    expect(more[(150 - 2) * 301 + 154 + 90]! / surface).toBeCloseTo(0.5, 6);
  });

  it('has aureole and spikes of the shares that it was given', () => {
    // Aureole out to 3000 pixels and arms out to 800: what the picture holds of them, by their closed forms.
    const wide = { ...scene, counts: 1 };
    const aureole = sum(starLight(wide, { ...spread, aureoleShare: 1 }));
    const part = (radius: number) => 1 - (1 + radius ** 2 / 18 ** 2) ** -0.25;
    expect(aureole).toBeGreaterThan(part(150) / part(3000));
    expect(aureole).toBeLessThan(part(150 * Math.SQRT2) / part(3000));
    const spikes = sum(starLight({ ...wide, spikes: { angleDeg: 0, share: 1 } }, spread));
    const arm = (length: number) => 1 - 1 / Math.sqrt(1 + length / 4);
    expect(spikes / (arm(150) / arm(800))).toBeCloseTo(1, 1);
  });

  it('spills what does not fit along the column, and loses none', () => {
    const camera = {
      pixelSizeUm: 5,
      fNumber: 4,
      obstruction: 0,
      electronsPerCount: 1e9,
      readNoiseCounts: 0,
      offsetCounts: 0,
      fullCounts: 40000,
    };
    const light = starLight(scene, spread);
    const counts = takeStar(scene, spread, camera, createRandom(1, 'spill'));
    expect(Math.max(...counts)).toBe(40000);
    for (const x of [140, 149, 150, 151]) {
      const column = (values: ArrayLike<number>) =>
        Array.from({ length: 301 }, (_, y) => values[y * 301 + x]!);
      // Rounding to whole counts: 0.3 each, 301 of them.
      expect(Math.abs(sum(column(counts)) - sum(column(light)))).toBeLessThan(5 * 0.3 * Math.sqrt(301));
    }
    expect(counts[152 * 301 + 150]).toBe(40000);
  });
});

describe('the generator', () => {
  it('gives the same frames for the same seed, others for another', () => {
    const spec = randomSpec(5, { filters: 1, trouble: true });
    const first = simulateSession(spec, 5);
    expect(simulateSession(randomSpec(5, { filters: 1, trouble: true }), 5).files).toEqual(first.files);
    expect(simulateFrames(spec, 6).frames[0]!.counts).not.toEqual(first.frames[0]!.counts);
  });

  it('draws sessions that keep to what was asked', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const spec = randomSpec(seed, {
        hint: false,
        lamps: ['Hg-Ar', 'Ne'],
        lineSpreadNm: [0.7, 1.8],
        pixels: 2048,
      });
      expect(spec.nominalRange).toBeNull();
      const grating = createGrating(spec.instrument.geometry);
      const ends = [grating.wavelengthAt(0), grating.wavelengthAt(2047)].sort((a, b) => a - b);
      expect(ends[0]).toBeGreaterThan(340 - 1e-6);
      expect(ends[1]).toBeLessThan(900 + 1e-6);
      const dispersions = [grating.dispersionAt(0), grating.dispersionAt(2047)].sort((a, b) => a - b);
      expect(dispersions[1]! / dispersions[0]! - 1).toBeGreaterThanOrEqual(0.05);
      expect(dispersions[1]! / dispersions[0]! - 1).toBeLessThanOrEqual(0.35);
      const { start, middle, end } = spec.instrument.lineSpread;
      for (const width of [start, middle, end])
        expect(width).toSatisfy((value: number) => value >= 0.7 && value <= 1.8);
    }
  });
});

describe('createGrating', () => {
  it('follows the grating equation', () => {
    // By hand (calculated apart, in another language): 600 lines/mm, included angle 36 degrees, axis at 559 nm:
    // incidence -7.8439 degrees, diffraction 28.1561; place x = (pixel - 1023.5 + 12) x 0.014 mm on a detector tilted
    // by 4 degrees at 116 mm: wavelength = d (sin(incidence) + sin(28.1561 + atan(x cos 4 / (116 + x sin 4)))).
    const grating = createGrating(demoSpec.instrument.geometry);
    expect(grating.wavelengthAt(0)).toBeCloseTo(373.99417462207276, 8);
    expect(grating.wavelengthAt(1000)).toBeCloseTo(556.9645343582787, 8);
    expect(grating.wavelengthAt(2047)).toBeCloseTo(733.3016903550144, 8);
  });

  it('finds the pixel of a wavelength', () => {
    const grating = createGrating(demoSpec.instrument.geometry);
    for (const pixel of [-20, 0, 333.25, 2047])
      expect(grating.pixelAt(grating.wavelengthAt(pixel))).toBeCloseTo(pixel, 8);
  });
});

/** A bench with an even scale of 0.005 nm a pixel, so that a pixel adds nothing to a line spread given in nm. */
function evenBench(shape: 'gaussian' | 'triangle', fwhmNm: number, pixels = 8000) {
  const step = 0.005;
  const start = 656 - (step * (pixels - 1)) / 2;
  const grating = {
    wavelengthAt: (pixel: number) => start + step * pixel,
    pixelAt: (nm: number) => (nm - start) / step,
    dispersionAt: () => step,
  };
  const width = spreadWidth(
    { shape, unit: 'nm', start: fwhmNm, middle: fwhmNm, end: fwhmNm },
    pixels,
    grating.dispersionAt,
  );
  return { pixels, grating, table: spreadTable({ shape }), widthAt: width };
}

describe('seenThrough', () => {
  const flat = () => 1;

  it('widens a flat-topped band as the convolution does', () => {
    // 1/(1+u^6) of FWHM 3 nm through a Gaussian of 1.5 nm, by numerical integration elsewhere: 0.96085552, 3.15659472.
    const band = transmittanceOf({
      bands: [{ shape: 'butterworth', cavities: 3, centreNm: 656, fwhmNm: 3, peak: 1 }],
      blockingOd: 30,
    });
    const seen = describeBandTruth(
      seenThrough(evenBench('gaussian', 1.5), flat, band, 646, 666),
      646,
      666,
      0.1,
    );
    expect(Math.abs(seen.peakTransmittance - 0.96085552)).toBeLessThan(1e-5);
    expect(Math.abs(seen.fwhmNm! - 3.15659472)).toBeLessThan(1e-5);
    expect(Math.abs(seen.centreNm! - 656)).toBeLessThan(1e-6);
  });

  it('widens a rectangle as the closed form says', () => {
    // Rectangle of 3 through a triangle of FWHM 2: peak 1 - (2 - 1.5)^2/4 = 0.9375, FWHM 3.127016654. The edge of
    // 0.004 nm, which the sums need, is worth some 1e-5.
    const band = transmittanceOf({
      bands: [{ shape: 'rectangle', centreNm: 656, fwhmNm: 3, peak: 1, edgeNm: 0.004 }],
      blockingOd: 30,
    });
    const seen = describeBandTruth(
      seenThrough(evenBench('triangle', 2), flat, band, 650, 662),
      650,
      662,
      0.1,
    );
    expect(Math.abs(seen.peakTransmittance - 0.9375)).toBeLessThan(1e-4);
    expect(Math.abs(seen.fwhmNm! - 3.127016654)).toBeLessThan(1e-4);
  });

  it('adds the squares of two Gaussian widths, and keeps the area', () => {
    const band = transmittanceOf({
      bands: [{ shape: 'gaussian', centreNm: 656, fwhmNm: 3, peak: 1 }],
      blockingOd: 30,
    });
    const seen = describeBandTruth(
      seenThrough(evenBench('gaussian', 1.5), flat, band, 646, 666),
      646,
      666,
      0.1,
    );
    expect(Math.abs(seen.fwhmNm! - Math.hypot(3, 1.5))).toBeLessThan(1e-5);
    expect(Math.abs(seen.peakTransmittance - 3 / Math.hypot(3, 1.5))).toBeLessThan(1e-5);
    expect(seen.equivalentWidthNm).toBeCloseTo((3 / 2) * Math.sqrt(Math.PI / Math.LN2), 5);
  });

  it('is what the ratio of two imaged spectra gives', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const spec = randomSpec(seed, { filters: 1, lamps: ['Hg-Ar', 'Ne'], pixels: 2048 });
      const { geometry, lineSpread } = spec.instrument;
      const grating = createGrating(geometry);
      const widthAt = spreadWidth(lineSpread, geometry.pixels, grating.dispersionAt);
      const optics = { pixels: geometry.pixels, grating, table: spreadTable(lineSpread), widthAt };
      const brightness = (nm: number) => 1 + 0.5 * Math.sin(nm / 40);
      const filter = spec.filters[0]!;
      const transmittance = transmittanceOf(filter);
      const continuum = cutContinuum(optics, brightness);
      const open = imageContinuum(optics, continuum);
      const filtered = imageContinuum(optics, continuum, { transmittance, samples: () => 5 });
      const centre = filter.bands[0]!.centreNm;
      const seen = seenThrough(optics, brightness, transmittance, centre - 12, centre + 12);
      const middle = Math.round(grating.pixelAt(centre));
      // The frames are summed in cells of an eighth of a pixel: some 1e-5.
      for (let i = middle - 25; i <= middle + 25; i++) {
        expect(Math.abs(filtered[i]! / open[i]! - seen(grating.wavelengthAt(i)))).toBeLessThan(5e-5);
      }
    }
  });
});

describe('addLine', () => {
  it('keeps the light, puts the centroid where it was asked, has the width it was given', () => {
    for (const shape of ['gaussian', 'triangle', 'slit', 'skewed'] as const) {
      const spec = { shape, unit: 'px', start: 40, middle: 40, end: 40 } as const;
      const optics = {
        pixels: 500,
        grating: createGrating({ ...demoSpec.instrument.geometry, pixels: 500 }),
        table: spreadTable(spec),
        widthAt: () => 40,
      };
      const image = new Float64Array(500);
      addLine(image, optics, 250.3, 7);
      const light = image.reduce((sum, value) => sum + value, 0);
      const centroid = image.reduce((sum, value, i) => sum + value * i, 0) / light;
      expect(light).toBeCloseTo(7, 6);
      expect(Math.abs(centroid - 250.3)).toBeLessThan(2e-3);
      const peak = image.reduce((most, value) => Math.max(most, value), 0);
      const above = image.filter((value) => value > peak / 2).length;
      expect(Math.abs(above - 40)).toBeLessThanOrEqual(1);
    }
  });
});

describe('the detector', () => {
  it('inverts the polynomial that the session states', () => {
    const linearity = [1.031, -9e-7, 4e-12];
    for (const counts of [0, 500, 20000, 61000]) {
      const measured = measuredCounts(linearity, counts);
      expect(measured * (1.031 - 9e-7 * measured + 4e-12 * measured ** 2)).toBeCloseTo(counts, 5);
    }
  });

  it('has the variance of photons, converter and rounding', () => {
    const pixels = 40000;
    const spec = {
      ...demoSpec.detector,
      linearity: null,
      fixedPatternCounts: 0,
      readNoiseCounts: 11,
      electronsPerCount: 1.25,
    };
    const even = {
      offset: new Float64Array(pixels).fill(640),
      darkRate: new Float64Array(pixels),
      response: new Float64Array(pixels).fill(1),
    };
    for (const counts of [0, 20, 300, 30000]) {
      const frame = exposeFrame(
        spec,
        even,
        new Float64Array(pixels).fill(counts / 50),
        1,
        50,
        createRandom(3, 'variance'),
      );
      const mean = frame.reduce((sum, value) => sum + value, 0) / pixels;
      const variance = frame.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (pixels - 1);
      const expected = counts / 1.25 + 121 + 1 / 12;
      expect(Math.abs(mean - 640 - counts)).toBeLessThan(5 * Math.sqrt(expected / pixels));
      // The variance of a variance is 2/n of its square: five deviations.
      expect(Math.abs(variance / expected - 1)).toBeLessThan(5 * Math.sqrt(2 / pixels));
    }
  });
});

describe('createRandom', () => {
  it('draws Poisson numbers of the right mean, variance and skewness, whatever the method', () => {
    for (const mean of [0.7, 11, 25, 80, 5000]) {
      const random = createRandom(11, `poisson ${mean}`);
      const draws = Array.from({ length: 200000 }, () => random.poisson(mean));
      const average = draws.reduce((sum, value) => sum + value, 0) / draws.length;
      const variance = draws.reduce((sum, value) => sum + (value - average) ** 2, 0) / draws.length;
      const third = draws.reduce((sum, value) => sum + (value - average) ** 3, 0) / draws.length;
      expect(Math.abs(average - mean)).toBeLessThan(5 * Math.sqrt(mean / draws.length));
      // Fourth central moment of a Poisson number: mean + 3 mean^2.
      expect(Math.abs(variance - mean)).toBeLessThan(5 * Math.sqrt((mean + 2 * mean * mean) / draws.length));
      expect(Math.abs(third - mean)).toBeLessThan(
        5 * Math.sqrt((15 * mean ** 3 + 26 * mean * mean + mean) / draws.length),
      );
    }
  });
});

describe('lampBrightness', () => {
  it('counts photons by the law of Planck', () => {
    // By hand at 2900 K: (500 to 600 nm) and (700 to 600 nm) of 1 / (l^4 (exp(c2/(l T)) - 1)).
    const brightness = lampBrightness(2900, () => 1);
    expect(brightness(500)).toBeCloseTo(0.3966552907648396, 9);
    expect(brightness(700)).toBeCloseTo(1.759867356597588, 9);
  });
});
