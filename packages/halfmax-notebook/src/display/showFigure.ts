import { type MimeBundle, PLOTLY_MIME } from '../notebook/index.js';
import {
  drawStill,
  type Figure,
  plainFigure,
  requireDrawable,
  STILLS_BY_RUNNER,
  STILLS_VARIABLE,
} from '../still/index.js';
import { emit } from './emit.js';
import { usedTemplate } from './usedTemplate.js';

/**
 * Shows a figure: interactive where the viewer runs Plotly, as a still picture elsewhere, in one output.
 *
 * The still is drawn here unless the runner does it beside the run (`HALFMAX_STILLS=runner`).
 *
 * @param figure - Plotly's data and layout, arrays typed or plain, and a caption
 * @returns nothing inside a kernel; the representations by MIME type outside
 * @throws {RangeError} no traces, values that JSON cannot hold, or a kind of trace that cannot be drawn without a browser
 */
export function showFigure(figure: Figure): MimeBundle | undefined {
  if (!Array.isArray(figure.data) || figure.data.length === 0)
    throw new RangeError('showFigure requires at least 1 trace, got none');
  const { caption = 'A figure.', layout = {}, ...others } = plainFigure(figure);
  const plain = { ...others, layout: usedTemplate(layout, others.data) };
  const bundle: Record<string, unknown> = {
    // Not `responsive`: JupyterLab drops the height of such a figure as soon as its slider moves.
    [PLOTLY_MIME]: { config: { displaylogo: false }, ...plain },
    'text/plain': caption,
  };
  if (process.env[STILLS_VARIABLE] === STILLS_BY_RUNNER) requireDrawable(plain);
  else bundle['image/png'] = Buffer.from(drawStill(plain).png).toString('base64');
  return emit(bundle);
}
