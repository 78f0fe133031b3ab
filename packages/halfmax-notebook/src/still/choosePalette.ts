/** Few colours for many. */
export interface Palette {
  /** Most frequent first; red, green, blue, opacity in one number, red in its highest byte. */
  readonly colours: readonly number[];
  /** From each colour to the place of its stand-in among `colours`. */
  readonly placeOf: ReadonlyMap<number, number>;
  /** Most that a channel of a colour differs from that of its stand-in, 0 to 255; 0: nothing is lost. */
  readonly mostOff: number;
}

/**
 * The fewest changes that bring colours down to a number: frequent ones stay as they are, rare ones are replaced by one
 * that stays.
 *
 * A colour stays unless a more frequent one differs from it by no more than `mostOff` in each channel; `mostOff` is the
 * least with which few enough stay. Flat parts of a drawing so keep their colours, and what is given up is shades
 * along the edges of lines and letters. The same counts always give the same palette.
 *
 * @param counts - how often each colour occurs, red, green, blue, opacity in one number
 * @param most - colours at most, from 1
 * @returns the palette
 * @throws {RangeError} `most` is no whole number from 1
 */
export function choosePalette(counts: ReadonlyMap<number, number>, most: number): Palette {
  if (!Number.isInteger(most) || most < 1)
    throw new RangeError(`choosePalette requires a whole number of colours from 1, got ${most}`);
  const all = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]).map(([colour]) => colour);
  let mostOff = 0;
  let colours = standing(all, most, mostOff);
  while (colours === null) colours = standing(all, most, ++mostOff);
  const kept = colours;
  return { colours, placeOf: new Map(all.map((colour) => [colour, nearest(kept, colour)])), mostOff };
}

/** Colours that stay, or null where they are more than `most`. */
function standing(all: readonly number[], most: number, mostOff: number): number[] | null {
  const kept: number[] = [];
  for (const colour of all) {
    if (kept.some((other) => distance(other, colour) <= mostOff)) continue;
    if (kept.length === most) return null;
    kept.push(colour);
  }
  return kept;
}

function nearest(kept: readonly number[], colour: number): number {
  let place = 0;
  let least = Infinity;
  for (let i = 0; i < kept.length && least > 0; i++) {
    const away = distance(kept[i]!, colour);
    if (away < least) [place, least] = [i, away];
  }
  return place;
}

function distance(a: number, b: number): number {
  return Math.max(
    Math.abs((a >>> 24) - (b >>> 24)),
    Math.abs(((a >>> 16) & 255) - ((b >>> 16) & 255)),
    Math.abs(((a >>> 8) & 255) - ((b >>> 8) & 255)),
    Math.abs((a & 255) - (b & 255)),
  );
}
