import type { LampLine } from '../reference/index.js';
import type { DispersionFit } from './describeDispersion.js';
import { wavelengthAt, wavelengthCovariance } from './dispersion.js';
import type { ScalePoint } from './dispersionSolution.js';
import { fitDispersion } from './fitDispersion.js';
import { widthCourse } from './lineWidths.js';
import { type NamedLine, nameLines } from './nameLines.js';
import { nearestPixel } from './nearestPixel.js';
import { refuseLamps } from './refuseLamps.js';
import type { LabelledLamp } from './roughScale.js';

/** Fewer lines than this carry no scale with an uncertainty. */
const LEAST_LINES = 5;
/** Share in its own fitted value above which a line's name is checked against the other lines. */
const LONELY_LEVERAGE = 0.6;
/** Strength against a line's own from which another can be taken for it. */
const RIVAL_SHARE = 0.1;
/** With so many clean lines no blended one is needed. */
const ENOUGH_LINES = 8;
/** Uncertainty of a line that was fitted together with a near neighbour, in widths. Common practice, no source. */
const NEAR_BLEND_SHARE = 0.03;

/** Names the lines by a scale and fits a better one through those that can carry it. */
export function nameAndFit(
  lamps: readonly LabelledLamp[],
  wavelengthOf: (pixel: number) => number,
  pixels: number,
  windowWidths: number,
): { named: NamedLine[]; fit: DispersionFit } {
  const widthAt = widthCourse(lamps);
  const spreadOf = (nm: number): number => {
    const pixel = nearestPixel(wavelengthOf, nm, pixels);
    return widthAt(pixel) * Math.abs(wavelengthOf(pixel + 0.5) - wavelengthOf(pixel - 0.5));
  };
  let named = admitNearBlends(nameLines(lamps, wavelengthOf, spreadOf, windowWidths));
  for (;;) {
    const usable = named.filter((line) => line.trouble === null);
    if (usable.length < LEAST_LINES) refuseFewLines(lamps, usable.length);
    const fit = fitDispersion(usable.map(scalePoint), pixels);
    const doubtful = doubtfulName(usable, fit, lamps, pixels);
    if (doubtful === null) return { named, fit };
    named = named.map((line) =>
      line === doubtful.line ? { ...line, trouble: doubtful.why, blendWidths: null } : line,
    );
  }
}

/** A line that stands so far from the others that they cannot tell its name from another one. */
function doubtfulName(
  usable: readonly NamedLine[],
  fit: DispersionFit,
  lamps: readonly LabelledLamp[],
  pixels: number,
): { line: NamedLine; why: string } | null {
  const order = usable.map((_, index) => index).sort((a, b) => fit.leverage[b]! - fit.leverage[a]!);
  for (const index of order) {
    if (fit.leverage[index]! < LONELY_LEVERAGE || usable.length < LEAST_LINES) return null;
    const line = usable[index]!;
    const without = fitDispersion(
      usable.filter((other) => other !== line).map(scalePoint),
      pixels,
    ).dispersion;
    const { pixel } = line.found;
    const reach = 3 * Math.sqrt(wavelengthCovariance(without, pixel, pixel));
    const predicted = wavelengthAt(without, pixel);
    const { known } = lamps.find(({ lamp }) => lamp.label === line.lamp)!;
    const rival = known.find(
      (other) =>
        other !== line.known &&
        !other.weak &&
        Math.abs(other.wavelengthNm - predicted) < reach &&
        isRival(other, line.known!),
    );
    if (rival === undefined) continue;
    return {
      line,
      why: `stands alone: the other lines cannot tell it from ${rival.species} ${rival.wavelengthNm.toFixed(2)} nm`,
    };
  }
  return null;
}

/** A line far fainter than another of its species in the table cannot be taken for it. */
function isRival(other: LampLine, line: LampLine): boolean {
  if (other.species !== line.species || other.relativeIntensity === null || line.relativeIntensity === null)
    return true;
  return other.relativeIntensity >= RIVAL_SHARE * line.relativeIntensity;
}

/** Where clean lines are few, lines a full width from a neighbour are used as well, with a wider uncertainty. */
function admitNearBlends(named: readonly NamedLine[]): NamedLine[] {
  if (named.filter((line) => line.trouble === null).length >= ENOUGH_LINES) return [...named];
  return named.map((line) => {
    if (line.blendWidths === null || line.blendWidths < 1) return line;
    const pixelUncertainty = Math.hypot(
      line.found.pixelUncertainty,
      NEAR_BLEND_SHARE * line.found.fwhmPixels,
    );
    return { ...line, trouble: null, found: { ...line.found, pixelUncertainty } };
  });
}

function scalePoint(line: NamedLine): ScalePoint {
  const { pixel, pixelUncertainty } = line.found;
  return { lamp: line.lamp, pixel, pixelUncertainty, wavelengthNm: line.known!.wavelengthNm };
}

function refuseFewLines(lamps: readonly LabelledLamp[], usable: number): never {
  return refuseLamps(
    lamps,
    `only ${usable} lamp line${usable === 1 ? ' is' : 's are'} clean enough to carry the scale, ${LEAST_LINES} are needed`,
    'add a second lamp or exposures in which the lines are neither clipped nor lost in noise',
  );
}
