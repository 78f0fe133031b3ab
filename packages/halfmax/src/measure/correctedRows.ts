import { bandRows } from '../correction/index.js';
import { type RowModel, rowTrials } from '../uncertainty/index.js';
import { drawnShapes } from './drawnShapes.js';
import { BEFORE_LINES, type PlacedInputs, writePlaces } from './placedInputs.js';

/** Writes the corrected numbers, after those as measured. */
export function correctedRows(placed: PlacedInputs, pixels: Float64Array): RowModel['run'] {
  const { tables, shifts, atScale, atSecond } = placed;
  const trials = rowTrials;
  const { shapes, lines } = tables;
  const { secondWay } = tables.correction!;
  const { shape } = shapes[0]!;
  const reader = bandRows(shape);
  const drawShapes = drawnShapes(placed, pixels);
  const found = new Float64Array(4 * trials);
  const placesNm = new Float64Array(lines.length * trials);
  const atOut = (BEFORE_LINES + lines.length) * trials;
  return (x, out) => {
    reader.take(drawShapes(x));
    reader.read(found);
    for (let k = 0; k < trials; k++) {
      const second = x[atSecond * trials + k]!;
      const [peakNm, blueNm, redNm] = [found[trials + k]!, found[2 * trials + k]!, found[3 * trials + k]!];
      writePlaces(shifts, x, atScale * trials + k, { peakNm, blueNm, redNm }, out, atOut + k);
      out[atOut + k]! += second * secondWay.fwhmNm;
      out[atOut + trials + k]! += second * secondWay.centreNm;
      out[atOut + 3 * trials + k] = found[k]! + second * secondWay.peak;
    }
    lines.forEach(({ wavelengthNm }, m) => {
      for (let k = 0; k < trials; k++)
        placesNm[m * trials + k] = wavelengthNm - shifts.at(wavelengthNm, x, atScale * trials + k, trials);
    });
    reader.values(
      placesNm,
      out.subarray(atOut + BEFORE_LINES * trials, atOut + (BEFORE_LINES + lines.length) * trials),
    );
  };
}
