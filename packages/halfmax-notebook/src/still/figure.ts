/** A trace or a part of a layout: what Plotly takes, as plain data; arrays may be typed. */
export type FigurePart = Readonly<Record<string, unknown>>;

/** A figure: Plotly's data and layout, and what it shows in a sentence. */
export interface Figure {
  readonly data: readonly FigurePart[];
  readonly layout?: FigurePart;
  readonly config?: FigurePart;
  /** Frames of an animation, for figures that have them. */
  readonly frames?: readonly FigurePart[];
  /** What the figure shows, for readers who do not see it. */
  readonly caption?: string;
}

/** A figure drawn without a browser. */
export interface Still {
  readonly svg: string;
  readonly png: Uint8Array;
}
