import {
  type BandRange,
  type Blocking,
  type BlockingOptions,
  type Curve,
  isAbsent,
  outOfBand,
  type Quantity,
  quantity,
} from '../metrics/index.js';
import type { FilterClaims } from '../session/benchSession.js';
import { type Claim, type DecisionRule, judge } from '../verdict/index.js';
import { claimStep } from './claimStep.js';
import type { UnjudgedBand } from './measureBand.js';
import type { ClaimReport } from './measurement.js';

const BAND_CLAIMS = ['fwhmNm', 'centreNm', 'peakTransmittance', 'transmittanceAtLine'] as const;

/** What a claim of optical density is held against. */
export interface SeenBlocking {
  readonly curve: Curve;
  readonly bands: readonly BandRange[];
  readonly limits: BlockingOptions;
}

/**
 * Holds a filter's claims against its bands. A claim on a band is judged for every band, but that of a centre only for
 * the nearest one; a claim of optical density is listed with the first band.
 *
 * @param bands - the filter's bands
 * @param claims - of the data sheet
 * @param seen - the filter's curve, its bands there, which a claim of optical density leaves out, and what limits a
 *   statement on its blocking
 * @param rule - how a measurement becomes a verdict
 * @returns the claims of each band
 */
export function judgeClaims(
  bands: readonly UnjudgedBand[],
  claims: FilterClaims,
  seen: SeenBlocking,
  rule: DecisionRule,
): ClaimReport[][] {
  return bands.map((unjudged, index) => {
    const reports: ClaimReport[] = [];
    for (const name of BAND_CLAIMS) {
      const claim = claims[name];
      if (claim === undefined) continue;
      if (name === 'centreNm' && nearestBand(bands, claim) !== unjudged) continue;
      reports.push(report(name, claim, unjudged, rule));
    }
    if (index === 0 && claims.opticalDensity !== undefined)
      reports.push(densityReport(claims.opticalDensity, seen, rule));
    return reports;
  });
}

const OUTPUTS = {
  fwhmNm: 'fwhm',
  centreNm: 'centre',
  peakTransmittance: 'peak',
  transmittanceAtLine: 'line 0',
} as const;

/** Judges by the corrected number where there is one, else by the one as measured, and by its draws. */
function report(
  name: (typeof BAND_CLAIMS)[number],
  claim: Claim,
  { report: band, spread }: UnjudgedBand,
  rule: DecisionRule,
): ClaimReport {
  const kind = isAbsent(band.corrected[name]) ? 'measured' : 'corrected';
  const measured: Quantity = kind === 'corrected' ? band.corrected[name] : band.asMeasured[name];
  const samples = isAbsent(measured) ? null : spread.samples(`${kind} ${OUTPUTS[name]}`, measured.value);
  const held = isAbsent(measured) || samples === null ? measured : { samples, value: measured.value };
  const step = claimStep(claim, name === 'peakTransmittance' || name === 'transmittanceAtLine');
  const { verdict, reason, probabilityMet, deviation } = judge(claim, held, { rule, resolution: step ?? 0 });
  return { quantity: name, basis: kind, claim, step, measured, verdict, reason, probabilityMet, deviation };
}

/** The band whose centre is nearest to what a claim on a centre names. */
function nearestBand(bands: readonly UnjudgedBand[], claim: Claim): UnjudgedBand | undefined {
  const aim = 'value' in claim ? claim.value : 'atLeast' in claim ? claim.atLeast : claim.atMost;
  const away = (band: UnjudgedBand): number => {
    const { centreNm } = band.report.asMeasured;
    return isAbsent(centreNm) ? Number.POSITIVE_INFINITY : Math.abs(centreNm.value - aim);
  };
  return [...bands].sort((a, b) => away(a) - away(b))[0];
}

/** Judges by the worst place of the range. */
function densityReport(
  claim: NonNullable<FilterClaims['opticalDensity']>,
  { curve, bands, limits }: SeenBlocking,
  rule: DecisionRule,
): ClaimReport {
  const { fromNm, toNm } = claim;
  // The passbands and their feet are no part of a claim on blocking, even where its range runs across them.
  const blocking = outOfBand(curve, bands, { ...limits, ranges: [{ name: 'claim', fromNm, toNm }] })
    .ranges[0]!;
  const found = blocking.worstOpticalDensity;
  const step = claimStep(claim, false);
  const judged = judge(claim, found, { rule, resolution: step ?? 0 });
  const { probabilityMet, deviation } = judged;
  const partly = judged.verdict === 'met' && !seenWhole(blocking, curve);
  const verdict = partly ? 'undecided' : judged.verdict;
  const reason = partly
    ? `blocking was seen only from ${blocking.seenFromNm?.toFixed(0)} to ${blocking.seenToNm?.toFixed(0)} nm`
    : judged.reason;
  const measured =
    'value' in found ? { ...found, ...quantity(found.value, found.standardUncertainty) } : found;
  return {
    quantity: `opticalDensity ${claim.fromNm} to ${claim.toNm} nm`,
    basis: 'measured',
    claim,
    step,
    measured,
    verdict,
    reason,
    probabilityMet,
    deviation,
  };
}

/** Whether the scan reaches over the whole range of a claim, a nanometre at either end left out. */
function seenWhole(blocking: Blocking, curve: Curve): boolean {
  const first = curve.wavelengthNm[0]!;
  const last = curve.wavelengthNm[curve.wavelengthNm.length - 1]!;
  return first <= blocking.fromNm + 1 && last >= blocking.toNm - 1;
}
