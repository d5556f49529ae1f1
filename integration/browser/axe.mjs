// Goes through pages, in as many states as the job asks for, and tells what is wrong
// with any. The job has visitors with their pages; a page has a name, a path, and the
// looks that it is to be given. One browser, and two pages at a time.

import { browser, faults, job } from './browser.mjs';
import { axe, cut, keyboard, moving, spacing, turned, unfold, wide } from './wcag.mjs';

const phone = { width: 360, height: 640 };
const desk = { width: 1280, height: 800 };
const counts = { pages: 0, states: 0, axe: 0 };

// looks are what a page can be held to: at what size, in which colours, in what
// way it is changed before and put right after, and what is then checked.
const looks = {
  'phone, light': { size: phone, checks: [axe, wide, cut, moving] },
  'phone, dark': { size: phone, dark: true, checks: [axe] },
  'desk, light': { size: desk, checks: [axe, wide, cut] },
  'desk, dark': { size: desk, dark: true, checks: [axe] },
  'tablet': { size: { width: 820, height: 1180 }, checks: [wide, cut] },
  // SC 1.3.4, Orientation: the phone held the other way.
  'phone on its side': { size: { width: 640, height: 360 }, checks: [wide] },
  // SC 1.4.10, Reflow: 320 by 256 CSS pixels, which is 1280 by 1024 at 400 %.
  'reflow': { size: { width: 320, height: 256 }, checks: [wide] },
  // SC 1.4.4, Resize Text: twice the size that the reader's browser has otherwise.
  'text at 200 %': { size: phone, change: (page, on) => enlarge(page, on), checks: [wide, cut] },
  'text at 200 %, desk': { size: desk, change: (page, on) => enlarge(page, on), checks: [wide, cut] },
  'text spacing': { size: phone, change: spacing, checks: [wide, cut] }, // SC 1.4.12, Text Spacing
  // No criterion of level A or AA: right to left, as for readers of Arabic or Hebrew.
  'right to left': { size: phone, change: turned, checks: [wide] },
  'keys, phone': { size: phone, checks: [keyboard] },
  'keys, desk': { size: desk, checks: [keyboard] },
};

async function enlarge(page, on) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Page.setFontSizes', { fontSizes: { standard: on ? 32 : 16, fixed: on ? 26 : 13 } });
  await cdp.detach();
}

async function look(page, { name, path, looks: wanted, status = 200 }) {
  await page.setViewportSize(phone);
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  const answer = await page.goto(path);
  if (answer.status() !== status) faults.push(`${name}: answered ${answer.status()}, not ${status}`);
  counts.pages++;
  await unfold(page);
  for (const state of wanted) {
    const { size, dark, change, checks } = looks[state];
    await page.setViewportSize(size);
    await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' });
    await change?.(page, true);
    for (const check of checks) {
      for (const wrong of await check(page)) faults.push(`${name}, ${state}: ${wrong}`);
      if (check === axe) counts.axe++;
    }
    await change?.(page, false);
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
// script that fails. That the page itself is a refusal is no complaint of it.
function listen(page) {
  const refusal = (m) => m.location().url === page.url() && m.text().startsWith('Failed to load resource');
  page.on('console', (m) => m.type() === 'error' && !refusal(m) && faults.push(`${page.url()}: console: ${m.text()}`));
  page.on('pageerror', (e) => faults.push(`${page.url()}: ${e.message}`));
}

try {
  for (const visitor of job.visitors) await visit(visitor);
  process.stdout.write(JSON.stringify({ counts, faults }));
} finally {
  await browser.close();
}
