import { crossingRows, isAbsent } from '../metrics/index.js';
import { type RowModel, rowTrials } from '../uncertainty/index.js';
import { BEFORE_LINES, type PlacedInputs, rowsOf, writePlaces } from './placedInputs.js';

/** Writes the numbers as measured, from rows of pixels. */
export function measuredRows(
  { tables, lineWeights, first, shifts, atScale }: PlacedInputs,
  pixels: Float64Array,
): RowModel['run'] {
  const trials = rowTrials;
  const { curve, range, lineSpreadNm, lines } = tables;
  const { firstPixel, endPixel, read } = crossingRows(curve, range, { lineSpreadNm });
  const band = endPixel > firstPixel ? rowsOf(pixels, firstPixel - first, endPixel - first) : pixels;
  const found = new Float64Array(4 * trials);
  const [value, slope] = [new Float64Array(trials), new Float64Array(trials)];
  return (x, out) => {
    read(band, found);
    for (let k = 0; k < trials; k++) {
      const from = atScale * trials + k;
      const [peakNm, blueNm, redNm] = [found[trials + k]!, found[2 * trials + k]!, found[3 * trials + k]!];
      writePlaces(shifts, x, from, { peakNm, blueNm, redNm }, out, k);
      out[3 * trials + k] = found[k]!;
    }
    lineWeights.forEach((weights, m) => {
      if (isAbsent(weights)) return;
      value.fill(0);
      slope.fill(0);
      weights.value.forEach((w, i) => {
        const at = (weights.from + i - first) * trials;
        const s = weights.slope[i]!;
        for (let k = 0; k < trials; k++) {
          value[k]! += w * pixels[at + k]!;
          slope[k]! += s * pixels[at + k]!;
        }
      });
      const nm = lines[m]!.wavelengthNm;
      for (let k = 0; k < trials; k++)
        out[(BEFORE_LINES + m) * trials + k] =
          value[k]! - slope[k]! * shifts.at(nm, x, atScale * trials + k, trials);
    });
  };
}
