import { type Calibration, lineSpreadAt, wavelengthAt } from '../calibration/index.js';
import { type ReducedFrames, type RejectedScan, reduceFrames, type Warning } from '../frames/index.js';
import {
  type BandRange,
  describeBand,
  findBands,
  isAbsent,
  type Quantity,
  transmittanceAt,
  transmittanceWeights,
} from '../metrics/index.js';
import type { BenchSession, FilterEntry } from '../session/benchSession.js';
import { transmittanceCurve } from '../transmittance/index.js';
import { relativeDrift } from './bandDrift.js';
import { type BandTargets, bandTargets } from './bandTargets.js';
import { calibrateSession } from './calibrateSession.js';
import { curveOnScale, type ScaledCurve } from './curveOnScale.js';
import { noPassband } from './noPassband.js';
import { scaleUncertainty } from './scaleUncertainty.js';
import { widen } from './widen.js';

/** What a session holds, at a first look. */
export interface SessionLook {
  readonly title: string;
  /** Frames in use, and those left out. */
  readonly frames: { readonly used: number; readonly rejected: readonly RejectedScan[] };
  readonly scale: {
    readonly order: number;
    readonly linesUsed: number;
    readonly linesFound: number;
    readonly residualRmsNm: number;
    readonly coveredNm: readonly [number, number];
  };
  readonly filters: readonly FilterLook[];
  readonly warnings: readonly Warning[];
}

/** One filter at a first look. */
export interface FilterLook {
  readonly id: string;
  readonly label: string;
  readonly bands: readonly BandLook[];
}

/** Numbers of a band as measured: the line spread of the instrument is in them. */
export interface BandLook {
  readonly target: readonly string[];
  readonly lineSpreadNm: number;
  readonly fwhmNm: Quantity;
  readonly centreNm: Quantity;
  readonly peakTransmittance: Quantity;
  readonly lines: readonly { readonly name: string; readonly transmittance: Quantity }[];
}

/**
 * A first look at a session, while the filters are still on the bench: clean frames, wavelength scale, and the numbers
 * as measured. Their uncertainties are asymptotic: count noise, wavelength scale and drift of the lamp, carried to
 * first order. Nothing is taken out, judged or drawn at random: `measureSession` does that.
 *
 * @param session - read from its folder, or made in memory
 * @returns what there is
 * @throws {BadInputError} frames that cannot be used, lamps that give no wavelength scale
 *
 * Source: JCGM 100:2008, 5.1.2.
 */
export function lookAtSession(session: BenchSession): SessionLook {
  const frames = reduceFrames(session.entries, session.detector);
  const calibration = calibrateSession(frames.spectra, session.detector);
  const { dispersion, lines, residualRmsNm, coveredNm } = calibration;
  const seen = session.filters.map((filter) => lookAtFilter(filter, frames, calibration));
  return {
    title: session.title,
    frames: {
      used: frames.spectra.reduce((sum, spectrum) => sum + spectrum.frames, 0),
      rejected: frames.rejected,
    },
    scale: {
      order: dispersion.order,
      linesUsed: lines.filter((line) => line.used).length,
      linesFound: lines.length,
      residualRmsNm,
      coveredNm,
    },
    filters: seen.map(({ look }) => look),
    warnings: [
      ...session.warnings,
      ...frames.warnings,
      ...calibration.warnings,
      ...seen.flatMap(({ warnings }) => warnings),
    ],
  };
}

function lookAtFilter(
  { id, label, lines }: FilterEntry,
  frames: ReducedFrames,
  calibration: Calibration,
): { readonly look: FilterLook; readonly warnings: readonly Warning[] } {
  const filtered = frames.spectra.filter((one) => one.role === 'filtered' && one.filter === id);
  const open = frames.spectra.filter((one) => one.role === 'open');
  const nothing = (what: string): ReturnType<typeof lookAtFilter> => ({
    look: { id, label, bands: [] },
    warnings: [{ where: id, what }],
  });
  if (filtered.length === 0) return nothing('the session has no filtered frames of it');
  const measured = transmittanceCurve(filtered, open, { noise: frames.noise });
  const scaled = curveOnScale(measured, calibration.dispersion);
  const whyNone = (): string =>
    noPassband(filtered, open, scaled, (pixel) => wavelengthAt(calibration.dispersion, pixel));
  if (scaled.curve.wavelengthNm.length < 5)
    return nothing(`nearly no pixel has a transmittance: ${whyNone()}`);
  const ranges = findBands(scaled.curve);
  const targets = bandTargets(lines, ranges);
  const pixels = measured.transmittance.length;
  const bands = ranges.map((range, k) => lookAtBand(scaled, range, targets[k]!, calibration, pixels));
  const none = bands.length === 0 ? [{ where: id, what: `no passband found: ${whyNone()}` }] : [];
  return { look: { id, label, bands }, warnings: [...measured.warnings, ...none] };
}

function lookAtBand(
  scaled: ScaledCurve,
  range: BandRange,
  { targets, neighbours }: BandTargets,
  { dispersion, lineSpread }: Calibration,
  pixels: number,
): BandLook {
  const { fwhmNm: lineSpreadNm } = lineSpreadAt(lineSpread, range.peakNm);
  const metrics = describeBand(scaled.curve, range, { lineSpreadNm, floor: scaled.floor });
  const scale = scaleUncertainty(dispersion, pixels);
  const drift = relativeDrift(scaled, range);
  const { blueNm, redNm } = metrics.halfCrossingsNm;
  const apart = isAbsent(blueNm) || isAbsent(redNm) ? 0 : scale.distance(blueNm.value, redNm.value);
  const slopeAt = (nm: number): number => {
    const weights = transmittanceWeights(scaled.curve, nm, { lineSpreadNm });
    if (isAbsent(weights)) return 0;
    return weights.slope.reduce((sum, w, i) => sum + w * scaled.curve.transmittance[weights.from + i]!, 0);
  };
  return {
    target: targets.map(({ name }) => name),
    lineSpreadNm,
    fwhmNm: widen(metrics.fwhmNm, () => apart),
    centreNm: widen(metrics.centreNm, scale.place),
    peakTransmittance: widen(metrics.peakTransmittance, (value) => value * drift),
    lines: [...targets, ...neighbours].map(({ name, wavelengthNm }) => ({
      name,
      transmittance: widen(transmittanceAt(scaled.curve, wavelengthNm, { lineSpreadNm }), (value) =>
        Math.hypot(value * drift, slopeAt(wavelengthNm) * scale.place(wavelengthNm)),
      ),
    })),
  };
}
