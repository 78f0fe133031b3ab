import { bandReader } from './bandReader.js';
import type { BandShape } from './bandShape.js';

/** The numbers of a band curve. */
export interface BandReadings {
  readonly peakNm: number;
  readonly peakTransmittance: number;
  readonly blueNm: number;
  readonly redNm: number;
}

/**
 * Peak and outermost half-peak crossings of a band curve.
 *
 * @param shape - the shape
 * @param parameters - length shape.size
 * @returns the readings; crossings are searched from far outside inwards
 */
export function bandReadings(shape: BandShape, parameters: Float64Array): BandReadings {
  const reader = bandReader(shape);
  reader.take(parameters);
  const [peakTransmittance, peakNm, blueNm, redNm] = readings(reader.read);
  return { peakNm, peakTransmittance, blueNm, redNm };
}

function readings(read: (out: Float64Array) => void): [number, number, number, number] {
  const out = new Float64Array(4);
  read(out);
  return [out[0]!, out[1]!, out[2]!, out[3]!];
}
