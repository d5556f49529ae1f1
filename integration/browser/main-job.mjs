// The main job in a real browser, as an educator does it at a bedside with a
// phone: sign in, begin a circuit change, mark every step, look it over, record,
// sign by both on one device, save the certificate. What to do comes as JSON on
// standard input; what came of it leaves as JSON on standard output.

import { readFileSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { chromium } from 'playwright-core';

const job = JSON.parse(readFileSync(0, 'utf8'));
const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const faults = [];

const browser = await chromium.launch({
  executablePath: job.chromium,
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
});

async function open() {
  const context = await browser.newContext({
    viewport: { width: 360, height: 780 }, isMobile: true, hasTouch: true, javaScriptEnabled: job.javaScript, baseURL: job.base,
  });
  const page = await context.newPage();
  page.on('console', (m) => m.type() === 'error' && faults.push(`${page.url()}: console: ${m.text()}`));
  page.on('pageerror', (e) => faults.push(`${page.url()}: ${e.message}`));
  page.setDefaultTimeout(15000);
  return page;
}

// look holds every page to the width of the phone, to WCAG 2.2 AA as far as a
// program can tell, and to tap targets of 48 px, at the bedside 56.
async function look(page, name, least = 48) {
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

async function signIn(page) {
  await page.goto('/sign-in');
  await look(page, 'sign-in');
  await page.getByLabel('E-mail').fill(job.email);
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL((u) => u.pathname !== '/sign-in');
}

async function begin(page) {
  await page.goto(job.start);
  await look(page, 'start');
  await page.getByLabel('the child', { exact: true }).check();
  await page.getByLabel('a formal demonstration').check();
  await page.getByLabel('Place').fill('at home');
  await page.getByRole('button', { name: 'Begin marking' }).click();
  await page.waitForURL('**/marks');
}

// timeWithClock uses the stop-watch, which is there only with JavaScript.
async function timeWithClock(page) {
  const clock = page.getByRole('button', { name: 'Start clock' }).first();
  if (!job.javaScript) {
    if (await clock.isVisible()) faults.push('a stop-watch shows that cannot run');
    return;
  }
  await clock.click();
  await page.getByRole('button', { name: 'Stop clock' }).click();
  const read = await page.locator('input[name="value-time to alarm"]').inputValue();
  if (!/^\d+\.\d$/.test(read)) faults.push(`the clock reads ${read}`);
}

async function markAll(page) {
  for (const step of job.steps) {
    await page.getByRole('heading', { level: 1 }).waitFor();
    const action = await page.locator('form.current').getAttribute('action');
    if (!action.endsWith(`/marks/${step.number}`)) throw new Error(`step ${step.number} is due and ${action} is shown`);
    if (step.number === 18) await timeWithClock(page);
    for (const [name, value] of Object.entries(step.values ?? {})) await page.locator(`input[name="value-${name}"]`).fill(value);
    if ([1, 3, 5].includes(step.number)) await look(page, `step-${step.number}`);
    await page.getByRole('button', { name: step.mark, exact: true }).click();
    await page.waitForURL((u) => !u.pathname.endsWith(`/marks/${step.number}`) && !u.pathname.endsWith('/marks'));
  }
  await page.waitForURL('**/review');
}

async function recordAndSign(page) {
  await look(page, 'review');
  await page.getByRole('button', { name: 'Record it' }).click();
  await page.getByRole('button', { name: 'Sign as observer' }).waitFor();
  await look(page, 'record');
  await page.locator('form[aria-labelledby="sign-observer"]').getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Sign as observer' }).click();
  await page.getByText('Signed by').first().waitFor();
  await page.locator('form[aria-labelledby="sign-learner"]').getByLabel('Password').fill(job.learnerPassword);
  await page.getByRole('button', { name: 'Sign as learner' }).click();
  await page.getByText('Signed by both').first().waitFor();
  await look(page, 'signed');
}

async function certificate(page) {
  await page.getByRole('link', { name: 'See the certificate' }).click();
  await page.getByRole('heading', { level: 1, name: 'This certificate holds today' }).waitFor();
  await look(page, 'certificate');
  const href = await page.getByRole('link', { name: 'Print the certificate (PDF)' }).getAttribute('href');
  const answer = await page.context().request.get(href);
  if (answer.headers()['content-type'] !== 'application/pdf') faults.push(`the certificate is ${answer.headers()['content-type']}`);
  await writeFile(job.pdf, await answer.body());
  const check = await page.getByRole('link', { name: 'see whether it still holds' }).getAttribute('href');
  await page.goto(check);
  await page.getByRole('heading', { level: 1, name: 'It holds today' }).waitFor();
  await look(page, 'check');
  return new URL(check, job.base).href;
}

try {
  const page = await open();
  await signIn(page);
  await begin(page);
  await markAll(page);
  await recordAndSign(page);
  const check = await certificate(page);
  process.stdout.write(JSON.stringify({ check, faults }));
} finally {
  await browser.close();
}
