// The window of Jupyter's Notebook: a worked notebook is shown whole, and one is run in it on our kernel.
// Needs Debian's jupyter-notebook and Chromium. Run: npm run build && node tests/further/jupyter-window/check.mjs [--save FOLDER]
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { check, leftBehind, notebookText, root, summary, workFolder } from '../kernel/bench.mjs';
import { notebookProgram, startNotebook } from './server.mjs';

const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
const save = process.argv[2] === '--save' ? process.argv[3] : undefined;
const absent = [notebookProgram, executablePath].find((path) => !existsSync(path));
if (absent !== undefined) {
  console.log(`skipped: no ${absent}`);
  console.log('0 passed, 0 failed');
  process.exit(0);
}

const KEPT = '03-how-fwhm-is-measured.ipynb';
const OWN = 'own.ipynb';
const FORMULA = 'two-lines';
const own = notebookText([
  `import { layoutFor, showFigure, showFormula, showTable } from 'halfmax-notebook/display';`,
  `showFigure({ data: [{ x: [1, 2], y: [0, 1], mode: 'lines' }], layout: layoutFor({ x: { quantity: 'Wavelength', unit: 'nm' }, y: { quantity: 'Transmittance' } }), caption: 'A line.' });`,
  `showTable({ Filter: ['${FORMULA}'], 'FWHM / nm': [3.2] });`,
  `showFormula('\\\\frac{a}{b}');`,
  `console.log('ran to the end');`,
]);

/** Opens a notebook and waits for its kernel; what goes wrong in the window's scripts is kept. */
async function open(browser, url) {
  const page = await browser.newPage({ viewport: { width: 1280, height: 1000 } });
  const faults = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  await page.goto(url);
  await page.waitForFunction(
    () => globalThis.Jupyter?.notebook?._fully_loaded && globalThis.Jupyter.notebook.kernel?.is_connected?.(),
    null,
    { timeout: 90_000 },
  );
  return { page, faults };
}

/** What is seen of a notebook. */
const look = (page) =>
  page.evaluate(() => ({
    isTrusted: globalThis.Jupyter.notebook.trusted,
    kernel: document.querySelector('.kernel_indicator_name')?.textContent ?? '',
    pictures: [...document.querySelectorAll('.output_png img')].map((img) => ({
      drawn: img.complete && img.naturalWidth > 0,
      width: img.getBoundingClientRect().width,
      room: img.closest('.output_subarea').getBoundingClientRect().width,
    })),
    tables: document.querySelectorAll('.output_html table').length,
    cutOff: [...document.querySelectorAll('.output_html')].filter(
      (one) => one.scrollWidth > one.clientWidth + 1,
    ).length,
    texts: [...document.querySelectorAll('.output_html td:not(.number)')].map(
      (cell) => getComputedStyle(cell).textAlign,
    ),
    errors: document.querySelectorAll('.output_error').length,
    formulas: document.querySelectorAll('.MathJax, .MathJax_SVG').length,
    badFormulas: document.querySelectorAll('.MathJax_Error, .merror').length,
    said: [...document.querySelectorAll('.output_stdout')].map((one) => one.textContent).join(''),
  }));

const outputsOf = (file, mime) =>
  JSON.parse(readFileSync(join(root, 'notebooks', file), 'utf8'))
    .cells.flatMap(({ outputs = [] }) => outputs)
    .filter(({ data }) => data?.[mime] !== undefined).length;

const work = workFolder('window');
const browser = await chromium.launch({
  executablePath,
  args: ['--no-sandbox', '--headless=new', '--disable-gpu', '--disable-dev-shm-usage'],
});
let server;
try {
  server = await startNotebook(work.folder, { [OWN]: own });
  const kept = await open(browser, server.url(KEPT));
  await kept.page.waitForFunction(() =>
    [...document.querySelectorAll('.output_png img')].every((img) => img.complete),
  );
  const shown = await look(kept.page);
  const pictures = outputsOf(KEPT, 'image/png');
  check(
    'the kept notebook is trusted, on our kernel',
    shown.isTrusted && shown.kernel === 'TypeScript (halfmax)',
    shown.kernel,
  );
  check(
    'each of its figures is drawn, as wide as the room and no wider',
    shown.pictures.length === pictures &&
      pictures > 0 &&
      shown.pictures.every(({ drawn, width, room }) => drawn && width > 600 && width <= room + 1),
    `${shown.pictures.length} of ${pictures}`,
  );
  const tables = outputsOf(KEPT, 'text/html');
  check('each of its tables is there', shown.tables === tables && tables > 0, `${shown.tables} of ${tables}`);
  check('none of them is cut off', shown.cutOff === 0, `${shown.cutOff}`);
  check(
    'text in tables begins at the left',
    shown.texts.length > 0 && shown.texts.every((align) => align === 'left' || align === 'start'),
    [...new Set(shown.texts)].join(' '),
  );
  check('no error is shown', shown.errors === 0 && shown.badFormulas === 0);
  check('no fault in the scripts of the window', kept.faults.length === 0, kept.faults.join('; '));
  if (save !== undefined) await kept.page.screenshot({ path: join(save, 'kept.png') });
  await kept.page.evaluate(() => globalThis.Jupyter.notebook.session.delete());
  await kept.page.close({ runBeforeUnload: false });

  const run = await open(browser, server.url(OWN));
  await run.page.click('#celllink');
  await run.page.click('#run_all_cells');
  await run.page
    .waitForFunction(
      () =>
        /ran to the end/.test(document.querySelector('.output_stdout')?.textContent ?? '') ||
        document.querySelector('.output_error') !== null,
      null,
      { timeout: 60_000 },
    )
    .catch(() => {});
  await run.page.waitForTimeout(1000);
  const made = await look(run.page);
  check(
    'a notebook runs in the window to its end',
    made.said.includes('ran to the end') && made.errors === 0,
  );
  check('its figure is drawn', made.pictures.length === 1 && made.pictures[0].drawn);
  check(
    'its table is there',
    made.tables === 1 && made.texts.every((align) => align === 'left' || align === 'start'),
  );
  check('its formula is set', made.formulas >= 1 && made.badFormulas === 0, `${made.formulas}`);
  check('no fault in the scripts of the window then', run.faults.length === 0, run.faults.join('; '));
  if (save !== undefined) await run.page.screenshot({ path: join(save, 'run.png') });
  await run.page.evaluate(() => globalThis.Jupyter.notebook.session.delete());
  await run.page.close({ runBeforeUnload: false });
} catch (fault) {
  check('the window can be used', false, String(fault).slice(0, 500));
} finally {
  await browser.close();
  await server?.stop();
}
const left = await leftBehind(work);
check('nothing left behind', left === '', left);
work.remove();
process.exitCode = summary();
