import { type CleanSpectrum, sameExposure } from '../frames/index.js';

/** Entries this far apart belong to different scans of the open beam, ms. */
const scanGapMs = 5 * 60_000;

/**
 * Puts the entries of the open beam together to scans: entries of different exposure taken one after the other are one
 * scan. A new scan begins when an exposure comes again, when a filtered scan lies between, or after five minutes.
 *
 * @param open - entries of the open beam
 * @param filteredTimesMs - times of the filtered scans; null entries are passed over
 * @returns scans by rising time, or by place in the session where times are missing
 * Source: five minutes is common practice, no source.
 */
export function groupOpenScans(
  open: readonly CleanSpectrum[],
  filteredTimesMs: readonly (number | null)[],
): CleanSpectrum[][] {
  const timed = open.every((spectrum) => spectrum.takenAtMs !== null);
  const sorted = [...open].sort(
    (a, b) => (timed ? a.takenAtMs! - b.takenAtMs! : 0) || a.entry - b.entry || a.exposureMs - b.exposureMs,
  );
  const scans: CleanSpectrum[][] = [];
  for (const spectrum of sorted) {
    const scan = scans.at(-1);
    if (scan === undefined || startsNew(scan, spectrum, timed, filteredTimesMs)) scans.push([spectrum]);
    else scan.push(spectrum);
  }
  return scans;
}

function startsNew(
  scan: readonly CleanSpectrum[],
  next: CleanSpectrum,
  timed: boolean,
  filteredTimesMs: readonly (number | null)[],
): boolean {
  const sameTime = timed && scan.every((spectrum) => spectrum.takenAtMs === next.takenAtMs);
  if (sameTime) return false;
  const again = scan.some(
    (spectrum) => Math.abs(spectrum.exposureMs - next.exposureMs) <= sameExposure * next.exposureMs,
  );
  if (again || !timed) return again;
  const before = scan.at(-1)!.takenAtMs!;
  const after = next.takenAtMs!;
  return (
    after - before > scanGapMs ||
    filteredTimesMs.some((time) => time !== null && time > before && time < after)
  );
}
