export { addStills } from './addStills.js';
export { drawStill, drawSvg } from './drawStill.js';
export type { Figure, FigurePart, Still } from './figure.js';
export { plainFigure } from './plainFigure.js';
export { requireDrawable } from './requireDrawable.js';
export { STILLS_BY_RUNNER, STILLS_VARIABLE } from './stillsBy.js';
export { type StillThread, stillThread } from './stillThread.js';
export { withoutSliders } from './withoutSliders.js';
