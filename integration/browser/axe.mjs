// Goes through pages, in as many states as the job asks for, and tells what is wrong
// with any. The job has visitors with their pages; a page has a name, a path, and the
// looks that it is to be given. One browser, and two pages at a time.

import { browser, faults, job } from './browser.mjs';
import { lookAt, looks, phone } from './looks.mjs';
import { axe, unfold } from './wcag.mjs';

const counts = { pages: 0, states: 0, axe: 0 };

async function look(page, { name, path, looks: wanted, status = 200 }) {
  await page.setViewportSize(phone);
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  const answer = await page.goto(path);
  if (answer.status() !== status) faults.push(`${name}: answered ${answer.status()}, not ${status}`);
  counts.pages++;
  await unfold(page);
  for (const state of wanted) {
    for (const wrong of await lookAt(page, state)) faults.push(`${name}, ${state}: ${wrong}`);
    if (looks[state].checks.includes(axe)) counts.axe++;
    counts.states++;
  }
}

// Each visitor has a cookie of their own, or none, and so a context.
async function visit({ cookie, pages }) {
  const context = await browser.newContext({ baseURL: job.base });
  context.setDefaultTimeout(30000);
  if (cookie) await context.addCookies([{ ...cookie, url: job.base }]);
  const left = pages.slice();
  await Promise.all([0, 1].map(async () => {
    const page = await context.newPage();
    listen(page);
    for (let next = left.shift(); next; next = left.shift()) await look(page, next);
  }));
  await context.close();
}

// listen hears what a page complains of: a breach of the Content-Security-Policy, a
// script that fails, a file that is missing. That somebody may not see the page, or
// what it asks for, is no complaint of it.
function listen(page) {
  const refusal = (m) => m.text().startsWith('Failed to load resource') && (m.location().url === page.url() || / status of 40[13] /.test(m.text()));
  page.on('console', (m) => m.type() === 'error' && !refusal(m) && faults.push(`${page.url()}: console: ${m.text()}`));
  page.on('pageerror', (e) => faults.push(`${page.url()}: ${e.message}`));
}

try {
  for (const visitor of job.visitors) await visit(visitor);
  process.stdout.write(JSON.stringify({ counts, faults }));
} finally {
  await browser.close();
}
