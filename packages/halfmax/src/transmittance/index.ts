export type { RepeatScatter } from './repeatScatter.js';
export {
  type TransmittanceComponents,
  type TransmittanceCurve,
  type TransmittanceOptions,
  transmittanceCurve,
} from './transmittanceCurve.js';
