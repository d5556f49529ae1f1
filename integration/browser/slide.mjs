// At the coordinator's desk: the day of the grid is slid by the keyboard and read each time,
// and a visit is dragged on the board of a week to another educator and day. The job says which.

import { browser, desk, faults, job, look, open } from './browser.mjs';

async function signIn(page) {
  await page.goto('/sign-in');
  await page.getByLabel('E-mail', { exact: true }).fill(job.email);
  await page.getByLabel('Password', { exact: true }).fill(job.password);
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Shifts that break' }).waitFor();
}

// read is what the grid shows of the one person and the one skill, and the day it says. A day on
// which nothing was needed or known shows no standing, which is that nothing was started.
async function read(page) {
  const on = await page.getByLabel('On the day').inputValue();
  const at = (await page.locator('table.grid thead th').allTextContents()).findIndex((t) => t.includes(job.skill));
  const row = page.locator('table.grid tbody tr').filter({ hasText: job.who });
  const words = (await row.count()) ? await row.locator(':scope > *').nth(at).locator('.vh').first().textContent() : 'not needed';
  const word = words.split(',')[0].trim();
  return { on, word: word === 'not needed' || word === 'no standing' ? 'not started' : word };
}

// slide presses a key on the slider and waits until the page of that day has come.
async function slide(page, key) {
  const range = page.getByLabel('Slide the day');
  await range.focus();
  const before = page.url();
  await page.keyboard.press(key);
  await page.waitForURL((url) => url.href !== before);
  const on = new URL(page.url()).searchParams.get('on');
  if (await page.getByLabel('On the day').inputValue() !== on) faults.push(`${key}: the field and the address name two days`);
  if (!(await range.evaluate((e) => e === document.activeElement))) faults.push(`${key}: the slider has lost the focus`);
  return read(page);
}

// drag takes the visit to another cell of its week, and confirms it.
async function drag(page) {
  await page.goto('/visits');
  const visit = page.locator(`table.board a[href="/visits/${job.visit}"]`);
  await look(page, 'visits-board');
  await visit.dragTo(page.locator(`table.board td[data-day="${job.on}"][data-educator="${job.to}"]`));
  await page.waitForURL(/educator=/);
  const before = await page.request.get(`/api/v1/visits/${job.visit}`).then((r) => r.json());
  await look(page, 'visits-dragged');
  await page.getByRole('button', { name: 'Move it' }).click();
  await page.getByText('The visit is moved.').waitFor();
  return before.visit.on;
}

try {
  const page = await open(desk);
  await signIn(page);
  await page.goto('/standings');
  const days = [await read(page)];
  for (const key of job.keys) days.push(await slide(page, key));
  await look(page, 'standings-slid');
  const before = await drag(page);
  process.stdout.write(JSON.stringify({ days, before, faults }));
} catch (fault) {
  for (const page of browser.contexts().flatMap((c) => c.pages())) console.error(page.url(), 'shows:', await page.locator('body').innerText().catch(() => ''));
  throw fault;
} finally {
  await browser.close();
}
