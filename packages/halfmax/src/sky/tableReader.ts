/**
 * Reads a table of pairs, straight between them and 0 outside.
 *
 * @param pairs - wavelength in nm, strictly increasing, and value
 * @returns value at a wavelength
 */
export function tableReader(pairs: readonly (readonly number[])[]): (wavelengthNm: number) => number {
  return (at) => {
    const last = pairs.length - 1;
    if (!(at >= pairs[0]![0]! && at <= pairs[last]![0]!)) return 0;
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (pairs[middle]![0]! <= at) low = middle;
      else high = middle;
    }
    const [x0, y0] = pairs[low]! as [number, number];
    const [x1, y1] = pairs[high]! as [number, number];
    return x1 === x0 ? y0 : y0 + ((at - x0) / (x1 - x0)) * (y1 - y0);
  };
}
