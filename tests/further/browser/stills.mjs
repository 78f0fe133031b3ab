// Stills against the browser's own drawing of the same figures.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { drawStill, plainFigure } from 'halfmax-notebook/still';
import { check, open, require, save, work } from './bench.mjs';
import { figures } from './figures.mjs';

const curve = figures['curve with a band of uncertainty'];
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

export async function checkStills() {
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
