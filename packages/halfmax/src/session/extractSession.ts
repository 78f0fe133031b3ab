import type { FrameRole } from '../frames/types.js';
import { extractSpectrum } from './extractSpectrum.js';
import { findTrace } from './findTrace.js';
import type { SlitImage, Trace } from './slitImage.js';

/** A 2-D frame with what is needed to choose the frames that show the trace. */
export interface RoleImage {
  readonly role: FrameRole;
  readonly exposureMs: number;
  readonly image: SlitImage;
}

function sumOf(images: readonly SlitImage[]): Float64Array {
  const sum = new Float64Array(images[0]!.counts.length);
  for (const { counts } of images) for (let i = 0; i < sum.length; i++) sum[i]! += counts[i]!;
  return sum;
}

/** The lit frames of the first role that has any, summed, less as many darks of the nearest exposure. */
function lightOf(frames: readonly RoleImage[]): SlitImage {
  const order: FrameRole[] = ['open', 'lamp', 'filtered', 'dark'];
  const role = order.find((candidate) => frames.some((frame) => frame.role === candidate))!;
  const lit = frames.filter((frame) => frame.role === role);
  const counts = sumOf(lit.map((frame) => frame.image));
  const darks = frames.filter((frame) => frame.role === 'dark');
  if (role !== 'dark' && darks.length > 0) {
    const distance = (dark: RoleImage): number => Math.abs(Math.log(dark.exposureMs / lit[0]!.exposureMs));
    const nearest = darks.reduce((best, dark) => (distance(dark) < distance(best) ? dark : best));
    const same = darks.filter((dark) => dark.exposureMs === nearest.exposureMs);
    const dark = sumOf(same.map((frame) => frame.image));
    for (let i = 0; i < counts.length; i++) counts[i]! -= (dark[i]! * lit.length) / same.length;
  }
  return { pixels: lit[0]!.image.pixels, rows: lit[0]!.image.rows, counts };
}

/**
 * The spectra of all 2-D frames of a session, taken along one and the same trace: darks too, or their subtraction
 * would be wrong. The trace comes from the open frames, else the lamps.
 *
 * @param frames - all of the same size, at least one
 * @param saturationCounts - limit of a single pixel
 * @returns the trace and one spectrum per frame, in their order; mean counts per row
 */
export function extractSession(
  frames: readonly RoleImage[],
  saturationCounts: number,
): { trace: Trace; spectra: Float64Array[] } {
  const trace = findTrace(lightOf(frames));
  return { trace, spectra: frames.map(({ image }) => extractSpectrum(image, trace, saturationCounts)) };
}
