// A coordinator's morning by the keyboard alone: signs in, sees on the first page that a
// shift breaks, gives it to whoever could take it, and puts the visit on the plan at which
// what lapses is shown again. The job says who. Nothing here touches a pointer.

import { browser, desk, faults, job, look, open } from './browser.mjs';

let presses = 0;

async function press(page, key) {
  presses += 1;
  await page.keyboard.press(key);
}

// sends waits for the page that a press leads to, which may have the same address.
async function sends(page) {
  const next = page.waitForEvent('framenavigated');
  await press(page, 'Enter');
  await next;
  await page.waitForLoadState();
}

// reach goes on with Tab until something has the focus, and wants to see that it has.
async function reach(page, what, locator) {
  await locator.waitFor();
  for (let n = 0; n < 150; n += 1) {
    if (await locator.evaluate((e) => e === document.activeElement)) {
      const seen = await locator.evaluate((e) => e.matches(':focus-visible') && e.checkVisibility());
      if (!seen) faults.push(`${what}: nobody sees that it has the focus`);
      return;
    }
    await press(page, 'Tab');
  }
  throw new Error(`${what} is not reached by the keyboard on ${page.url()}`);
}

async function enter(page, what, locator) {
  await reach(page, what, locator);
  await sends(page);
}

async function type(page, label, text) {
  await reach(page, label, page.getByLabel(label, { exact: true }));
  presses += text.length;
  await page.keyboard.type(text);
}

async function signIn(page) {
  await page.goto('/sign-in');
  await type(page, 'E-mail', job.email);
  await type(page, 'Password', job.password);
  await sends(page);
  await page.getByRole('heading', { name: 'Shifts that break' }).waitFor();
}

// cover gives the shift that breaks to whoever could take it.
async function cover(page) {
  const line = page.locator('.line').filter({ hasText: `${job.breaks}: breaks` }).filter({ hasText: job.weekday });
  await look(page, 'morning-today');
  await enter(page, 'the shift that breaks', line.getByRole('link', { name: 'Find somebody else' }));
  await page.getByRole('heading', { level: 1, name: 'One person could take it' }).waitFor();
  await look(page, 'morning-shift');
  await enter(page, 'giving it', page.getByRole('button', { name: `Give it to ${job.covers}` }));
  await page.getByRole('heading', { level: 1, name: `${job.covers} covers it` }).waitFor();
}

// plan keeps the proposed visit at which what lapses is shown again.
async function plan(page) {
  await enter(page, 'today', page.getByRole('link', { name: 'Today', exact: true }).first());
  await page.getByText('No shift breaks within 14 days').waitFor();
  await enter(page, 'visits', page.getByRole('link', { name: 'Visits of educators' }));
  const box = page.getByRole('checkbox', { name: new RegExp(`at ${job.child}`) }).first();
  await look(page, 'morning-visits');
  await reach(page, 'the proposed visit', box);
  if (!(await box.isChecked())) await press(page, 'Space');
  await enter(page, 'keeping it', page.getByRole('button', { name: 'Put them on the plan' }));
  await page.getByText(/on the plan\./).first().waitFor();
  await look(page, 'morning-planned');
}

try {
  const page = await open(desk);
  await signIn(page);
  await cover(page);
  await plan(page);
  process.stdout.write(JSON.stringify({ presses, faults }));
} catch (fault) {
  for (const page of browser.contexts().flatMap((c) => c.pages())) console.error(page.url(), 'shows:', await page.locator('body').innerText().catch(() => ''));
  throw fault;
} finally {
  await browser.close();
}
