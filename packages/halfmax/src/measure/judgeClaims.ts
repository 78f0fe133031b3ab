import { isAbsent, opticalDensityIn, type Quantity } from '../metrics/index.js';
import type { FilterClaims } from '../session/benchSession.js';
import { type Claim, judge } from '../verdict/index.js';
import type { ScaledCurve } from './curveOnScale.js';
import type { UnjudgedBand } from './measureBand.js';
import type { BandReport, ClaimReport } from './measurement.js';

const BAND_CLAIMS = ['fwhmNm', 'centreNm', 'peakTransmittance', 'transmittanceAtLine'] as const;

/**
 * Holds a filter's claims against its bands. A claim on a band is judged for every band, but that of a centre only for
 * the nearest one; a claim of optical density is listed with the first band.
 *
 * @param bands - the filter's bands
 * @param claims - of the data sheet
 * @param scaled - the filter's curve, for optical density
 * @returns the bands with their claims
 */
export function judgeClaims(
  bands: readonly UnjudgedBand[],
  claims: FilterClaims,
  scaled: ScaledCurve,
): BandReport[] {
  return bands.map((unjudged, index) => {
    const band = unjudged.report;
    const reports: ClaimReport[] = [];
    for (const name of BAND_CLAIMS) {
      const claim = claims[name];
      if (claim === undefined) continue;
      if (name === 'centreNm' && nearestBand(bands, claim) !== unjudged) continue;
      reports.push(report(name, claim, unjudged));
    }
    if (index === 0 && claims.opticalDensity !== undefined)
      reports.push(densityReport(claims.opticalDensity, scaled));
    return { ...band, claims: reports };
  });
}

const OUTPUTS = {
  fwhmNm: 'fwhm',
  centreNm: 'centre',
  peakTransmittance: 'peak',
  transmittanceAtLine: 'line 0',
} as const;

/** Judges by the corrected number where there is one, else by the one as measured, and by its draws. */
function report(name: (typeof BAND_CLAIMS)[number], claim: Claim, { report: band, spread }: UnjudgedBand): ClaimReport {
  const kind = isAbsent(band.corrected[name]) ? 'measured' : 'corrected';
  const measured: Quantity = kind === 'corrected' ? band.corrected[name] : band.asMeasured[name];
  const samples = isAbsent(measured) ? null : spread.samples(`${kind} ${OUTPUTS[name]}`, measured.value);
  const held = isAbsent(measured) || samples === null ? measured : { samples, value: measured.value };
  const { verdict, reason, probabilityMet, deviation } = judge(claim, held);
  return { quantity: name, basis: kind, claim, measured, verdict, reason, probabilityMet, deviation };
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

function densityReport(claim: NonNullable<FilterClaims['opticalDensity']>, scaled: ScaledCurve): ClaimReport {
  const { curve, floor } = scaled;
  const name = `opticalDensity ${claim.fromNm} to ${claim.toNm} nm`;
  const blocking = opticalDensityIn(curve, claim.fromNm, claim.toNm, { floor });
  const found = blocking.worstOpticalDensity;
  const measured =
    'value' in found ? { value: found.value, standardUncertainty: found.standardUncertainty } : found;
  const { verdict, reason, probabilityMet, deviation } = judge(claim, measured);
  const shown =
    'value' in found
      ? {
          ...measured,
          value: found.value,
          standardUncertainty: found.standardUncertainty,
          interval95: [
            found.value - 1.96 * found.standardUncertainty,
            found.value + 1.96 * found.standardUncertainty,
          ] as const,
        }
      : found;
  return { quantity: name, basis: 'measured', claim, measured: shown, verdict, reason, probabilityMet, deviation };
}
