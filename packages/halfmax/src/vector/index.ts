export { vectorTrials } from './vectorCode.generated.js';
export { type VectorMemory, vectorMemory } from './vectorMemory.js';
