export type { PrivateConnection } from './connection.js';
export { type Heard, type KernelClient, kernelClient } from './kernelClient.js';
export {
  type GivenInputs,
  type InputOrigin,
  type KernelSettings,
  type KernelWorld,
  kernelWorld,
} from './kernelSettings.js';
export {
  endAllKernels,
  endText,
  type KernelEnd,
  markOf,
  type RunningKernel,
  startKernel,
} from './startKernel.js';
