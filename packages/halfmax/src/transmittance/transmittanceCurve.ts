import {
  type CleanSpectrum,
  chooseExposure,
  groupByExposure,
  type NoiseModel,
  type Warning,
} from '../frames/index.js';
import { driftWarnings } from './driftWarnings.js';
import { groupOpenScans } from './groupOpenScans.js';
import { openBeamModel } from './openBeamModel.js';
import { type OpenRate, openRateAt } from './openRateAt.js';
import { type RepeatScatter, repeatScatter } from './repeatScatter.js';
import { requireLight } from './requireLight.js';

/** Change of the lamp between two scans that is worth a warning, relative: common practice, no source. */
const DRIFT_LIMIT = 0.02;

/** Choices for {@link transmittanceCurve}. */
export interface TransmittanceOptions {
  /** No number where the open beam is weaker than this multiple of its own uncertainty; 10. */
  readonly floorFactor?: number;
  /** Change of the lamp between two scans beyond which a warning is given, relative; 0.02. */
  readonly driftLimit?: number;
  /**
   * Noise of one frame against level: gives the noise without light for `floor`; else each pixel's own is used. With
   * the gain, what a warm or unstable pixel has beyond the read noise is counted too.
   */
  readonly noise?: Pick<NoiseModel, 'readVariance'> & Partial<Pick<NoiseModel, 'gain'>>;
}

/** What makes the transmittance of each pixel uncertain: standard uncertainties, fractions. */
export interface TransmittanceComponents {
  readonly filteredNoise: Float64Array;
  readonly openNoise: Float64Array;
  readonly darkNoise: Float64Array;
  /**
   * What is not known of darks taken off at another exposure: with its sign, one unknown number stands behind all
   * pixels. 0 where darks of the exposure were taken.
   */
  readonly darkShared: Float64Array;
  /** Common to all pixels in the main. */
  readonly drift: Float64Array;
}

/** Transmittance of a filter, pixel by pixel. */
export interface TransmittanceCurve {
  /** Fraction; 0 where masked. Noise may carry it below 0. */
  readonly transmittance: Float64Array;
  /** All components in quadrature; 0 where masked. */
  readonly standardUncertainty: Float64Array;
  readonly components: TransmittanceComponents;
  /** 1 where there is no number: open beam too weak, or either scan clipped. */
  readonly masked: Uint8Array;
  /** Counts of the open beam above dark in the exposure used. */
  readonly openCounts: Float64Array;
  /** Exposure of the filtered scan used, ms; 0 where masked. */
  readonly exposureMs: Float64Array;
  readonly drift: {
    /** Largest change of the open beam between the scans used, relative, as a positive number. */
    readonly maxRelative: number;
    /** True when every filtered scan lies between two open ones in time. */
    readonly interpolated: boolean;
  };
  /**
   * Smallest transmittance that can be told from zero: 3 standard uncertainties at no light, with what the darks leave
   * open.
   */
  readonly floor: Float64Array;
  readonly repeatScatter: RepeatScatter | null;
  readonly warnings: readonly Warning[];
}

/**
 * Transmittance of one filter from its scans and those of the open beam: in each pixel the sum of the filtered counts
 * over the sum of what the open beam would have given at the same times and exposures.
 *
 * @param filtered - entries of one filter, at least one; of each pixel the longest unclipped exposure is used
 * @param open - entries of the open beam, at least one, any exposures and times
 * @param options - limits
 * @returns transmittance, its uncertainty by component, and masks
 * @throws {RangeError} nothing to divide, unequal lengths, or entries of other light
 * Source: ratio to an open scan interpolated in time is common practice, no source; uncertainty by JCGM 100:2008, 5.1.2,
 * with the dark of the same exposure counted once, and what darks of another exposure leave open (5.2) as one number.
 */
export function transmittanceCurve(
  filtered: readonly CleanSpectrum[],
  open: readonly CleanSpectrum[],
  options: TransmittanceOptions = {},
): TransmittanceCurve {
  requireLight(filtered, open);
  const { floorFactor = 10, driftLimit = DRIFT_LIMIT, noise } = options;
  const beam = openBeamModel(
    groupOpenScans(
      open,
      filtered.map((spectrum) => spectrum.takenAtMs),
    ),
  );
  const rates = new Map(filtered.map((spectrum) => [spectrum, openRateAt(beam, spectrum.takenAtMs)]));
  const groups = groupByExposure(filtered);
  const pixels = beam.countsPerMs.length;
  const make = (): Float64Array => new Float64Array(pixels);
  const transmittance = make();
  const standardUncertainty = make();
  const components = {
    filteredNoise: make(),
    openNoise: make(),
    darkNoise: make(),
    darkShared: make(),
    drift: make(),
  };
  const floor = make();
  const exposureMs = make();
  const masked = new Uint8Array(pixels).fill(1);
  for (let i = 0; i < pixels; i++) {
    const group = beam.masked[i] === 1 ? null : chooseExposure(groups, i);
    if (group === null) continue;
    const exposure = group[0]!.exposureMs;
    let counts = 0;
    let openSum = 0;
    let variance = 0;
    let zeroVariance = 0;
    let filteredDark = 0;
    let openNoise = 0;
    let openDark = 0;
    let filteredShared = 0;
    let openShared = 0;
    let drift = 0;
    for (const spectrum of group) {
      if (spectrum.masked[i] === 1) continue;
      const rate = rates.get(spectrum)!;
      const n = spectrum.frames;
      const own = spectrum.noise[i]! ** 2;
      const expected = n * spectrum.exposureMs * rate.countsPerMs[i]!;
      counts += n * spectrum.counts[i]!;
      openSum += expected;
      variance += n * n * own;
      zeroVariance += n * n * noiseWithoutLight(own, spectrum.counts[i]!, n, noise);
      filteredDark += n * spectrum.darkNoise[i]!;
      filteredShared += n * (spectrum.darkShared?.[i] ?? 0);
      // one open beam stands behind all of them: its errors add up
      openNoise += n * spectrum.exposureMs * rate.noisePerMs[i]!;
      openDark += n * spectrum.exposureMs * rate.darkPerMs[i]!;
      openShared += n * spectrum.exposureMs * rate.sharedPerMs[i]!;
      drift += expected * rate.driftRelative[i]!;
    }
    if (!(openSum > 0) || openSum < floorFactor * Math.hypot(openNoise, openDark, openShared)) continue;
    const t = counts / openSum;
    const sameDark = beam.exposureMs[i] === exposure;
    const dark = sameDark
      ? (Math.abs(1 - t) * filteredDark) / openSum
      : Math.sqrt(filteredDark ** 2 + (t * openDark) ** 2) / openSum;
    masked[i] = 0;
    exposureMs[i] = exposure;
    transmittance[i] = t;
    components.filteredNoise[i] = Math.sqrt(variance) / openSum;
    components.openNoise[i] = (Math.abs(t) * openNoise) / openSum;
    components.darkNoise[i] = dark;
    components.darkShared[i] = (filteredShared - t * openShared) / openSum;
    components.drift[i] = (Math.abs(t) * drift) / openSum;
    standardUncertainty[i] = Math.sqrt(
      components.filteredNoise[i]! ** 2 +
        components.openNoise[i]! ** 2 +
        dark ** 2 +
        components.darkShared[i]! ** 2 +
        components.drift[i]! ** 2,
    );
    floor[i] = (3 * Math.sqrt(zeroVariance + filteredDark ** 2 + filteredShared ** 2)) / openSum;
  }
  const used = [...rates.values()];
  return {
    transmittance,
    standardUncertainty,
    components,
    masked,
    openCounts: beam.counts,
    exposureMs,
    drift: {
      maxRelative: Math.max(...used.map((rate) => Math.abs(rate.change))),
      interpolated: used.every((rate) => rate.kind === 'between'),
    },
    floor,
    repeatScatter: scatterOf(groups, rates, transmittance, masked),
    warnings: driftWarnings(filtered, rates, driftLimit),
  };
}

/** Variance of a mean of n frames without light, counts^2, from that with light. */
function noiseWithoutLight(
  own: number,
  counts: number,
  frames: number,
  noise: TransmittanceOptions['noise'],
): number {
  if (noise === undefined) return own;
  const photons = noise.gain === undefined ? own : (noise.gain * Math.max(0, counts)) / frames;
  return Math.min(own, Math.max(noise.readVariance / frames, own - photons));
}

function scatterOf(
  groups: readonly (readonly CleanSpectrum[])[],
  rates: ReadonlyMap<CleanSpectrum, OpenRate>,
  transmittance: Float64Array,
  masked: Uint8Array,
): RepeatScatter | null {
  const most = groups.reduce((best, group) => (group.length > best.length ? group : best));
  const openCounts = most.map((spectrum) =>
    rates.get(spectrum)!.countsPerMs.map((rate) => rate * spectrum.exposureMs),
  );
  const usable = masked.map((value) => 1 - value);
  return repeatScatter(most, openCounts, transmittance, usable);
}
