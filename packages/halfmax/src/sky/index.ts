export { type Camera, type ColourChannel, channelsOf, pixelGrasp } from './camera.js';
export { type ColourResponses, colourChannels } from './colourChannels.js';
export { type ContinuumLoss, continuumLoss } from './continuumLoss.js';
export { detectedSky } from './detectedSky.js';
export { filterOnSky } from './filterOnSky.js';
export { type FilterTrialOptions, type FilterTrials, filterTrials } from './filterTrials.js';
export { type FilterValue, filterValue, type ValueOptions } from './filterValue.js';
export { gainOver } from './gainOver.js';
export { integrateSky } from './integrateSky.js';
export { lampSky } from './lampSky.js';
export { knownLightSources, type LightSource, lightSource } from './lightSource.js';
export { luminance } from './luminance.js';
export { mixSkies } from './mixSkies.js';
export { type MoonPlace, moonBrightness } from './moonBrightness.js';
export { moonSky } from './moonSky.js';
export { naturalSky } from './naturalSky.js';
export type { FilterOnSky, FilterOnSkyOptions, LineOnSky, TargetLine } from './onSkyTypes.js';
export { ARCSEC2_SR, linePhotons, PHOTON_ENERGY_J_NM } from './photonRates.js';
export { planckPhotons } from './planckPhotons.js';
export { type Ranked, rankFilters } from './rankFilters.js';
export { type Aerosol, airTransmission, clearAir, opticalDepth } from './scattering.js';
export { setBrightness } from './setBrightness.js';
export {
  exposureFor,
  exposureInFrames,
  qualityRate,
  type Rates,
  signalToNoise,
  skyLimitedFrame,
} from './signalToNoise.js';
export { siteProblems } from './siteProblems.js';
export { type SiteSky, siteClasses, siteSky } from './siteSky.js';
export { type SkySpectrum, skyFromSpectrum } from './skyFromSpectrum.js';
export { skyGrid } from './skyGrid.js';
export { skyNoiseSpread } from './skyNoiseSpread.js';
export { type SkyShare, skyShare } from './skyShare.js';
export { type SkyRange, skyWeights } from './skyWeights.js';
export type { LampShare, LineBrightness, Response, Site, Sky } from './types.js';
export {
  type DetectedParts,
  detectedParts,
  type SkyPart,
  type SkyTrialOptions,
  strengthTrials,
  type UncertainSky,
} from './uncertainSky.js';
export { luminanceOfSky, vMagnitude } from './vMagnitude.js';
export { weightBySky } from './weightBySky.js';
