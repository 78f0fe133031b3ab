import { absent, type Curve, isAbsent, type Quantity } from '../metrics/index.js';
import { splitStream } from '../numeric/index.js';
import { filterAngleTable } from '../reference/index.js';
import { type OutputDistribution, propagate, type UncertainInput } from '../uncertainty/index.js';
import { beamRays } from './beamRays.js';
import { fastestRatio } from './fastestRatio.js';
import type { LineInBeam, LineInBeamOptions } from './lineTypes.js';
import { pixelsBetween } from './pixelsBetween.js';
import { rangeDistribution } from './rangeDistribution.js';
import { rayReader } from './rayReader.js';
import { raysBetween } from './raysBetween.js';
import { requireBeam, requireIndex } from './requireBeam.js';
import { requireScan } from './requireScan.js';
import { trialOverlay } from './stretchTrials.js';
import type { Beam, BeamRays } from './types.js';

/** Ratios at which the fastest one is looked for: 1 to 30, each 6 % slower than the one before. */
const LADDER: readonly number[] = Array.from({ length: 60 }, (_, k) => 30 * 1.06 ** -k).filter((n) => n >= 1);
const DRAWS = 2000;

/**
 * Transmittance at a line against focal ratio, and the fastest ratio that keeps a share of it, with uncertainty from
 * the noise of the curve, its scale and level, the effective index and the temperature coefficient.
 *
 * @param curve - transmittance, straight between its pixels
 * @param wavelengthNm - the line, air, nm
 * @param fNumbers - focal ratios asked for
 * @param options - beam, filter, trials
 * @returns each number with its interval, or why there is none
 * @throws {RangeError} a beam, index, ratio or option that cannot be
 * Source: Monte Carlo of JCGM 101:2008; limits known alone are rectangular (6.4.2).
 */
export function lineInBeam(
  curve: Curve,
  wavelengthNm: number,
  fNumbers: readonly number[],
  options: LineInBeamOptions,
): LineInBeam {
  const { beam = {}, measuredIn, temperature, scaleNm = 0, level = 0, share = 0.9, trials = [] } = options;
  const [low, high] = requireIndex(
    'lineInBeam',
    options.effectiveIndex ?? (filterAngleTable.effectiveIndex as readonly [number, number]),
  );
  requireScan('lineInBeam', curve.wavelengthNm, curve.transmittance);
  if (!(wavelengthNm > 0 && wavelengthNm < Infinity))
    throw new RangeError(`lineInBeam requires a wavelength above 0, got ${wavelengthNm}`);
  if (!(share > 0 && share < 1))
    throw new RangeError(`lineInBeam requires a share between 0 and 1, got ${share}`);
  for (const fNumber of fNumbers) requireBeam('lineInBeam', { ...beam, fNumber });
  const measuring = measuredIn === undefined ? null : beamRays(measuredIn);
  let staysSoft = false;
  const raysOf = (one: Beam): BeamRays => {
    const direct = beamRays(one);
    if (measuring === null) return direct;
    const between = raysBetween(direct, measuring);
    staysSoft = staysSoft || (between.staysSoft && one.fNumber !== Number.POSITIVE_INFINITY);
    return between.rays;
  };
  const asked = fNumbers.map((fNumber) => raysOf({ ...beam, fNumber }));
  const parallel = raysOf({ fNumber: Number.POSITIVE_INFINITY });

  const heat = temperature?.differenceK ?? 0;
  const perK = temperature?.nmPerK ?? (filterAngleTable.temperatureNmPerK as readonly [number, number]);
  const [coldNm, hotNm] = typeof perK === 'number' ? [perK, perK] : perK;
  if (!(coldNm <= hotNm) || !Number.isFinite(heat)) {
    throw new RangeError(
      `lineInBeam requires a temperature coefficient lowest first, got ${coldNm} to ${hotNm}`,
    );
  }

  // Only pixels that some ray of the ladder's beams can need: the rest would be drawn for nothing.
  const margin = 6 * scaleNm + Math.abs(heat) * Math.max(Math.abs(coldNm), Math.abs(hotNm)) + 3;
  const reachOf = ({ sineSquared }: BeamRays): number =>
    wavelengthNm / Math.sqrt(1 - Math.max(...sineSquared) / low ** 2) + margin - 3;
  const end = curve.wavelengthNm[curve.wavelengthNm.length - 1]!;
  const ladder = LADDER.map((fNumber) => ({ fNumber, rays: raysOf({ ...beam, fNumber }) })).filter(
    ({ rays }) => reachOf(rays) <= end,
  );
  const farthest = Math.max(...[...ladder.map(({ rays }) => rays), ...asked].map(reachOf)) + 3;
  const window = pixelsBetween(curve, wavelengthNm - margin, farthest);
  const scan = window.wavelengthNm;
  const outside = `the line lies outside the scan, ${curve.wavelengthNm[0]!.toFixed(2)} to ${end.toFixed(2)} nm`;
  if (scan.length < 2 || ladder.length < 2) return nothing(outside, fNumbers, share);
  const read = rayReader(scan);
  const pixels = scan.length;
  const ratios = ladder.map(({ fNumber }) => fNumber);
  const overlay = trialOverlay(curve, window, trials);
  const values = new Float64Array(pixels);
  const model = (x: Float64Array, out: Float64Array): void => {
    values.set(x.subarray(0, pixels));
    overlay?.(values, x[pixels + 4]!);
    const index = x[pixels]!;
    const at = wavelengthNm - x[pixels + 1]! - heat * x[pixels + 2]!;
    const scale = 1 + x[pixels + 3]!;
    out[0] = scale * read(values, at, parallel, index);
    asked.forEach((rays, k) => {
      out[k + 2] = scale * read(values, at, rays, index);
    });
    const step = (k: number): number => scale * read(values, at, ladder[k]!.rays, index);
    const fastest = out[0] > 0 ? fastestRatio(ratios, step, share * out[0]) : Number.NaN;
    out[1] = fastest === Number.POSITIVE_INFINITY ? LADDER[0]! : fastest;
  };
  const inputs: UncertainInput[] = [
    {
      source: 'noise',
      distribution: {
        kind: 'independentNormal',
        mean: window.transmittance,
        standardUncertainty: window.standardUncertainty,
      },
    },
    { source: 'effective index', distribution: rangeDistribution(low, high) },
    { source: 'scale', distribution: { kind: 'normal', mean: 0, standardUncertainty: scaleNm } },
    { source: 'temperature coefficient', distribution: rangeDistribution(coldNm, hotNm) },
    { source: 'level', distribution: { kind: 'normal', mean: 0, standardUncertainty: level } },
    ...(overlay === null
      ? []
      : [{ source: 'shape', distribution: { kind: 'rectangular', lower: 0, upper: 1 } } as const]),
  ];
  const { outputs, samples } = propagate(model, inputs, {
    outputs: asked.length + 2,
    streams: (block) => splitStream(options.seed, block),
    draws: options.draws ?? DRAWS,
    allowedFailures: 0.025,
  });
  const fastest = samples[1]!;
  const shareOf = (value: number): number =>
    fastest.reduce((count, one) => count + (one === value ? 1 : 0), 0) / fastest.length;
  return {
    collimated: quoted(outputs[0]!, outside),
    inBeam: fNumbers.map((fNumber, k) => ({ fNumber, transmittance: quoted(outputs[k + 2]!, farther(end)) })),
    fastest: {
      share,
      fNumber: quoted(outputs[1]!, 'no light of the line passes in parallel light'),
      beyondFast: shareOf(ratios[ratios.length - 1]!),
      beyondSlow: shareOf(LADDER[0]!),
      between: [ratios[ratios.length - 1]!, LADDER[0]!],
    },
    staysSoft,
  };
}

function farther(end: number): string {
  return `the beam would need the curve beyond the end of the scan, ${end.toFixed(2)} nm`;
}

function quoted(output: OutputDistribution | { readonly absent: string }, why: string): Quantity {
  if (isAbsent(output)) return absent(why);
  return {
    value: output.mean,
    standardUncertainty: output.standardUncertainty,
    interval95: output.symmetric,
  };
}

function nothing(why: string, fNumbers: readonly number[], share: number): LineInBeam {
  const none = absent(why);
  return {
    collimated: none,
    inBeam: fNumbers.map((fNumber) => ({ fNumber, transmittance: none })),
    fastest: { share, fNumber: none, beyondFast: 0, beyondSlow: 0, between: [LADDER[0]!, LADDER[0]!] },
    staysSoft: false,
  };
}
