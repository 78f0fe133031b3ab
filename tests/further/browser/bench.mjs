// What the checks in Chromium share: the browser, a page that counts what it asks for, the count of the checks.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

export const require = createRequire(import.meta.url);
const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
/** Folder for pictures to look at, or undefined. */
export const save = process.argv[2] === '--save' ? process.argv[3] : undefined;
if (save !== undefined) mkdirSync(save, { recursive: true });

if (!existsSync(executablePath)) {
  console.log(`skipped: no browser at ${executablePath}`);
  console.log('0 passed, 0 failed');
  process.exit(0);
}

export const work = mkdtempSync(join(tmpdir(), 'halfmax-browser-'));
let passed = 0;
let failed = 0;

export function check(name, good, detail = '') {
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${name}${detail === '' ? '' : `: ${detail}`}`);
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
export async function open(path, options = {}) {
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

/** What axe finds against accessibility in a page, a rule each. */
export async function axeFindings(page) {
  await page.evaluate(readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8'));
  const { violations } = await page.evaluate(() => globalThis.axe.run(document));
  return violations.map(({ id, nodes }) => `${id} (${nodes.length}: ${nodes[0].html.slice(0, 120)})`);
}

/** Closes the browser, removes the folder, says the count. */
export async function finish() {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}
