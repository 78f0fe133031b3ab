import type { Cell, Notebook } from '../notebook/index.js';

const TITLE = `Every cell of this notebook calls the package and shows what came out: it is a place to start from. Change the text, add cells, and run it again when the frames change. The folder that it stands in is the session.

Words: a **frame** is one reading of all pixels; the **transmittance** is the share of the light that the filter lets through; the **FWHM** is the width of a passband between the two places with half of its peak; a **verdict** holds a claim of the filter's data sheet against the measurement.`;

const CAUTION = `> Lamps with mercury give off ultraviolet light that harms eyes and skin, and hold mercury; their supplies work at high voltage; all lamps get hot. Rules of your country and workplace, the maker's leaflet and licensed practice go before anything said here.`;

const IMPORTS = [
  "import { DataFrame } from 'danfojs-node';",
  "import { measureSession } from 'halfmax/measure';",
  "import { formatQuantity, isAbsent } from 'halfmax/metrics';",
  "import { readSession } from 'halfmax/session';",
  "import { bandTrace, directLabel, layoutFor, palette, showFigure, showMarkdown, showTable } from 'halfmax-notebook/display';",
  "import { notebookInputs } from 'halfmax-notebook/inputs';",
].join('\n');

const INPUTS = "const inputs = notebookInputs({ session: '.', seed: 1, draws: 20000 });";

const MEASURE = `const session = readSession(inputs.session);
const { measurement, curves } = measureSession(session, { provenance: { package: 'halfmax', version: '', node: '', seed: inputs.seed, draws: inputs.draws } });
showMarkdown(\`**\${session.title}**: \${session.inputs.length} files read. The wavelength scale rests on \${measurement.calibration.lines.filter(({ used }) => used).length} lamp lines with a residual rms of \${measurement.calibration.residualRmsNm.toFixed(3)} nm.\`);
if (measurement.warnings.length > 0) showMarkdown(\`To be looked at:\\n\\n\${measurement.warnings.map(({ where, what }) => \`- \${where}: \${what}\`).join('\\n')}\`);`;

const TABLE = `const bands = measurement.filters.flatMap((filter) => filter.bands.map((band) => ({ filter, band })));
if (bands.length === 0) showMarkdown('No passband was found: the warnings above may say why.');
else showTable(new DataFrame({
  Filter: bands.map(({ filter }) => filter.label),
  For: bands.map(({ band }) => band.target.join(', ') || '–'),
  'Centre / nm': bands.map(({ band }) => formatQuantity(band.corrected.centreNm)),
  'FWHM / nm': bands.map(({ band }) => formatQuantity(band.corrected.fwhmNm)),
  'FWHM as measured / nm': bands.map(({ band }) => formatQuantity(band.asMeasured.fwhmNm)),
  'Peak transmittance': bands.map(({ band }) => formatQuantity(band.corrected.peakTransmittance)),
  'Transmittance at the line': bands.map(({ band }) => formatQuantity(band.corrected.transmittanceAtLine)),
}), { caption: 'The passbands. The numbers have the softening by the instrument taken out, but where the column says otherwise. A number after ± is one standard uncertainty.' });`;

const CURVES = `for (const { filter, band } of bands) {
  const curve = curves.find((one) => one.filter === filter.id);
  const { peakNm, fwhmNm } = band.asMeasured;
  if (curve === undefined || isAbsent(peakNm)) continue;
  const middle = peakNm.value;
  const half = isAbsent(fwhmNm) ? 10 : 2 * fwhmNm.value + 2;
  const near = Array.from({ length: curve.wavelengthNm.length }, (_, i) => i).filter((i) => Math.abs(curve.wavelengthNm[i] - middle) < half);
  const x = near.map((i) => curve.wavelengthNm[i]);
  const y = near.map((i) => curve.transmittance[i]);
  const reach = near.map((i) => 1.96 * curve.standardUncertainty[i]);
  const targets = band.lines.filter(({ isTarget }) => isTarget);
  if (x.length > 1) showFigure({
    data: [bandTrace(x, y.map((value, k) => value - reach[k]), y.map((value, k) => value + reach[k]), { colour: palette[0] }), { x, y, mode: 'lines', line: { color: palette[0], width: 2 }, name: filter.label }],
    layout: layoutFor({
      title: filter.label, height: 340,
      x: { quantity: 'Wavelength in air', unit: 'nm' }, y: { quantity: 'Transmittance' },
      shapes: targets.map(({ wavelengthNm }) => ({ type: 'line', xref: 'x', yref: 'paper', x0: wavelengthNm, x1: wavelengthNm, y0: 0, y1: 1, line: { color: palette[1], width: 1, dash: 'dot' } })),
      annotations: targets.map(({ name, wavelengthNm }, k) => ({ ...directLabel({ text: name, x: wavelengthNm, y: 1, colour: palette[1] }), yref: 'paper', yshift: -14 * k })),
    }),
    caption: \`\${filter.label} as measured, with the 95 % band of the noise of each pixel. Dotted: the lines that it is for.\`,
  });
}`;

const VERDICTS = `const claims = bands.flatMap(({ filter, band }) => band.claims.map((claim) => ({ filter, claim })));
if (claims.length === 0) showMarkdown('The session states no claims of a data sheet. Write them as \`claims\` beside a filter in session.json, such as \`{ "fwhmNm": { "value": 3, "tolerance": 0.5 } }\`, and run this again.');
else showTable(new DataFrame({
  Filter: claims.map(({ filter }) => filter.label),
  Claim: claims.map(({ claim }) => claim.quantity),
  Verdict: claims.map(({ claim }) => claim.verdict),
  'Chance that it is met / %': claims.map(({ claim }) => (typeof claim.probabilityMet === 'number' ? 100 * claim.probabilityMet : null)),
}), { caption: measurement.decision.words, digits: 1 });`;

/**
 * A short notebook that measures the session of its own folder and shows table, curves and verdicts.
 *
 * @param title - the heading
 * @returns the notebook, not yet run
 */
export function notebookTemplate(title: string): Notebook {
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: {
      kernelspec: { display_name: 'TypeScript (tslab)', language: 'typescript', name: 'tslab' },
      language_info: {
        codemirror_mode: { mode: 'typescript', name: 'javascript', typescript: true },
        file_extension: '.ts',
        mimetype: 'text/typescript',
        name: 'typescript',
      },
    },
    cells: [
      prose('title', `# ${title}\n\n${TITLE}`),
      prose('caution', CAUTION),
      code('imports', IMPORTS),
      code('inputs', INPUTS),
      prose('measure-text', '## From frames to curves'),
      code('measure', MEASURE),
      prose('table-text', '## The passbands'),
      code('table', TABLE),
      prose('curves-text', '## The curves'),
      code('curves', CURVES),
      prose('verdicts-text', '## The claims of the data sheets'),
      code('verdicts', VERDICTS),
    ],
  };
}

function prose(id: string, source: string): Cell {
  return { cell_type: 'markdown', id, metadata: {}, source };
}

function code(id: string, source: string): Cell {
  return { cell_type: 'code', id, metadata: {}, source, execution_count: null, outputs: [] };
}
