import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { compileFunction } from 'node:vm';
import { stubCanvas } from './canvasStub.js';
import { elementBox, moved } from './elementBox.js';
import type { FigurePart } from './figure.js';
import { pathLength, pointAlong } from './pathPoints.js';
import type { Box, DrawnElement } from './textBox.js';

/** The part of Plotly that draws. */
interface Plotly {
  newPlot(
    stage: object,
    data: readonly FigurePart[],
    layout: FigurePart,
    config: FigurePart,
  ): Promise<unknown>;
  purge(stage: object): void;
  readonly Snapshot: { toSVG(stage: object, format: string): string };
}

/** A document without a screen, with Plotly in it. */
export interface FigureStage {
  /** Draws a figure whose layout says width and height; returns its SVG as Plotly gives it. */
  readonly draw: (data: readonly FigurePart[], layout: FigurePart) => string;
}

const require = createRequire(import.meta.url);
let stage: FigureStage | null = null;

/**
 * The stage that stills are drawn on, made at the first call: loading the document and Plotly takes a second.
 *
 * Nothing global is touched: Plotly gets the document, and random numbers that start anew for each figure, as arguments.
 *
 * @returns the same stage each time
 */
export function figureStage(): FigureStage {
  stage ??= build();
  return stage;
}

function build(): FigureStage {
  const { Window } = require('happy-dom') as { Window: new (options: object) => DocumentWindow };
  const window = new Window({
    width: 1600,
    height: 1200,
    url: 'about:blank',
    settings: {
      disableJavaScriptEvaluation: true,
      disableJavaScriptFileLoading: true,
      disableCSSFileLoading: true,
      disableIframePageLoading: true,
      handleDisabledFileLoadingAsSuccess: true,
    },
  });
  giveSizes(window);
  const random = seededMath();
  const plotly = loadPlotly(window, random.math);
  return {
    draw: (data, layout) => {
      random.restart();
      const place = window.document.createElement('div');
      window.document.body.appendChild(place);
      try {
        // Plotly draws at once and only reports by a promise; a fault shows in there being nothing to take.
        plotly.newPlot(place, data, layout, { staticPlot: true, displayModeBar: false }).catch(() => {});
        return plotly.Snapshot.toSVG(place, 'svg');
      } catch (error) {
        const what = error instanceof Error ? error.message : String(error);
        throw new RangeError(
          `drawStill requires a figure that Plotly can draw, got one that it cannot (${what})`,
        );
      } finally {
        plotly.purge(place);
        place.remove();
      }
    },
  };
}

interface DocumentWindow {
  readonly document: {
    createElement(tag: string): { remove(): void };
    readonly body: { appendChild(child: object): void };
  };
  readonly SVGElement: { readonly prototype: object };
  readonly Element: { readonly prototype: object };
  readonly HTMLElement: { readonly prototype: object };
  readonly HTMLCanvasElement: { readonly prototype: object };
  readonly getComputedStyle: (element: object) => unknown;
  readonly navigator: object;
  [name: string]: unknown;
}

/** Classes of the document that have sizes of their own. */
const DRAWING_CLASSES = ['SVGElement', 'SVGGraphicsElement', 'SVGGeometryElement', 'SVGTextContentElement'];

/** Sizes of what is drawn: a document without a screen says 0 for all of them, which hides labels and legends. */
function giveSizes(window: DocumentWindow): void {
  const withEdges = (box: Box): object => ({
    ...box,
    left: box.x,
    top: box.y,
    right: box.x + box.width,
    bottom: box.y + box.height,
  });
  const sizes: PropertyDescriptorMap = {
    getBBox: {
      configurable: true,
      value(this: DrawnElement) {
        return elementBox(this);
      },
    },
    getBoundingClientRect: {
      configurable: true,
      value(this: DrawnElement) {
        let box = elementBox(this);
        for (let at: DrawnElement | null = this; at !== null; at = at.parentElement)
          box = moved(box, at.getAttribute('transform'));
        return withEdges(box);
      },
    },
    getTotalLength: {
      configurable: true,
      value(this: DrawnElement) {
        return pathLength(this.getAttribute('d') ?? '');
      },
    },
    getPointAtLength: {
      configurable: true,
      value(this: DrawnElement, along: number) {
        const [x, y] = pointAlong(this.getAttribute('d') ?? '', along);
        return { x, y };
      },
    },
    getComputedTextLength: {
      configurable: true,
      value(this: DrawnElement) {
        return elementBox(this).width;
      },
    },
  };
  // The document has answers of its own on some of these, all of them 0.
  for (const name of DRAWING_CLASSES) {
    const known = window[name] as { readonly prototype: object } | undefined;
    if (known !== undefined) Object.defineProperties(known.prototype, sizes);
  }
  stubCanvas(window.HTMLCanvasElement.prototype);
}

/** Math with random numbers that are the same for each figure (ids of traces come from them). */
function seededMath(): { math: Math; restart: () => void } {
  let state = 1;
  const math = Object.create(Math, {
    random: {
      value: () => {
        state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
        return state / 4294967296;
      },
    },
  }) as Math;
  return {
    math,
    restart: () => {
      state = 1;
    },
  };
}

/** Names that Plotly takes from its surroundings; it gets those of the document instead. */
const SURROUNDINGS = [
  'document navigator getComputedStyle DOMParser XMLSerializer Element HTMLElement SVGElement Node Image Event CustomEvent',
  'MouseEvent HTMLCanvasElement requestAnimationFrame cancelAnimationFrame matchMedia devicePixelRatio',
].flatMap((names) => names.split(' '));

function loadPlotly(window: DocumentWindow, math: Math): Plotly {
  const code = readFileSync(require.resolve('plotly.js-dist-min/plotly.min.js'), 'utf8');
  const names = ['module', 'exports', 'self', 'window', 'Math', ...SURROUNDINGS];
  const module = { exports: {} };
  const values = SURROUNDINGS.map((name) => {
    const value = window[name];
    return name === 'getComputedStyle' ? (element: object) => window.getComputedStyle(element) : value;
  });
  try {
    compileFunction(code, names, { filename: 'plotly.min.js' })(
      module,
      module.exports,
      window,
      window,
      math,
      ...values,
    );
  } catch (error) {
    // The stack of the fault would show lines of a million characters.
    throw new Error(`Plotly could not be loaded: ${error instanceof Error ? error.message : String(error)}`);
  }
  return module.exports as Plotly;
}
