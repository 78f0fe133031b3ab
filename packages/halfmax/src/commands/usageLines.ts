import type { BeamLineReport, SkyReport } from '../measure/index.js';
import { type Absent, formatQuantity, isAbsent, type Quantity } from '../metrics/index.js';
import { textColumns } from './textColumns.js';
import { wrapText } from './wrapText.js';

/**
 * A filter's lines in the telescope's beam, for the terminal.
 *
 * @param lines - the filter's `beam`
 * @returns a table: a row each line; nothing where there is none
 */
export function beamLines(lines: readonly BeamLineReport[]): string[] {
  const first = lines[0];
  if (first === undefined) return [];
  const [low, high] = first.effectiveIndex;
  const index = low === high ? `${low}` : `${low} to ${high}`;
  const share = `${Number((100 * first.fastest.share).toFixed(1))} % kept down to`;
  const head = [
    'transmittance in the beam',
    'parallel',
    ...first.inBeam.map(({ fNumber }) => `f/${Number(fNumber.toFixed(2))}`),
    share,
  ];
  const rows = lines.map((line) => [
    line.line,
    shown(line.collimated),
    ...line.inBeam.map(({ transmittance }) => shown(transmittance)),
    fastest(line),
  ]);
  const notes = [`effective index ${index}`];
  if (first.centralObstruction > 0) notes.push(`obstruction ${first.centralObstruction}`);
  if (first.pupil !== 'uniform') notes.push(`pupil that falls to ${first.pupil.gaussianEdge} at its edge`);
  if (first.chiefRayDeg !== 0) notes.push(`chief ray at ${first.chiefRayDeg} degrees`);
  if (first.tiltDeg !== 0) notes.push(`filter tilted by ${first.tiltDeg} degrees`);
  notes.push(
    first.measuredAtFNumber === null
      ? 'light of the bench taken as parallel'
      : `measured at f/${first.measuredAtFNumber}`,
  );
  if (first.temperatureDifferenceK !== null)
    notes.push(`${first.temperatureDifferenceK.toFixed(0)} K against the bench`);
  notes.push(
    lines.every(({ corrected }) => corrected)
      ? 'line spread taken out'
      : 'line spread of the instrument still in the curve',
  );
  if (lines.some(({ staysSoft }) => staysSoft))
    notes.push('the cone on the bench was wider: what it softened stays soft');
  return [...textColumns([head, ...rows], '  '), ...wrapText(`(${notes.join(', ')})`, '  ')];
}

/**
 * A filter under the site's sky, for the terminal.
 *
 * @param sky - the filter's `sky`
 * @param nightHours - of a clear night without a filter
 * @returns lines of text
 */
export function skyLines(sky: SkyReport | Absent, nightHours: number): string[] {
  if (isAbsent(sky)) return wrapText(`under the sky: – (${sky.absent})`, '  ');
  const head = [
    'under the sky',
    'T',
    'line / sky',
    'gain',
    'hours',
    `equal ${nightHours} h`,
    'price per hour saved',
  ];
  const rows = sky.lines.map((line) => {
    const price = line.pricePerHourSaved;
    return [
      line.name,
      shown(line.transmittance),
      shown(line.contrast),
      shown(line.gain),
      shown(line.hours),
      shown(line.hoursToEqualNight),
      isAbsent(price) ? `– (${price.absent})` : `${formatQuantity(price)} ${price.currency ?? ''}`.trimEnd(),
    ];
  });
  const { magnitudesLost } = sky.continuum;
  const lost =
    typeof magnitudesLost === 'number' ? `loses ${magnitudesLost.toFixed(2)} mag` : magnitudesLost.absent;
  const notes = [
    `f/${Number(sky.fNumber.toFixed(2))}, sky as through ${shown(sky.effectiveWidthNm)} nm`,
    `${shown(sky.skyPerPixel)} electrons/s in a pixel, frames of ${sky.frameS.toFixed(0)} s`,
    `a star like the sun ${lost}, and its signal to noise is ${sky.continuum.signalToNoise.toFixed(2)} of that without the filter`,
  ];
  if (!sky.corrected) notes.push('line spread of the instrument still in the curve');
  if (sky.unseenNm > 0)
    notes.push(`${sky.unseenNm.toFixed(0)} nm of the camera's range were not measured and count as dark`);
  return [...textColumns([head, ...rows], '  '), ...wrapText(`(${notes.join('; ')})`, '  ')];
}

function shown(number: Quantity): string {
  return formatQuantity(number);
}

function fastest({ fastest: { fNumber, beyondFast, beyondSlow } }: BeamLineReport): string {
  if (isAbsent(fNumber)) return '–';
  const text = `f/${formatQuantity(fNumber)}`;
  // A tail that the ratios looked at cut off makes the interval one-sided.
  if (beyondFast > 0.025) return `${text} or faster`;
  return beyondSlow > 0.025 ? `${text} or slower` : text;
}
