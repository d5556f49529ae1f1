// What every script of this folder needs: the job that comes as JSON on standard
// input, a real browser, and eyes for what is wrong with a page.

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium } from 'playwright-core';

export const job = JSON.parse(readFileSync(0, 'utf8'));
export const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
export const faults = [];

export const browser = await chromium.launch({
  executablePath: job.chromium,
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
});

const phone = { viewport: { width: 360, height: 780 }, isMobile: true, hasTouch: true };

// desk is a screen with a keyboard and a mouse, for open.
export const desk = { viewport: { width: 1280, height: 800 } };

export async function open(device = phone) {
  const context = await browser.newContext({ ...device, javaScriptEnabled: job.javaScript, baseURL: job.base });
  const page = await context.newPage();
  page.on('console', (m) => m.type() === 'error' && faults.push(`${page.url()}: console: ${m.text()}`));
  page.on('pageerror', (e) => faults.push(`${page.url()}: ${e.message}`));
  page.setDefaultTimeout(15000);
  return page;
}

// look holds every page to the width of the phone, to WCAG 2.2 AA as far as a
// program can tell, and to tap targets of 48 px, at the bedside 56.
export async function look(page, name, least = 48) {
  if (job.shots) await page.screenshot({ path: `${job.shots}/${name}.png`, fullPage: true });
  if (!job.javaScript) return;
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  if (wide > 0) faults.push(`${name}: ${wide} px wider than the phone`);
  const small = await page.evaluate((least) => [...document.querySelectorAll('main button.act, main a.act, main .give')]
    .filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < (e.matches('.give') ? 56 : least) - 0.5)
    .map((e) => e.textContent.trim()), least);
  if (small.length) faults.push(`${name}: hard to hit: ${small.join(', ')}`);
  await page.evaluate(axeSource);
  const found = await page.evaluate(() => globalThis.axe.run(document, { runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] } }));
  for (const v of found.violations) faults.push(`${name}: ${v.id}: ${v.nodes.map((n) => n.html).join(' | ')}`);
}
