export { type AskedFence, type ChosenFence, chooseFence, fenceLimits } from './chooseFence.js';
export { findProgram } from './findProgram.js';
export {
  type FenceCommand,
  type FenceKind,
  fixedEnvironment,
  type KernelPlaces,
  kernelCommand,
  launcherFile,
  limitsAllMemory,
} from './kernelCommand.js';
