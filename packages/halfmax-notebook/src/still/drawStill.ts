import { createRequire } from 'node:module';
import { encodePalettePng } from './encodePalettePng.js';
import type { Figure, FigurePart, Still } from './figure.js';
import { FIGURE_FONT, fontFile } from './figureFonts.js';
import { figureStage } from './figureStage.js';
import { plainFigure } from './plainFigure.js';
import { defaultSize, requireDrawable } from './requireDrawable.js';
import { straightColours } from './straightColours.js';
import { withoutSliders } from './withoutSliders.js';

interface Resvg {
  render(): { readonly pixels: Uint8Array; readonly width: number; readonly height: number };
}

/** Pixels of the PNG over those of the SVG: 1140 for a figure of the usual width, more than a page of text is wide. */
const SCALE = 1.5;

/**
 * A figure as a picture, drawn without a browser: the same figure always gives the same bytes.
 *
 * The first call loads a document and Plotly, which takes about a second.
 *
 * @param figure - Plotly's data and layout; width and height default to 760 x 420 px
 * @returns SVG, and PNG with 1.5 times its width and height in pixels and up to 128 colours
 * @throws {RangeError} a kind of trace that cannot be drawn without a browser (WebGL, maps, tables),
 * a size beyond 4000 px, or what is no figure
 */
export function drawStill(figure: Figure): Still {
  const svg = drawSvg(figure);
  const { Resvg } = createRequire(import.meta.url)('@resvg/resvg-js') as {
    Resvg: new (svg: string, options: object) => Resvg;
  };
  const picture = new Resvg(svg, {
    fitTo: { mode: 'zoom', value: SCALE },
    font: {
      fontFiles: [fontFile],
      loadSystemFonts: false,
      defaultFontFamily: FIGURE_FONT,
      sansSerifFamily: FIGURE_FONT,
    },
  });
  const { pixels, width, height } = picture.render();
  return { svg, png: encodePalettePng(straightColours(pixels), width, height) };
}

/**
 * A figure as SVG, drawn without a browser.
 *
 * @param figure - as for {@link drawStill}
 * @returns the same text each time
 * @throws {RangeError} a kind of trace that cannot be drawn without a browser, a size beyond 4000 px, or no figure
 */
export function drawSvg(figure: Figure): string {
  const plain = plainFigure(figure);
  requireDrawable(plain);
  const { data, layout } = plain;
  const sized: FigurePart = { ...defaultSize, ...withOverflow(withoutSliders(layout ?? {})) };
  return (
    figureStage()
      .draw(data.map(colourBarOverflow), sized)
      // Cells of heat maps keep sharp edges: the other word for it, which drawing programs know.
      .replaceAll('image-rendering: pixelated', 'image-rendering: optimizeSpeed')
      // A figure from elsewhere must not draw files of this machine into its picture.
      .replace(/(?:xlink:)?href="(?!data:image\/(?:png|jpeg|gif|webp);|#)[^"]*"/gi, '')
  );
}

/** Labels of ticks stay although the document knows no exact places for them. */
function withOverflow(layout: FigurePart): FigurePart {
  const axes = new Map<string, unknown>([
    ['xaxis', {}],
    ['yaxis', {}],
    ...Object.entries(layout).filter(([key]) => /^[xy]axis\d*$/.test(key)),
  ]);
  const open = [...axes].map(([key, axis]) => [key, { ticklabeloverflow: 'allow', ...(axis as object) }]);
  return { ...layout, ...Object.fromEntries(open) };
}

function colourBarOverflow(trace: FigurePart): FigurePart {
  if (!('z' in trace) && !('colorbar' in trace)) return trace;
  return { ...trace, colorbar: { ticklabeloverflow: 'allow', ...(trace['colorbar'] as object | undefined) } };
}
