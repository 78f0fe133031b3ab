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
  return bands.map((band, index) => {
    const reports: ClaimReport[] = [];
    for (const name of BAND_CLAIMS) {
      const claim = claims[name];
      if (claim === undefined) continue;
      if (name === 'centreNm' && nearestBand(bands, claim) !== band) continue;
      reports.push(report(name, claim, reportedNumber(band, name)));
    }
    if (index === 0 && claims.opticalDensity !== undefined) reports.push(densityReport(claims.opticalDensity, scaled));
    return { ...band, claims: reports };
  });
}

/** The corrected number where there is one, else the one as measured. */
function reportedNumber(band: UnjudgedBand, name: (typeof BAND_CLAIMS)[number]): Quantity {
  const corrected = band.corrected[name];
  return isAbsent(corrected) ? band.asMeasured[name] : corrected;
}

function report(name: string, claim: Claim, measured: Quantity): ClaimReport {
  const { verdict, reason, probabilityMet, deviation } = judge(claim, measured);
  return { quantity: name, claim, measured, verdict, reason, probabilityMet, deviation };
}

/** The band whose centre is nearest to what a claim on a centre names. */
function nearestBand(bands: readonly UnjudgedBand[], claim: Claim): UnjudgedBand | undefined {
  const aim = 'value' in claim ? claim.value : 'atLeast' in claim ? claim.atLeast : claim.atMost;
  const away = (band: UnjudgedBand): number => {
    const { centreNm } = band.asMeasured;
    return isAbsent(centreNm) ? Number.POSITIVE_INFINITY : Math.abs(centreNm.value - aim);
  };
  return [...bands].sort((a, b) => away(a) - away(b))[0];
}

function densityReport(claim: NonNullable<FilterClaims['opticalDensity']>, scaled: ScaledCurve): ClaimReport {
  const { curve, floor } = scaled;
  const name = `opticalDensity ${claim.fromNm} to ${claim.toNm} nm`;
  const blocking = opticalDensityIn(curve, claim.fromNm, claim.toNm, { floor });
  const found = blocking.worstOpticalDensity;
  const measured = 'value' in found ? { value: found.value, standardUncertainty: found.standardUncertainty } : found;
  const { verdict, reason, probabilityMet, deviation } = judge(claim, measured);
  const shown =
    'value' in found
      ? {
          ...measured,
          value: found.value,
          standardUncertainty: found.standardUncertainty,
          interval95: [found.value - 1.96 * found.standardUncertainty, found.value + 1.96 * found.standardUncertainty] as const,
        }
      : found;
  return { quantity: name, claim, measured: shown, verdict, reason, probabilityMet, deviation };
}
