import { encodePng } from './encodePng.js';
import { textWidth } from './figureFonts.js';

/** The part of a canvas that heat maps use: filled rectangles, raw pixels, a PNG out of it. */
interface CanvasElement {
  width: number;
  height: number;
}

interface PixelBlock {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

interface Drawing {
  readonly canvas: CanvasElement;
  fillStyle: string;
  fillRect(x: number, y: number, width: number, height: number): void;
  createImageData(width: number, height: number): PixelBlock;
  putImageData(block: PixelBlock, x: number, y: number): void;
  measureText(text: string): { readonly width: number };
  readonly pixels: () => Uint8Array;
}

/**
 * Gives the canvas elements of a document what heat maps need, drawn in plain memory.
 *
 * @param prototype - of the canvas elements; changed
 */
export function stubCanvas(prototype: object): void {
  const drawings = new WeakMap<object, Drawing>();
  Object.defineProperties(prototype, {
    getContext: {
      configurable: true,
      value(this: CanvasElement, kind: string): Drawing | null {
        if (kind !== '2d') return null;
        const known = drawings.get(this) ?? drawingOn(this);
        drawings.set(this, known);
        return known;
      },
    },
    toDataURL: {
      configurable: true,
      value(this: CanvasElement): string {
        const pixels = drawings.get(this)?.pixels() ?? new Uint8Array(4 * this.width * this.height);
        return `data:image/png;base64,${Buffer.from(encodePng(pixels, this.width, this.height)).toString('base64')}`;
      },
    },
  });
}

function drawingOn(canvas: CanvasElement): Drawing {
  let pixels = new Uint8Array(0);
  const buffer = (): Uint8Array => {
    const length = 4 * canvas.width * canvas.height;
    if (pixels.length !== length) pixels = new Uint8Array(length);
    return pixels;
  };
  return {
    canvas,
    fillStyle: 'rgba(0,0,0,1)',
    fillRect(x, y, width, height) {
      const colour = colourOf(this.fillStyle);
      const target = buffer();
      const right = Math.min(canvas.width, Math.round(x + width));
      const bottom = Math.min(canvas.height, Math.round(y + height));
      for (let row = Math.max(0, Math.round(y)); row < bottom; row++)
        for (let column = Math.max(0, Math.round(x)); column < right; column++)
          target.set(colour, 4 * (row * canvas.width + column));
    },
    createImageData: (width, height) => ({ width, height, data: new Uint8ClampedArray(4 * width * height) }),
    putImageData(block, x, y) {
      const target = buffer();
      for (let row = 0; row < block.height; row++)
        target.set(
          block.data.subarray(4 * row * block.width, 4 * (row + 1) * block.width),
          4 * ((row + y) * canvas.width + x),
        );
    },
    measureText: (text) => ({ width: textWidth(text, 10) }),
    pixels: buffer,
  };
}

/** `rgb(…)` or `rgba(…)`, as Plotly writes them; other texts give black. */
function colourOf(style: string): Uint8Array {
  const parts = /^rgba?\(([^)]*)\)$/.exec(style)?.[1]?.split(',').map(Number) ?? [0, 0, 0, 1];
  const [red = 0, green = 0, blue = 0, alpha = 1] = parts;
  return Uint8Array.of(red, green, blue, Math.round(255 * alpha));
}
