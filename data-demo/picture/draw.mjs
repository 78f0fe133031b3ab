// Draws the passbands of the measured demonstration: npm run demo && node data-demo/picture/draw.mjs
// Other folders: node data-demo/picture/draw.mjs MEASUREMENT_FOLDER PICTURE.svg
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const home = dirname(fileURLToPath(import.meta.url));
const [folder = join(home, '..', '..', 'out', 'demo'), picture = join(home, 'filters.svg')] =
  process.argv.slice(2);

const WIDTH = 920;
const HEIGHT = 706;
const PANEL = { width: 258, height: 196, left: 62, top: 142, stepX: 284, stepY: 304 };
const HALF_RANGE_NM = 10;
const TOP_TRANSMITTANCE = 1.05;
/** The uncertainty of a pixel is thinner than the line: it is drawn so many times as wide, and the key says so. */
const BAND_DRAWN = 10;
const INK = '#1b1f24';
const SOFT = '#57606a';
const GRID = '#e3e7eb';
/** Columns, with colours that stay apart in the common colour-vision deficiencies. */
const COLUMNS = [
  { species: '[O III]', aroundNm: 500.7, colour: '#0072b2' },
  { species: 'H-alpha', aroundNm: 656.3, colour: '#c2410c' },
  { species: '[S II]', aroundNm: 672.4, colour: '#8e3b78' },
];

/** @param {number} value */
const px = (value) => String(Number(value.toFixed(1)));

/** @param {string} text */
const escaped = (text) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');

/**
 * Text at a place; `more` holds further attributes.
 *
 * @param {number} x
 * @param {number} y
 * @param {string} text
 * @param {string} [more]
 */
const label = (x, y, text, more = '') =>
  `<text x="${px(x)}" y="${px(y)}"${more === '' ? '' : ` ${more}`}>${escaped(text)}</text>`;

/**
 * @param {number} x1
 * @param {number} y1
 * @param {number} x2
 * @param {number} y2
 * @param {string} more
 */
const stroke = (x1, y1, x2, y2, more) =>
  `<line x1="${px(x1)}" y1="${px(y1)}" x2="${px(x2)}" y2="${px(y2)}" ${more}/>`;

/** Value and standard uncertainty, the latter to two digits. */
function digits({ value, standardUncertainty }) {
  const decimals = Math.max(0, 1 - Number(standardUncertainty.toExponential(1).split('e')[1]));
  return [value.toFixed(decimals), `± ${standardUncertainty.toFixed(decimals)} nm`];
}

/** A claim of the width and what became of it. */
function claimText(claims) {
  const found = claims.find(({ quantity }) => quantity === 'fwhmNm');
  if (found === undefined) return 'no width claimed';
  const { claim, verdict } = found;
  const { value, tolerance } = claim;
  const limits = Array.isArray(tolerance) ? `−${tolerance[0]} +${tolerance[1]}` : `± ${tolerance}`;
  const said =
    claim.atMost !== undefined
      ? `at most ${claim.atMost} nm`
      : claim.atLeast !== undefined
        ? `at least ${claim.atLeast} nm`
        : tolerance === undefined
          ? `${value} nm`
          : `${value} ${limits} nm`;
  return `data sheet: ${said} – ${verdict}`;
}

/** Rows of a curve table between two wavelengths. */
function readCurve(file, fromNm, toNm) {
  return readFileSync(join(folder, file), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number))
    .filter(([nm]) => nm >= fromNm && nm <= toNm);
}

/** Emission lines at the top of a panel; lines too close for names of their own share one. */
function lineMarks(lines, x, top, bottom) {
  const sorted = [...lines].sort((a, b) => a.wavelengthNm - b.wavelengthNm);
  const marks = sorted.map(({ wavelengthNm, isTarget }) =>
    stroke(
      x(wavelengthNm),
      top,
      x(wavelengthNm),
      bottom,
      `stroke="${SOFT}" stroke-width="1" stroke-dasharray="${isTarget ? '5 3' : '1.5 3'}"`,
    ),
  );
  return [
    ...marks,
    ...lineNames(sorted, x).map(([at, text, anchor]) =>
      label(at, top - 5, text, `class="small" text-anchor="${anchor}"`),
    ),
  ];
}

/** Names of emission lines, kept clear of each other: place, text and anchor of each. */
function lineNames(lines, x) {
  const species = lines.map(({ name }) => name.replace(/ \d.*$/, '').replace('H-alpha', 'Hα'));
  const anchors = { 1: ['middle'], 2: ['end', 'start'], 3: ['end', 'middle', 'start'] }[lines.length];
  const gap = lines.length === 2 ? x(lines[1].wavelengthNm) - x(lines[0].wavelengthNm) : 14;
  const shift = { end: Math.min(12, gap / 2 - 3), middle: 0, start: -Math.min(12, gap / 2 - 3) };
  return lines.map(({ name, wavelengthNm }, at) => {
    const isPair = lines.length === 2 && species[0] === species[1];
    const number = name.replace(/^.* /, '');
    const text = !isPair ? species[at] : at === 0 ? `${species[0]} ${number}` : number;
    return [x(wavelengthNm) + shift[anchors[at]], text, anchors[at]];
  });
}

/** The arrow across the band at half of its peak, with the width beside it. */
function widthMark(band, x, y, right, colour) {
  const { peakTransmittance, fwhmNm } = band.asMeasured;
  const { blueNm, redNm } = band.details.halfCrossingsNm;
  const at = y(peakTransmittance.value / 2);
  const [from, to] = [x(blueNm.value), x(redNm.value)];
  const head = (tip, sign) => `<path d="M${px(tip)} ${px(at)}l${sign * 7} -3.5v7z" fill="${INK}"/>`;
  const atRight = right - to > 92;
  const textX = atRight ? to + 9 : from - 9;
  const anchor = `text-anchor="${atRight ? 'start' : 'end'}"`;
  const isCorrected = 'value' in band.corrected.fwhmNm;
  const rows = [['FWHM', `class="small" ${anchor}`]];
  digits(isCorrected ? band.corrected.fwhmNm : fwhmNm).forEach((text) => {
    rows.push([text, `class="value" ${anchor}`]);
  });
  if (isCorrected) {
    rows.push(['as measured', `class="small" ${anchor}`]);
    digits(fwhmNm).forEach((text) => {
      rows.push([text, `class="small" ${anchor}`]);
    });
  }
  return [
    stroke(from, at, to, at, `stroke="${INK}" stroke-width="1.4"`),
    head(from, 1),
    head(to, -1),
    `<circle cx="${px(from)}" cy="${px(at)}" r="2.6" fill="#fff" stroke="${colour}" stroke-width="1.4"/>`,
    `<circle cx="${px(to)}" cy="${px(at)}" r="2.6" fill="#fff" stroke="${colour}" stroke-width="1.4"/>`,
    ...rows.map(([text, more], row) =>
      label(textX, at + 13 - 14 * (rows.length > 3 ? 3.5 : 2) + 14 * row, text, more),
    ),
  ];
}

/** One passband in its panel. */
function panel({ filter, band, column, row }) {
  const { aroundNm, colour } = COLUMNS[column];
  const left = PANEL.left + column * PANEL.stepX;
  const top = PANEL.top + row * PANEL.stepY;
  const right = left + PANEL.width;
  const bottom = top + PANEL.height;
  const [fromNm, toNm] = [aroundNm - HALF_RANGE_NM, aroundNm + HALF_RANGE_NM];
  const x = (nm) => left + ((nm - fromNm) / (toNm - fromNm)) * PANEL.width;
  const y = (t) => bottom - (t / TOP_TRANSMITTANCE) * PANEL.height;
  const curve = readCurve(filter.curveFile, fromNm, toNm);
  const point = (nm, t) => `${px(x(nm))} ${px(y(t))}`;
  const upper = curve.map(([nm, t, u]) => point(nm, t + BAND_DRAWN * 2 * u));
  const lower = curve.map(([nm, t, u]) => point(nm, t - BAND_DRAWN * 2 * u)).reverse();
  const parts = [
    label(left, top - 42, filter.label, 'class="name"'),
    label(left, top - 25, claimText(band.claims), 'class="small"'),
  ];
  for (const t of [0, 0.25, 0.5, 0.75, 1]) {
    parts.push(stroke(left, y(t), right, y(t), `stroke="${t === 0 ? SOFT : GRID}"`));
    if (column === 0) parts.push(label(left - 7, y(t) + 4, t.toFixed(2), 'class="small" text-anchor="end"'));
  }
  for (let nm = Math.ceil(fromNm / 5) * 5; nm <= toNm; nm += 5) {
    parts.push(stroke(x(nm), bottom, x(nm), bottom + 4, `stroke="${SOFT}"`));
    parts.push(label(x(nm), bottom + 17, String(nm), 'class="small" text-anchor="middle"'));
  }
  const seen = band.lines.filter(({ wavelengthNm }) => wavelengthNm > fromNm && wavelengthNm < toNm);
  parts.push(
    ...lineMarks(seen, x, top, bottom),
    `<path d="M${upper.join('L')}L${lower.join('L')}z" fill="${colour}" fill-opacity="0.3"/>`,
    `<path d="M${curve.map(([nm, t]) => point(nm, t)).join('L')}" fill="none" stroke="${colour}" stroke-width="1.5" stroke-linejoin="round"/>`,
    ...widthMark(band, x, y, right, colour),
    label((left + right) / 2, bottom + 35, 'wavelength in air / nm', 'class="small" text-anchor="middle"'),
  );
  if (column === 0) {
    const middle = (top + bottom) / 2;
    parts.push(
      label(
        20,
        middle,
        'transmittance',
        `class="small" text-anchor="middle" transform="rotate(-90 20 ${px(middle)})"`,
      ),
    );
  }
  return `<g>\n${parts.join('\n')}\n</g>`;
}

/** How to read the picture, in the cell that no passband needs. */
function key(spreads) {
  const left = PANEL.left + 2 * PANEL.stepX;
  const top = PANEL.top + PANEL.stepY;
  const spread = `${Math.min(...spreads).toFixed(2)} to ${Math.max(...spreads).toFixed(2)} nm`;
  const rows = [
    ['curve as measured, one value a pixel', `<path d="M0 -4h34" stroke="${SOFT}" stroke-width="1.5"/>`],
    [
      `± 2 standard uncertainties, × ${BAND_DRAWN}`,
      `<rect x="0" y="-9" width="34" height="10" fill="${SOFT}" fill-opacity="0.3"/>`,
    ],
    [
      'full width at half of the own peak',
      `<path d="M4 -4h26" stroke="${INK}" stroke-width="1.4"/><path d="M0 -4l7 -3.5v7zM34 -4l-7 -3.5v7z" fill="${INK}"/>`,
    ],
    ['emission line the filter is for', `<path d="M17 -12v16" stroke="${SOFT}" stroke-dasharray="5 3"/>`],
    ['line beside it', `<path d="M17 -12v16" stroke="${SOFT}" stroke-dasharray="1.5 3"/>`],
  ];
  const notes = [
    'The number after ± is one standard',
    'uncertainty. The shading is drawn ten',
    'times too wide, or it could not be seen.',
    'The instrument spreads a sharp line',
    `over ${spread}: in the curve and the`,
    'width as measured, taken out of the width',
    'above it, on which the verdict rests.',
  ];
  return [
    label(left, top - 42, 'How to read this', 'class="name"'),
    ...rows.map(
      ([text, sign], row) =>
        `<g transform="translate(${left} ${top + 24 * row})">${sign}${label(44, 0, text, 'class="small"')}</g>`,
    ),
    ...notes.map((text, row) => label(left, top + 24 * rows.length + 12 + 17 * row, text, 'class="small"')),
  ].join('\n');
}

const measurement = JSON.parse(readFileSync(join(folder, 'measurement.json'), 'utf8'));
const panels = measurement.filters.flatMap((filter) =>
  filter.bands.map((band) => ({
    filter,
    band,
    column: COLUMNS.findIndex(({ species }) => band.target[0]?.startsWith(species)),
    row: filter.bands.length === 1 ? 0 : 1,
  })),
);
const lost = panels.find(({ column }) => column < 0);
if (lost !== undefined) throw new Error(`no column for a band of ${lost.filter.id}`);
const words = panels.map(({ filter, band }) => {
  const { fwhmNm } = band.corrected;
  const corrected = 'value' in fwhmNm ? `, corrected ${digits(fwhmNm).join(' ')}` : '';
  return `${filter.label}: FWHM ${digits(band.asMeasured.fwhmNm).join(' ')}${corrected}`;
});
const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" role="img" aria-labelledby="title desc" font-family="Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif" fill="${INK}">
<title id="title">Passbands of the four filters of the demonstration session, as measured</title>
<desc id="desc">${escaped(words.join('; '))}</desc>
<style>.small{font-size:12px;fill:${SOFT}}.value{font-size:12.5px}.name{font-size:15px;font-weight:bold}</style>
<rect x="0.5" y="0.5" width="${WIDTH - 1}" height="${HEIGHT - 1}" rx="8" fill="#fff" stroke="#d0d7de"/>
${label(PANEL.left, 40, 'Four narrowband filters, measured', 'font-size="20" font-weight="bold"')}
${label(PANEL.left, 62, 'The demonstration session: bench, filters and data sheets are invented. All panels are 20 nm wide.', 'font-size="13"')}
${panels.map(panel).join('\n')}
${key(panels.map(({ band }) => band.lineSpreadNm.value))}
</svg>
`;
writeFileSync(picture, svg);
