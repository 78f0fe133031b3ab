export { type AirState, airIndex } from './airIndex.js';
export { airToVacuum } from './airToVacuum.js';
export { atmosphereTable } from './atmosphere.generated.js';
export { colourCameraTable } from './colourCamera.generated.js';
export { emissionLinesTable } from './emissionLines.generated.js';
export { emissionLines } from './emissionLines.js';
export { filterAngleTable } from './filterAngle.generated.js';
export { lampLinesTable } from './lampLines.generated.js';
export { lampLines } from './lampLines.js';
export { knownLamps, lampSpecies } from './lampSpecies.js';
export { lightSourcesTable } from './lightSources.generated.js';
export { lineNeighbours } from './lineNeighbours.js';
export { nightSkyTable } from './nightSky.generated.js';
export { photometryTable } from './photometry.generated.js';
export { resolveLines } from './resolveLines.js';
export type {
  AtmosphereTable,
  ColourCameraTable,
  EmissionLine,
  EmissionLineTable,
  FilterAngleTable,
  LampLine,
  LampLineTable,
  LampSpectrum,
  LightSourceTable,
  NightSkyTable,
  PhotometryTable,
  SourceBand,
  TableHead,
} from './types.js';
export { vacuumToAir } from './vacuumToAir.js';
