/**
 * Edges of rings about a star: one pixel wide near it, then a constant share of the radius.
 *
 * @param outer - radius of the last edge at most, pixels, >= 2
 * @param share - width of a ring over its radius, above 0 and at most 0.2
 * @returns increasing, pixels, the first 0
 * @throws {RangeError} values out of range
 * @example
 * ringEdges(4); // => Float64Array [0, 1, 2, 3, 4]
 */
export function ringEdges(outer: number, share = 0.01): Float64Array {
  if (!(outer >= 2 && outer < 1e6))
    throw new RangeError(`ringEdges requires a radius of at least 2, got ${outer}`);
  if (!(share > 0 && share <= 0.2))
    throw new RangeError(`ringEdges requires a share up to 0.2, got ${share}`);
  const edges = [0];
  for (let edge = 1; edge <= outer; edge += Math.max(1, share * edge)) edges.push(edge);
  return Float64Array.from(edges);
}
