import { interpolateLinear, median } from '../numeric/index.js';
import type { LabelledLamp } from './roughScale.js';

/** Median width of the clean lines, pixels; 3 where there is none. */
export function typicalWidthPixels(lamps: readonly LabelledLamp[]): number {
  const widths = lamps.flatMap(({ lamp }) =>
    lamp.lines.filter((line) => line.trouble === null).map((line) => line.fwhmPixels),
  );
  return widths.length === 0 ? 3 : median(widths);
}

/** Typical width of a line against pixel: the median of the clean lines nearest to it. */
export function widthCourse(lamps: readonly LabelledLamp[]): (pixel: number) => number {
  const clean = lamps.flatMap(({ lamp }) => lamp.lines.filter((line) => line.trouble === null));
  clean.sort((a, b) => a.pixel - b.pixel);
  if (clean.length === 0) {
    const width = typicalWidthPixels(lamps);
    return () => width;
  }
  const places = clean.map((line) => line.pixel);
  const widths = clean.map((_, k) => {
    const from = Math.max(0, Math.min(k - 3, clean.length - 7));
    return median(clean.slice(from, from + 7).map((line) => line.fwhmPixels));
  });
  if (places.length === 1) return () => widths[0]!;
  return (pixel) =>
    interpolateLinear(places, widths, Math.min(Math.max(pixel, places[0]!), places[places.length - 1]!));
}
