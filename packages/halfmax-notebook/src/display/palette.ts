/**
 * Colours of the traces, in the order of their use: those that are seen best on white first, yellow last.
 *
 * Source: M. Okabe and K. Ito, Color Universal Design, 2008 (set of eight colours told apart by all kinds of colour
 * vision). Their black serves as the colour of the text.
 */
export const palette: readonly string[] = [
  '#0072B2',
  '#D55E00',
  '#009E73',
  '#CC79A7',
  '#E69F00',
  '#56B4E9',
  '#F0E442',
];

/** Dashes of the traces after the first round of colours, so that no two look the same. */
export const dashes: readonly string[] = ['solid', 'dash', 'dot', 'dashdot'];

/** Ground, ink and lines of figures, for light and for dark surroundings; the report changes one into the other. */
export const grounds: Readonly<Record<'light' | 'dark', FigureGround>> = {
  light: { paper: '#ffffff', ink: '#1f2328', quiet: '#5b626b', grid: '#e3e6ea' },
  dark: { paper: '#16191d', ink: '#e6e8eb', quiet: '#a2a9b2', grid: '#2e343b' },
};

export interface FigureGround {
  readonly paper: string;
  readonly ink: string;
  /** Axis lines, tick labels and notes. */
  readonly quiet: string;
  readonly grid: string;
}

/**
 * The colour of the n-th trace.
 *
 * @param index - from 0; starts again after the last
 * @returns such as `#0072B2`
 * @throws {RangeError} no whole number from 0
 */
export function traceColour(index: number): string {
  if (!Number.isInteger(index) || index < 0)
    throw new RangeError(`traceColour requires a whole number from 0, got ${index}`);
  return palette[index % palette.length]!;
}

/**
 * A colour dark enough for text on white: the colour itself where it is, else a darker one of the same hue.
 *
 * @param colour - `#rrggbb`
 * @returns `#rrggbb` with a contrast of at least 4.5 to 1
 * @throws {RangeError} another way of writing a colour
 * Source: WCAG 2.1, success criterion 1.4.3 and its definition of contrast ratio.
 */
export function labelInk(colour: string): string {
  let parts: readonly number[] = channels(colour);
  while (1.05 / (luminance(parts) + 0.05) < 4.5) parts = parts.map((part) => Math.floor(part * 0.97));
  return `#${parts.map((part) => part.toString(16).padStart(2, '0')).join('')}`;
}

/** Relative luminance, 0 to 1, of red, green and blue from 0 to 255. */
export function luminance(parts: readonly number[]): number {
  const [red, green, blue] = parts.map((part) => {
    const share = part / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

/**
 * A colour with an opacity.
 *
 * @param colour - `#rrggbb`
 * @param opacity - 0 to 1
 * @returns such as `rgba(0,114,178,0.2)`
 * @throws {RangeError} another way of writing a colour
 */
export function faded(colour: string, opacity: number): string {
  return `rgba(${channels(colour).join(',')},${opacity})`;
}

function channels(colour: string): number[] {
  const parts = /^#([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(colour);
  if (parts === null) throw new RangeError(`a colour is written like #0072B2, got ${colour}`);
  return parts.slice(1).map((part) => Number.parseInt(part, 16));
}

/** The first colour of the palette is too dark for dark ground: there it is this one. */
const BLUE_ON_DARK = '#3a9bdc';

/**
 * What each colour of the style becomes on dark ground: ground and ink change places, the blue gets lighter, and labels
 * get back the colour of their lines.
 *
 * @returns light colour to dark colour, hexadecimal in lower case, and the beginnings of faded colours
 */
export function darkColours(): Readonly<Record<string, string>> {
  const { light, dark } = grounds;
  const onDark = (colour: string): string => (colour === palette[0] ? BLUE_ON_DARK : colour.toLowerCase());
  return {
    [light.paper]: dark.paper,
    [light.ink]: dark.ink,
    [light.quiet]: dark.quiet,
    [light.grid]: dark.grid,
    ...Object.fromEntries(palette.map((colour) => [labelInk(colour).toLowerCase(), onDark(colour)])),
    ...Object.fromEntries(palette.map((colour) => [colour.toLowerCase(), onDark(colour)])),
    [`rgba(${channels(palette[0]!).join(',')},`]: `rgba(${channels(BLUE_ON_DARK).join(',')},`,
  };
}
