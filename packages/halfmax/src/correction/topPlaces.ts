/** Parts of the way from blue to red half point in which the top is searched: three to each ripple. */
export const PARTS = 24;

/** Places across the top of a band, and what is known there before any parameters are. */
export interface TopPlaces {
  readonly nodes: number;
  /** Distance from the middle in half widths, -1 to 1, and its logarithm. */
  readonly place: Float64Array;
  readonly logPlace: Float64Array;
  /** Of each place the cosines of all ripples. */
  readonly cosines: Float64Array;
  /** Share of each ripple by which its crest may stand above both places beside it. */
  readonly missed: Float64Array;
}

/** The places at which the top of a band with so many ripples is searched. */
export function topPlaces(ripples: number): TopPlaces {
  const nodes = PARTS + 1;
  const place = Float64Array.from({ length: nodes }, (_, g) => (2 * g) / PARTS - 1);
  const cosines = new Float64Array(nodes * ripples);
  for (let g = 0; g < nodes; g++)
    for (let j = 0; j < ripples; j++) cosines[g * ripples + j] = Math.cos((Math.PI * (j + 1) * g) / PARTS);
  return {
    nodes,
    place,
    logPlace: place.map((s) => Math.log(Math.abs(s))),
    cosines,
    missed: Float64Array.from({ length: ripples }, (_, j) => 1 - Math.cos((Math.PI * (j + 1)) / (2 * PARTS))),
  };
}
