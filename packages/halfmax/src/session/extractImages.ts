import type { InputProblem } from '../errors.js';
import type { FrameRole, Scan, Warning } from '../frames/types.js';
import { extractSession, type RoleImage } from './extractSession.js';
import type { FrameContent } from './fitsFrames.js';
import { asList, asNumber, asRecord } from './manifest.js';

type SlitOwner = FrameContent['images'][number];

/**
 * Turns all slit images of a session into scans, along one trace.
 *
 * @param contents - what the files of each entry hold
 * @param manifest - parsed session.json without faults
 * @param problems - gains what is wrong: images of different size, images beside spectra
 * @param warnings - gains the rows that were used
 * @returns the scan of each image
 */
export function extractImages(
  contents: readonly { entry: number; content: FrameContent }[],
  manifest: unknown,
  problems: InputProblem[],
  warnings: Warning[],
): Map<SlitOwner, Scan> {
  const scans = new Map<SlitOwner, Scan>();
  const all = contents.flatMap(({ entry, content }) => content.images.map((owner) => ({ entry, owner })));
  const saturation = asNumber(asRecord(asRecord(manifest)['detector'])['saturationCounts']);
  if (all.length === 0 || saturation === null) return scans;
  const size = all[0]!.owner.image;
  const odd = all.find(({ owner }) => owner.image.rows !== size.rows || owner.image.pixels !== size.pixels);
  if (odd !== undefined) {
    const { file, column, image } = odd.owner;
    const what = `is ${image.pixels} x ${image.rows} pixels, ${all[0]!.owner.file} is ${size.pixels} x ${size.rows}`;
    problems.push({
      where: file,
      place: column,
      what,
      fix: 'all 2-D frames of a session must have the same size',
    });
    return scans;
  }
  const frames = asList(asRecord(manifest)['frames']);
  const roleImages = all.map(({ entry, owner }): RoleImage => {
    const frame = asRecord(frames[entry]);
    return {
      role: frame['role'] as FrameRole,
      exposureMs: asNumber(frame['exposureMs']) ?? 1,
      image: owner.image,
    };
  });
  const flat = contents.find(({ content }) => content.scans.length > 0);
  if (flat !== undefined) {
    const file = flat.content.scans[0]!.file;
    const what = `is a spectrum, ${all[0]!.owner.file} is a 2-D image: they cannot be combined`;
    problems.push({ where: file, place: '', what, fix: 'give all frames of a session in the same form' });
    return scans;
  }
  const { trace, spectra } = extractSession(roleImages, saturation);
  all.forEach(({ owner }, i) => {
    scans.set(owner, { file: owner.file, column: owner.column, counts: spectra[i]!, wavelengthNm: null });
  });
  const middle = trace.centreRow[Math.floor(size.pixels / 2)]!;
  const rows = Number.isFinite(trace.below + trace.above)
    ? `along rows ${(middle - trace.below + 1).toFixed(1)} to ${(middle + trace.above + 1).toFixed(1)} (at mid-length, from 1)`
    : 'over the whole height on at least one side';
  warnings.push({
    where: 'frames',
    what: `2-D frames: the mean of the rows is taken ${rows}, the same in all frames`,
  });
  if (asRecord(asRecord(manifest)['detector'])['linearity'] !== undefined) {
    const what =
      'with 2-D frames it corrects the mean of the rows, not each pixel: strictly right only for a straight line';
    warnings.push({ where: 'detector.linearity', what });
  }
  return scans;
}
