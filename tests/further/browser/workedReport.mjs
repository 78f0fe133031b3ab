// The report of the worked notebooks as they are kept: every figure drawn, alone, in light and dark, for every reader.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { reportCommand } from '../../../packages/halfmax-notebook/dist/commands/report.js';
import { axeFindings, check, open, save, work } from './bench.mjs';

const folder = fileURLToPath(new URL('../../../notebooks/', import.meta.url));

export async function checkWorkedReport() {
  const report = join(work, 'worked.html');
  const notebooks = readdirSync(folder)
    .filter((name) => name.endsWith('.ipynb'))
    .sort();
  const files = notebooks.map((name) => join(folder, name));
  await reportCommand([...files, '--out', report], { out() {}, error() {}, showsProgress: false });
  for (const colorScheme of ['light', 'dark']) {
    const about = `worked report, ${colorScheme}`;
    const { page, seen } = await open(report, { colorScheme });
    const sections = await page.locator('main > section').count();
    check(`${about}: a part for each notebook`, sections === notebooks.length, `${sections}`);
    const count = await page.locator('main figure:has(.plot)').count();
    for (const figure of await page.locator('main figure:has(.plot)').all()) {
      await figure.scrollIntoViewIfNeeded();
      await figure.locator('.main-svg').first().waitFor({ state: 'visible', timeout: 30_000 });
    }
    const drawn = await page.locator('figure.drawn').count();
    check(`${about}: every figure is drawn`, count > 0 && drawn === count, `${drawn} of ${count}`);
    const away = await textsOutside(page);
    check(`${about}: no text of a figure leaves its frame`, away.length === 0, away.join('; '));
    if (colorScheme === 'light') await checkSliders(page);
    check(`${about}: asks for itself alone`, seen.requests.length === 1, seen.requests.slice(1).join(' '));
    check(`${about}: no fault in its scripts`, seen.faults.length === 0, seen.faults.join(' ').slice(0, 300));
    const found = await axeFindings(page);
    check(`${about}: axe finds no violation`, found.length === 0, found.join('; '));
    if (save !== undefined)
      await page.screenshot({ path: join(save, `worked-${colorScheme}.png`), fullPage: true });
    await seen.context.close();
  }
  for (const width of [360, 1600]) {
    const { page, seen } = await open(report, { viewport: { width, height: 700 } });
    await page.waitForTimeout(500);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    check(`worked report at ${width} px does not scroll sideways`, over <= 0, `${over} px`);
    await seen.context.close();
  }
}

/** Texts of drawn figures that reach over the edge of their drawing by more than a pixel. */
function textsOutside(page) {
  return page.evaluate(() =>
    [...document.querySelectorAll('figure.drawn')].flatMap((figure) => {
      const frame = figure.querySelector('.main-svg').getBoundingClientRect();
      return [...figure.querySelectorAll('.main-svg text')]
        .filter((text) => text.textContent.trim() !== '' && text.getClientRects().length > 0)
        .filter((text) => {
          const box = text.getBoundingClientRect();
          const over = Math.max(
            frame.left - box.left,
            box.right - frame.right,
            frame.top - box.top,
            box.bottom - frame.bottom,
          );
          return over > 1;
        })
        .map((text) => `${figure.id}: ${text.textContent}`);
    }),
  );
}

/** Every slider, moved by the keyboard from end to end, changes what its figure shows. */
async function checkSliders(page) {
  const shown = (slider) =>
    slider.evaluate((element) =>
      JSON.stringify(
        element
          .closest('figure')
          .querySelector('.plot')
          .data.map((trace) => trace.visible !== false),
      ),
    );
  const sliders = await page.locator('main figure:has(.plot) input[type=range]').all();
  check('worked report: there are sliders', sliders.length > 0, `${sliders.length}`);
  const still = [];
  for (const slider of sliders) {
    await slider.focus();
    await page.keyboard.press('Home');
    const first = await shown(slider);
    await page.keyboard.press('End');
    if ((await shown(slider)) === first) still.push(await slider.getAttribute('aria-label'));
  }
  check('worked report: every slider changes its figure', still.length === 0, still.join(', '));
}
