export { addStills } from './addStills.js';
export { drawStill, drawSvg } from './drawStill.js';
export type { Figure, FigurePart, Still } from './figure.js';
export { plainFigure } from './plainFigure.js';
export { withoutSliders } from './withoutSliders.js';
