// The report of a hostile notebook: nothing of it runs, nothing is fetched.
import { readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { join } from 'node:path';
import { buildReport } from 'halfmax-notebook/report';
import { addStills } from 'halfmax-notebook/still';
import { check, open, work } from './bench.mjs';
import { hostileNotebook } from './hostile.mjs';
import { smallReport } from './smallReport.mjs';

export async function checkHostile() {
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
    readFileSync(smallReport, 'utf8').replace('<main', () => `${evil}<main`),
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
