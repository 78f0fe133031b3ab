import type { Warning } from '../frames/types.js';
import type { CalibrationLine, Dispersion, LampShift, LineSpread } from './types.js';

/** The wavelength scale of a session and how far to trust it. */
export interface Calibration {
  readonly dispersion: Dispersion;
  readonly lines: readonly CalibrationLine[];
  readonly residualRmsNm: number;
  readonly leaveOneOutRmsNm: number;
  readonly leaveOneOutByOrder: readonly { readonly order: number; readonly rmsNm: number }[];
  /** Scatter of the lines beyond their own uncertainty, nm. */
  readonly jitterNm: number;
  /** Shortest and longest wavelength of the lines used: outside, the scale is extrapolated. */
  readonly coveredNm: readonly [number, number];
  readonly lineSpread: LineSpread;
  readonly shifts: readonly LampShift[];
  readonly couplingNm: number;
  readonly warnings: readonly Warning[];
}
