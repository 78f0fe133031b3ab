/**
 * @typedef {import('./types.mjs').SessionSpec} SessionSpec
 * @typedef {import('./types.mjs').SimulatedEntry} SimulatedEntry
 * @typedef {import('./types.mjs').TroubleSpec} TroubleSpec
 * @typedef {Pick<SimulatedEntry, 'role' | 'exposureMs' | 'lamp' | 'filter'>} EntryKind
 */

/**
 * @param {SessionSpec} spec
 * @returns {number[]} every exposure time in use, shortest first
 */
export function exposuresOf(spec) {
  const all = spec.lamps.flatMap((lamp) => [...lamp.exposuresMs]);
  if (spec.scan !== null)
    all.push(spec.scan.exposureMs, ...spec.filters.flatMap((filter) => [...(filter.exposuresMs ?? [])]));
  return [...new Set(all)].sort((a, b) => a - b);
}

/**
 * @param {EntryKind} entry
 * @param {readonly SimulatedEntry[]} before
 * @returns {string} name of its files, without number
 */
export function entryName(entry, before) {
  if (entry.role === 'dark') return `dark-${entry.exposureMs}ms`;
  if (entry.role === 'lamp') {
    const same = before.filter(
      (one) => one.lamp === entry.lamp && one.exposureMs === entry.exposureMs,
    ).length;
    return `lamp-${(entry.lamp ?? '').toLowerCase()}-${entry.exposureMs}ms${same > 0 ? `-again${same}` : ''}`;
  }
  if (entry.role === 'open') return `open-${before.filter((one) => one.role === 'open').length + 1}`;
  return `filtered-${entry.filter}-${entry.exposureMs}ms`;
}

/**
 * @param {SessionSpec} spec
 * @param {EntryKind} entry
 * @param {readonly SimulatedEntry[]} before
 * @returns {TroubleSpec[]}
 */
export function troublesOf(spec, entry, before) {
  return (spec.trouble ?? []).filter((trouble) => {
    /** @param {EntryKind} one */
    const fits = (one) =>
      one.role === trouble.role &&
      (trouble.lamp === undefined || trouble.lamp === one.lamp) &&
      (trouble.filter === undefined || trouble.filter === one.filter) &&
      (trouble.exposureMs === undefined || trouble.exposureMs === one.exposureMs);
    return fits(entry) && before.filter(fits).length === (trouble.occurrence ?? 0);
  });
}
