export type { Figure, FigurePart } from '../still/index.js';
export { type BandOptions, bandTrace } from './bandTrace.js';
export { directLabel, type LabelPlace } from './directLabel.js';
export { emit, isInKernel } from './emit.js';
export { escapeHtml } from './escapeHtml.js';
export {
  type AxisMeaning,
  axisTitle,
  figureFont,
  figureStyle,
  type LayoutWishes,
  layoutFor,
} from './layoutFor.js';
export {
  darkColours,
  dashes,
  type FigureGround,
  faded,
  grounds,
  labelInk,
  luminance,
  palette,
  traceColour,
} from './palette.js';
export { type PanelWishes, panelsFor } from './panelsFor.js';
export { showFigure } from './showFigure.js';
export { type ShownQuantity, type StatedQuantity, showQuantities, showQuantity } from './showQuantity.js';
export { showTable, type TableOptions } from './showTable.js';
export { showFormula, showMarkdown } from './showText.js';
export { type SliderStep, type SliderWishes, sliderFigure } from './sliderFigure.js';
export type { ColumnRecord, FrameLike } from './tableColumns.js';
