// One export of every entry, with its type; each expected error proves that the type is known and not any.
import { BadInputError, type Measurement, measureSession } from 'halfmax';
import { curveInBeam } from 'halfmax/beam';
import { type Dispersion, wavelengthAt } from 'halfmax/calibration';
import { correctBand, type MeasuredBand } from 'halfmax/correction';
import { type CleanSpectrum, saturationMask } from 'halfmax/frames';
import { ringEdges } from 'halfmax/halo';
import { type CurveTable, measureSession as measureAgain } from 'halfmax/measure';
import { type Curve, findBands, isAbsent, type Quantity } from 'halfmax/metrics';
import { fitPolynomial, type PolynomialFit } from 'halfmax/numeric';
import { type EmissionLine, resolveLines } from 'halfmax/reference';
import { type BenchSession, readSession } from 'halfmax/session';
import { type SiteSky, siteSky } from 'halfmax/sky';
import { type TransmittanceCurve, transmittanceCurve } from 'halfmax/transmittance';
import { coverageInterval, type Distribution } from 'halfmax/uncertainty';
import { judge, type Verdict } from 'halfmax/verdict';

// halfmax
const problems: readonly { readonly where: string }[] = new BadInputError([]).problems;
// @ts-expect-error the format is one text
const format: Measurement['format'] = 'halfmax-measurement/0';
// @ts-expect-error the options are needed
export const lacking = (session: BenchSession): unknown => measureSession(session);

// halfmax/reference
const lines: EmissionLine[] | null = resolveLines('H-alpha');
// @ts-expect-error may be null
export const first: EmissionLine | undefined = resolveLines('H-alpha')[0];

// halfmax/numeric
export const fit = (x: Float64Array, y: Float64Array): PolynomialFit => fitPolynomial(x, y, 3);
// @ts-expect-error coefficients are a typed array
export const coefficients = (of: PolynomialFit): string => of.coefficients;
export const typed = (of: PolynomialFit): Float64Array => of.coefficients;

// halfmax/frames
// @ts-expect-error counts are a typed array
export const counts = (spectrum: CleanSpectrum): number[] => spectrum.counts;
export const masked = (spectrum: CleanSpectrum): Uint8Array => spectrum.masked;
// @ts-expect-error no counts are given
export const mask = (): unknown => saturationMask();

// halfmax/calibration
export const nm = (dispersion: Dispersion): number => wavelengthAt(dispersion, 12.5);
// @ts-expect-error coefficients are a typed array
export const powers = (dispersion: Dispersion): string => dispersion.coefficients;
export const rows = (dispersion: Dispersion): readonly Float64Array[] => dispersion.covariance;

// halfmax/transmittance
export const curve = (scans: readonly CleanSpectrum[]): TransmittanceCurve =>
  transmittanceCurve(scans, scans);
// @ts-expect-error transmittance is a typed array
export const fractions = (of: TransmittanceCurve): string => of.transmittance;

// halfmax/metrics
export const bands = (of: Curve): number[] => findBands(of).map((band) => band.peakNm);
// @ts-expect-error wavelengths are a typed array
export const wavelengths = (of: Curve): string => of.wavelengthNm;
// @ts-expect-error the number may be absent
export const value = (of: Quantity): number => of.value;
export const known = (of: Quantity): number => (isAbsent(of) ? 0 : of.value);

// halfmax/beam
export const inBeam = (of: Curve): Curve => curveInBeam(of, { fNumber: 4 }, { effectiveIndex: 2 });
// @ts-expect-error the beam is needed
export const withoutBeam = (of: Curve): Curve => curveInBeam(of);

// halfmax/sky
export const brightness = (): number => siteSky({ skyBrightness: 20 }).vMagnitude;
// @ts-expect-error the brightness is a number
export const words = (sky: SiteSky): string => sky.vMagnitude;

// halfmax/halo
// @ts-expect-error edges are not a text
export const edges = (...given: Parameters<typeof ringEdges>): string => ringEdges(...given);

// halfmax/correction
export const band: MeasuredBand = { centreNm: 656.3, fwhmNm: 3.2, peakTransmittance: 0.9 };
// @ts-expect-error no curve is given
export const corrected = (): unknown => correctBand();

// halfmax/uncertainty
export const interval = (sample: Float64Array): readonly [number, number] =>
  coverageInterval(sample, 0.95).shortest;
// @ts-expect-error the coverage is needed
export const uncovered = (sample: Float64Array): unknown => coverageInterval(sample);
// @ts-expect-error there is no such kind
export const distribution: Distribution = { kind: 'no such kind' };

// halfmax/verdict
const verdict: Verdict = judge({ atLeast: 0.9 }, { value: 0.93, standardUncertainty: 0.004 }).verdict;
// @ts-expect-error none of the four words
export const word: Verdict = 'perhaps';

// halfmax/measure
export const again = (session: BenchSession): readonly CurveTable[] =>
  measureAgain(session, { provenance: { package: 'x', version: '0', node: 'v', seed: 1, draws: 0 } }).curves;
// @ts-expect-error a column is a typed array
export const column = (table: CurveTable): string => table.transmittance;

// halfmax/session
export const read = (folder: string): BenchSession => readSession(folder);
// @ts-expect-error a folder is a text
export const wrong = (): BenchSession => readSession(1);

export { format, lines, problems, verdict };
