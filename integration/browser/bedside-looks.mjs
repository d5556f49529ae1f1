// Has every state of the page at the bedside looked at, or, where the job names a
// folder, pictures taken of it.

import { walk } from './bedside-walk.mjs';
import { browser, faults, job } from './browser.mjs';
import { lookAt, looks, phone } from './looks.mjs';
import { drawn, emptied, sheet, sizes } from './pictures.mjs';
import { axe } from './wcag.mjs';

const counts = { pages: 0, states: 0, axe: 0 };
const inDialog = (page) => page.locator('dialog[open]').count();

// look gives a state every look of the job. Where a question stands in front of the
// page, the keys are kept to it, and nothing behind it is a stop.
async function look(name, page, { asItIs } = {}) {
  counts.pages++;
  if (asItIs) return; // time stands still there, and no program can look
  for (const state of job.looks) {
    if (state.startsWith('keys') && await inDialog(page)) continue;
    for (const wrong of await lookAt(page, state)) faults.push(`${name}, ${state}: ${wrong}`);
    if (looks[state].checks.includes(axe)) counts.axe++;
    counts.states++;
  }
  await small(name, page);
  await page.setViewportSize(phone);
  await page.emulateMedia({ colorScheme: 'light' });
}

// small finds what is hard to hit with gloves on: 56 px is what the bedside asks of
// the marks and the stop, more than SC 2.5.5, Target Size (Enhanced), of level AAA.
async function small(name, page) {
  const found = await page.evaluate(() => [...document.querySelectorAll('.give, #stop, .key')]
    .filter((e) => e.checkVisibility()).filter((e) => Math.min(e.offsetWidth, e.offsetHeight) < 56).map((e) => e.id || e.textContent));
  for (const e of found) faults.push(`${name}: less than 56 px: ${e}`);
}

// picture takes what is in sight, or of a state that is a long list the whole of it.
async function picture(name, page, { asItIs, whole } = {}) {
  const file = (size) => `${job.out}/${name.replaceAll(/[ ,]+/g, '-')}-${size}`;
  if (asItIs) {
    await page.screenshot({ path: file('360x640-light.png') });
    return;
  }
  for (const size of sizes) {
    await page.setViewportSize(size);
    for (const colorScheme of ['light', 'dark']) {
      await page.emulateMedia({ colorScheme });
      await drawn(page);
      await page.screenshot({ path: file(`${size.width}x${size.height}-${colorScheme}.png`), fullPage: whole });
    }
  }
  await page.setViewportSize(phone);
  await page.emulateMedia({ colorScheme: 'light' });
  counts.pages++;
}

try {
  const context = await browser.newContext({ baseURL: job.base, viewport: phone, reducedMotion: 'reduce' });
  context.setDefaultTimeout(20000);
  await context.addCookies([{ ...job.cookie, url: job.base }]);
  context.on('weberror', (e) => faults.push(`${e.page()?.url()}: ${e.error().message}`));
  if (job.out) emptied(job.out);
  await walk(context, job.out ? picture : look);
  process.stdout.write(JSON.stringify({ counts, pictures: job.out ? sheet(job.out) : 0, faults }));
} catch (fault) {
  for (const page of browser.contexts().flatMap((c) => c.pages())) console.error(page.url(), 'shows:', await page.locator('body').innerText().catch(() => ''));
  throw fault;
} finally {
  await browser.close();
}
