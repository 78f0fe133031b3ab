// The report of a small notebook that has one of everything.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { showFigure, showQuantities, showTable, sliderFigure } from 'halfmax-notebook/display';
import { formatNotebook } from 'halfmax-notebook/notebook';
import { reportCommand } from '../../../packages/halfmax-notebook/dist/commands/report.js';
import { axeFindings, check, open, save, work } from './bench.mjs';
import { figures } from './figures.mjs';

const display = (data) => ({ output_type: 'display_data', metadata: {}, data });
const code = (id, outputs, source = 'show();') => ({
  cell_type: 'code',
  id,
  metadata: {},
  source,
  execution_count: 1,
  outputs,
});
const markdown = (id, source) => ({ cell_type: 'markdown', id, metadata: {}, source });

const curve = figures['curve with a band of uncertainty'];
const slider = sliderFigure({
  quantity: 'Tilt',
  unit: '°',
  steps: ['0', '3', '6'].map((label, index) => ({
    label,
    data: [{ type: 'scatter', mode: 'lines', x: [1, 2], y: [index, index], name: `step ${label}` }],
  })),
  layout: curve.layout,
  caption: 'A slider.',
});
const notebook = {
  nbformat: 4,
  nbformat_minor: 5,
  metadata: {
    halfmax: {
      status: 'complete',
      randomSeed: 1,
      inputs: { seed: { value: 1, from: 'command' } },
      filesRead: [{ path: 'lamp.csv', sha256: 'ab'.repeat(32) }],
    },
  },
  cells: [
    markdown(
      'a',
      '# Filters\n\n## Curves\n\nThe width is $w = \\int T\\,d\\lambda / T_0$ ([more](https://example.org/)).',
    ),
    code('b', [
      display(showFigure({ ...curve, caption: 'Two filters.' })),
      { output_type: 'stream', name: 'stderr', text: 'careful\n' },
    ]),
    markdown('c', '## Tilt\n\n### In detail'),
    code('d', [
      display(showFigure(slider)),
      display(showTable({ filter: ['A', 'B'], 'FWHM / nm': [3.2, 4] }, { caption: 'Widths' })),
      display(
        showQuantities([{ name: 'FWHM', quantity: { value: 3.2, standardUncertainty: 0.012 }, unit: 'nm' }]),
      ),
      { output_type: 'error', ename: 'RangeError', evalue: 'no', traceback: ['RangeError: no'] },
    ]),
  ],
};
const source = join(work, 'filters.ipynb');
export const smallReport = join(work, 'report.html');
writeFileSync(source, formatNotebook(notebook));
await reportCommand([source, '--out', smallReport], { out() {}, error() {}, showsProgress: false });

export async function checkSmallReport() {
  for (const colorScheme of ['light', 'dark']) {
    const { page, seen } = await open(smallReport, { colorScheme });
    await page.waitForFunction(() => document.querySelectorAll('.drawn .main-svg').length > 0);
    await page.locator('#figure-1').scrollIntoViewIfNeeded();
    await page.waitForFunction(() => document.querySelectorAll('figure.drawn').length === 2);
    check(
      `report, ${colorScheme}: asks for itself alone`,
      seen.requests.length === 1,
      seen.requests.slice(1).join(' '),
    );
    check(`report, ${colorScheme}: no fault in its scripts`, seen.faults.length === 0, seen.faults.join(' '));
    const paper = await page.evaluate(
      () => getComputedStyle(document.querySelector('.drawn .main-svg')).backgroundColor,
    );
    const ground = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    check(
      `report, ${colorScheme}: figures have the ground of the page`,
      paper === ground,
      `${paper} on ${ground}`,
    );
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true;
    });
    const found = await axeFindings(page);
    check(`report, ${colorScheme}: axe finds no violation`, found.length === 0, found.join('; '));
    if (save !== undefined)
      await page.screenshot({ path: join(save, `report-${colorScheme}.png`), fullPage: true });
    await page.emulateMedia({ media: 'print' });
    const shown = (selector) =>
      page.evaluate(
        (s) => [...document.querySelectorAll(s)].every((e) => e.getClientRects().length > 0),
        selector,
      );
    check(`report, ${colorScheme}: paper shows stills`, (await shown('.still')) && !(await shown('.plot')));
    await seen.context.close();
  }
  await checkKeys();
  const { page, seen } = await open(smallReport, { javaScriptEnabled: false });
  const widths = await page
    .locator('img.still')
    .evaluateAll((all) => all.map((img) => img.getBoundingClientRect().width));
  check(
    'report without scripts shows stills',
    widths.length === 2 && widths.every((width) => width > 500),
    widths.join(' '),
  );
  check(
    'report without scripts hides what would not work',
    !(await page.locator('input').first().isVisible()),
  );
  await seen.context.close();
  for (const width of [360, 1600]) {
    const small = await open(smallReport, { viewport: { width, height: 700 } });
    await small.page.waitForTimeout(500);
    const over = await small.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    check(`report at ${width} px does not scroll sideways`, over <= 0, `${over} px`);
    await small.seen.context.close();
  }
}

async function checkKeys() {
  const { page, seen } = await open(smallReport, { colorScheme: 'light' });
  await page.keyboard.press('Tab');
  check(
    'keyboard: the first stop is the way to the content',
    (await page.evaluate(() => document.activeElement.className)) === 'skip',
  );
  await page.keyboard.press('Enter');
  check('keyboard: it leads there', (await page.evaluate(() => location.hash)) === '#content');
  await page.locator('details.code summary').first().focus();
  await page.keyboard.press('Enter');
  check('keyboard: code unfolds', await page.locator('details.code pre').first().isVisible());
  const input = page.getByRole('slider', { name: 'Tilt' });
  await input.scrollIntoViewIfNeeded();
  await page.waitForFunction(() => document.querySelector('#figure-1').classList.contains('drawn'));
  await input.focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  const visible = () =>
    page.evaluate(() =>
      document
        .querySelector('#figure-1 .plot')
        .data.filter((t) => t.visible !== false)
        .map((t) => t.name)
        .join(),
    );
  check('keyboard: the slider changes the figure', (await visible()) === 'step 6', await visible());
  check('screen reader: the slider says its value', (await input.getAttribute('aria-valuetext')) === '6 °');
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.waitForFunction(
    () =>
      getComputedStyle(document.querySelector('#figure-1 .main-svg')).backgroundColor !==
      'rgb(255, 255, 255)',
  );
  check('the slider keeps its place when light turns dark', (await visible()) === 'step 6', await visible());
  const names = await page
    .locator('[role=img]')
    .evaluateAll((all) => all.map((e) => e.getAttribute('aria-label')));
  check('screen reader: figures say what they show', names.join() === 'Two filters.,A slider.', names.join());
  await seen.context.close();
}
