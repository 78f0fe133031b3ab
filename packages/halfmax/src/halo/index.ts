export type { HaloDisk, HaloLimit, HaloMeasurement, ProfileRing } from './haloMeasurement.js';
export { type HaloResult, type HaloSetup, measureHalo, wingReference } from './measureHalo.js';
export { type Place, type StarImage, starImage } from './starImage.js';
export { type StarFlux, starFluxFromMagnitude, starFluxFromShort } from './starFlux.js';
