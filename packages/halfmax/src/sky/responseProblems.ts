import type { FieldProblem } from '../beam/index.js';

/** The range that counts where a site states none, nm. */
const USUAL_RANGE_NM: readonly [number, number] = [400, 700];

/**
 * What is wrong with the tables of a camera's response: they must rise, and cover the range that counts.
 *
 * @param site - a session's `site` as it stands in the file
 * @returns problems, none where all is well
 */
export function responseProblems(site: Readonly<Record<string, unknown>>): FieldProblem[] {
  const problems: FieldProblem[] = [];
  const add = (place: string, what: string, fix: string): void => {
    problems.push({ place: `site.${place}`, what, fix });
  };
  const { colour } = (site['camera'] ?? {}) as { colour?: unknown };
  const colours = colour !== null && typeof colour === 'object' ? Object.entries(colour) : [];
  const named: readonly (readonly [string, unknown])[] = [
    ['quantumEfficiency', site['quantumEfficiency']],
    ...colours.map(([name, table]) => [`camera.colour.${name}`, table] as const),
  ];
  const tables = named.flatMap(([name, table]) => (isTable(table) ? [{ name, table }] : []));
  for (const { name, table } of tables) {
    const at = table.findIndex((row, i) => i > 0 && !(row[0]! > table[i - 1]![0]!));
    if (at > 0) {
      const what = `${table[at]![0]} nm does not follow ${table[at - 1]![0]} nm`;
      add(`${name}[${at}]`, what, 'sort the table by wavelength, each once');
    }
  }
  const stated = site['rangeNm'] as readonly number[] | undefined;
  if (Array.isArray(stated) && !(stated[0]! < stated[1]!)) {
    add('rangeNm', `is ${stated[0]} to ${stated[1]}`, 'write the lower value first');
  }
  if (problems.length > 0) return problems;
  const [efficiency] = tables.filter(({ name }) => name === 'quantumEfficiency');
  const ends = ({ table }: { table: readonly (readonly number[])[] }): [number, number] => [
    table[0]![0]!,
    table[table.length - 1]![0]!,
  ];
  const [first, last] = efficiency === undefined ? USUAL_RANGE_NM : ends(efficiency);
  const fromNm = stated?.[0] ?? Math.max(USUAL_RANGE_NM[0], first);
  const toNm = stated?.[1] ?? Math.min(USUAL_RANGE_NM[1], last);
  for (const one of tables) {
    const [from, to] = ends(one);
    if (fromNm < toNm && from <= fromNm && to >= toNm) continue;
    const range = stated === undefined ? 'what is seen' : 'rangeNm';
    add(
      one.name,
      `runs from ${from} to ${to} nm, and ${range} from ${Math.min(fromNm, USUAL_RANGE_NM[1])} to ${Math.max(toNm, USUAL_RANGE_NM[0])} nm`,
      'give a fraction over the whole range, 0 where nothing is seen, or another rangeNm',
    );
  }
  return problems;
}

function isTable(value: unknown): value is readonly (readonly number[])[] {
  return (
    Array.isArray(value) && value.length > 1 && value.every((row) => Array.isArray(row) && row.length === 2)
  );
}
