// Opens reports in Chromium: nothing of a hostile notebook runs or is fetched, nobody is kept out, stills are what a browser draws.
// Needs Chromium (/usr/bin/chromium, or the path in CHROMIUM). Run: npm run build && node tests/further/browser/check.mjs [--save FOLDER]
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { showFigure, showQuantities, showTable, sliderFigure } from 'halfmax-notebook/display';
import { formatNotebook } from 'halfmax-notebook/notebook';
import { buildReport } from 'halfmax-notebook/report';
import { addStills, drawStill, plainFigure } from 'halfmax-notebook/still';
import { chromium } from 'playwright-core';
import { reportCommand } from '../../../packages/halfmax-notebook/dist/commands/report.js';
import { figures } from './figures.mjs';
import { hostileNotebook } from './hostile.mjs';

const require = createRequire(import.meta.url);
const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
const save = process.argv[2] === '--save' ? process.argv[3] : undefined;
const work = mkdtempSync(join(tmpdir(), 'halfmax-browser-'));
let passed = 0;
let failed = 0;

function check(name, good, detail = '') {
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${name}${detail === '' ? '' : `: ${detail}`}`);
}

if (!existsSync(executablePath)) {
  console.log(`skipped: no browser at ${executablePath}`);
  console.log('0 passed, 0 failed');
  process.exit(0);
}

const browser = await chromium.launch({
  executablePath,
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
});

/** Opens a page that counts what it asks for and what goes wrong in it. */
async function open(path, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1000, height: 900 }, ...options });
  const page = await context.newPage();
  const seen = { requests: [], faults: [], dialogs: 0, context };
  page.on('request', (request) => {
    if (!request.url().startsWith('data:')) seen.requests.push(request.url());
  });
  page.on('pageerror', (error) => seen.faults.push(String(error)));
  page.on('dialog', (dialog) => {
    seen.dialogs++;
    dialog.dismiss();
  });
  await page.goto(pathToFileURL(path).href);
  return { page, seen };
}

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
const report = join(work, 'report.html');
writeFileSync(source, formatNotebook(notebook));
await reportCommand([source, '--out', report], { out() {}, error() {}, showsProgress: false });

async function checkReport() {
  for (const colorScheme of ['light', 'dark']) {
    const { page, seen } = await open(report, { colorScheme });
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
    await page.evaluate(readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8'));
    const { violations } = await page.evaluate(() => globalThis.axe.run(document));
    const found = violations.map(
      ({ id, nodes }) => `${id} (${nodes.length}: ${nodes[0].html.slice(0, 120)})`,
    );
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
  const { page, seen } = await open(report, { javaScriptEnabled: false });
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
    const small = await open(report, { viewport: { width, height: 700 } });
    await small.page.waitForTimeout(500);
    const over = await small.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    check(`report at ${width} px does not scroll sideways`, over <= 0, `${over} px`);
    await small.seen.context.close();
  }
}

async function checkKeys() {
  const { page, seen } = await open(report, { colorScheme: 'light' });
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

async function checkHostile() {
  const asked = [];
  const server = createServer((request, response) => {
    asked.push(request.url);
    response.end('x');
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${server.address().port}`;
  const file = join(work, 'hostile.html');
  writeFileSync(
    file,
    buildReport([
      {
        file: '<img src=x onerror=1>.ipynb',
        notebook: await addStills(hostileNotebook(address)),
        sha256: '<b>',
      },
    ]),
  );
  const { page, seen } = await open(file);
  await page.waitForTimeout(1500);
  await page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
    for (const figure of document.querySelectorAll('figure')) figure.scrollIntoView();
  });
  await page.waitForTimeout(1000);
  for (const input of await page.locator('input[type=range]').all()) {
    await input.focus();
    await page.keyboard.press('End');
    await page.keyboard.press('Home');
  }
  await page.mouse.move(400, 400);
  for (const figure of await page.locator('figure.drawn').all())
    await figure.hover({ force: true, timeout: 3000 }).catch(() => {});
  await page.waitForTimeout(500);
  const state = await page.evaluate(() => ({
    hit: globalThis.hit ?? {}.hit,
    links: [...document.querySelectorAll('a')].map(
      (a) => a.getAttribute('href') ?? a.getAttribute('xlink:href'),
    ),
    scripts: [...document.querySelectorAll('script:not([type])')].length,
    handlers: [...document.querySelectorAll('*')].flatMap((e) =>
      [...e.attributes].filter((a) => a.name.startsWith('on')),
    ).length,
    strangers: document.querySelectorAll(
      'iframe, object, embed, form, video, audio, meta[http-equiv=refresh], base, link',
    ).length,
    drawn: document.querySelectorAll('figure.drawn').length,
    sections: document.querySelectorAll('main > section').length,
  }));
  check('hostile notebook: nothing ran', state.hit === undefined, String(state.hit));
  check('hostile notebook: no dialog', seen.dialogs === 0);
  check(
    'hostile notebook: no request but for the page',
    seen.requests.length === 1,
    seen.requests.slice(1).join(' '),
  );
  check('hostile notebook: no request reached the server', asked.length === 0, asked.join(' '));
  const odd = state.links.filter((href) => href !== null && !/^(#|https?:|mailto:)/.test(href));
  check('hostile notebook: links lead to the web or inside', odd.length === 0, odd.join(' '));
  check('hostile notebook: two scripts, those of the page', state.scripts === 2, String(state.scripts));
  check(
    'hostile notebook: no handlers, no foreign elements',
    state.handlers + state.strangers === 0,
    JSON.stringify(state),
  );
  check('hostile notebook: its plain figures are drawn all the same', state.drawn >= 1, String(state.drawn));
  check('hostile notebook: it stays inside its section', state.sections === 1);
  check(
    'hostile notebook: no fault in the scripts',
    seen.faults.length === 0,
    seen.faults.join(' ').slice(0, 300),
  );
  await seen.context.close();
  // The second lock: the policy of the page, with a text in it that no cleaning has seen.
  const uncleaned = join(work, 'uncleaned.html');
  const evil = `<script>globalThis.hit='run'</script><img src="${address}/x.png" onerror="globalThis.hit='run'"><iframe src="${address}/f"></iframe><style>body{background:url(${address}/b.png)}</style>`;
  writeFileSync(
    uncleaned,
    readFileSync(report, 'utf8').replace('<main', () => `${evil}<main`),
  );
  const locked = await open(uncleaned);
  await locked.page.waitForTimeout(1000);
  const ran = await locked.page.evaluate(() => globalThis.hit);
  check(
    'policy alone: nothing runs, nothing is fetched',
    ran === undefined && asked.length === 0,
    `${ran} ${asked}`,
  );
  await locked.seen.context.close();
  // The watch itself: without the policy and the cleaning the same server is asked.
  const bare = join(work, 'bare.html');
  writeFileSync(bare, `<script>globalThis.hit='run'</script><img src="${address}/bare.png">`);
  const open2 = await open(bare);
  await open2.page.waitForTimeout(500);
  const caught =
    asked.length > 0 &&
    open2.seen.requests.length > 1 &&
    (await open2.page.evaluate(() => globalThis.hit)) === 'run';
  check('the watch sees a page that does run and load', caught);
  await open2.seen.context.close();
  server.close();
}

const font = readFileSync(
  new URL('../../../packages/halfmax-notebook/fonts/NotoSans-figures.ttf', import.meta.url),
).toString('base64');
const stagePage = `<!doctype html><meta charset="utf-8">
<style>@font-face { font-family: 'Noto Sans'; src: url(data:font/ttf;base64,${font}); }
body { margin: 0; background: #fff; font-family: 'Noto Sans'; } #still, #live { width: 760px; } svg { display: block; }</style>
<div id="live"></div><div id="still"></div><p>font</p>`;

/** Texts of a drawing with the middle of each, relative to the drawing. */
const textsOf = (page, selector) =>
  page.evaluate((s) => {
    const root = document.querySelector(s);
    const origin = root.getBoundingClientRect();
    return [...root.querySelectorAll('text')]
      .filter((text) => text.textContent.trim() !== '' && getComputedStyle(text).opacity !== '0')
      .map((text) => {
        const box = text.getBoundingClientRect();
        return {
          text: text.textContent.replaceAll('\u200b', ''),
          x: box.x + box.width / 2 - origin.x,
          y: box.y + box.height / 2 - origin.y,
        };
      })
      .sort((a, b) => (a.text < b.text ? -1 : a.text > b.text ? 1 : a.x - b.x || a.y - b.y));
  }, selector);

async function checkStills() {
  const path = join(work, 'stage.html');
  writeFileSync(path, stagePage);
  let farthest = 0;
  let most = 0;
  for (const [name, figure] of Object.entries(figures)) {
    const { page, seen } = await open(path, { viewport: { width: 800, height: 1000 } });
    await page.evaluate(() => document.fonts.load("13px 'Noto Sans'"));
    await page.evaluate(readFileSync(require.resolve('plotly.js-dist-min/plotly.min.js'), 'utf8'));
    const still = drawStill(figure);
    const { data, layout } = plainFigure(figure);
    await page.evaluate(
      ([d, l]) => globalThis.Plotly.newPlot('live', d, { width: 760, ...l }, { staticPlot: true }),
      [data, layout],
    );
    await page.evaluate((svg) => {
      document.getElementById('still').innerHTML = svg;
    }, still.svg);
    const [live, drawn] = [await textsOf(page, '#live'), await textsOf(page, '#still')];
    const same = live.map(({ text }) => text).join('|') === drawn.map(({ text }) => text).join('|');
    const list = (texts) => texts.map(({ text }) => text).join('|');
    check(
      `still, ${name}: the texts of the browser's drawing`,
      same,
      same ? '' : `${list(live)} / ${list(drawn)}`,
    );
    const away = same
      ? Math.max(...live.map(({ x, y }, i) => Math.hypot(x - drawn[i].x, y - drawn[i].y)))
      : Infinity;
    farthest = Math.max(farthest, away);
    // Plotly rounds the boxes of annotations and legends to whole pixels: one up, one down at most.
    check(`still, ${name}: each text within 2 px of its place`, away <= 2, `${away.toFixed(2)} px`);
    await page.evaluate(() => {
      document.getElementById('still').innerHTML = '';
    });
    const shot = await page.locator('#live').screenshot();
    // Edges of bars: the browser sets them on whole pixels of the screen, the still on those of half as many again.
    const share = await differingShare(page, shot, Buffer.from(still.png));
    most = Math.max(most, share);
    check(
      `still, ${name}: the picture is the browser's`,
      share < 0.005,
      `${(100 * share).toFixed(2)} % of pixels differ`,
    );
    if (save !== undefined) {
      writeFileSync(join(save, `${name} browser.png`), shot);
      writeFileSync(join(save, `${name} still.png`), still.png);
    }
    await seen.context.close();
  }
  const { page, seen } = await open(path);
  const full = drawStill(curve);
  const without = drawStill({ ...curve, data: curve.data.slice(0, 2) });
  const moved = drawStill({ ...curve, layout: { ...curve.layout, margin: { l: 60, r: 24, t: 52, b: 48 } } });
  const shares = [];
  for (const other of [full, without, moved])
    shares.push(await differingShare(page, Buffer.from(full.png), Buffer.from(other.png)));
  const seesAll = shares[0] === 0 && shares[1] > 0.005 && shares[2] > 0.005;
  const text = shares.map((share) => `${(100 * share).toFixed(2)} %`).join(', ');
  check('the comparison of pictures sees a missing line and a shift of 4 px', seesAll, text);
  await seen.context.close();
  console.log(
    `stills: farthest text ${farthest.toFixed(2)} px, most differing pixels ${(100 * most).toFixed(2)} %`,
  );
}

/** Share of pixels whose colours, blurred by 1.5 px, differ by more than 30 of 255 in a channel. */
function differingShare(page, one, other) {
  return page.evaluate(
    async (pictures) => {
      const pixels = await Promise.all(
        pictures.map(async (base64) => {
          const image = new Image();
          image.src = `data:image/png;base64,${base64}`;
          await image.decode();
          const canvas = document.createElement('canvas');
          canvas.width = 760;
          canvas.height = Math.round((760 * image.height) / image.width);
          const context = canvas.getContext('2d');
          context.filter = 'blur(1.5px)';
          context.drawImage(image, 0, 0, canvas.width, canvas.height);
          return context.getImageData(0, 0, canvas.width, canvas.height);
        }),
      );
      const [a, b] = pixels;
      if (a.height !== b.height) return 1;
      let count = 0;
      for (let i = 0; i < a.data.length; i += 4)
        if ([0, 1, 2].some((channel) => Math.abs(a.data[i + channel] - b.data[i + channel]) > 30)) count++;
      return count / (a.data.length / 4);
    },
    [one.toString('base64'), other.toString('base64')],
  );
}

if (save !== undefined) mkdirSync(save, { recursive: true });
try {
  await checkReport();
  await checkHostile();
  await checkStills();
} finally {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
