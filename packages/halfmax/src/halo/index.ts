export { type ComparedHalo, type ComparedImage, compareHalos, type HaloComparison } from './compareHalos.js';
export { type HaloGeometry, type HaloOptics, haloGeometry } from './haloGeometry.js';
export type { HaloDisk, HaloLimit, HaloMeasurement, ProfileRing } from './haloMeasurement.js';
export type { HaloSetup } from './haloSetup.js';
export {
  type HaloJudgement,
  type HaloTolerance,
  type HaloVerdict,
  judgeHalo,
  type NoiseTolerance,
} from './judgeHalo.js';
export { type FacePair, type Layer, matchSpacings, type SpacingMatch } from './matchSpacings.js';
export { type HaloResult, measureHalo, wingReference } from './measureHalo.js';
export { type FilterMove, type MovedHalo, moveFilter } from './moveFilter.js';
export { type PolarGrid, polarGrid } from './polarGrid.js';
export { ringEdges } from './ringEdges.js';
export { type StarFlux, starFluxFromMagnitude, starFluxFromShort } from './starFlux.js';
export { type Place, type StarImage, starImage } from './starImage.js';
export type { ReferenceProfile } from './wings.js';
