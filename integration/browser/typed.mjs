// What was typed while a session ended: it comes back to whoever typed it and to nobody else,
// never as something that was sent. The job says who they are.

import { browser, desk, faults, job, look, open } from './browser.mjs';

async function signIn(page, email) {
  await page.getByLabel('E-mail', { exact: true }).fill(email);
  await page.getByLabel('Password', { exact: true }).fill(job.password);
  await page.keyboard.press('Enter');
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'));
}

// ended ends the session as another tab of the same browser would.
const ended = (page) => page.context().clearCookies();
const left = (page) => page.evaluate(() => sessionStorage.getItem('wellshown typed'));

const value = (page) => page.getByLabel(job.label).first().inputValue();

async function write(page) {
  await page.goto(job.at);
  await page.getByLabel(job.label).first().fill(job.text);
}

async function send(page) {
  await page.locator(`form[action="${job.action}"] button[type=submit]`).first().click();
}

async function comesBack(page) {
  await write(page);
  await ended(page);
  await send(page);
  await page.getByText('This tab has kept what you typed').waitFor();
  await look(page, 'typed-signed-out');
  const secret = await left(page);
  await signIn(page, job.email);
  await page.getByText('What you typed is here again').waitFor();
  await look(page, 'typed-again');
  return { value: await value(page), secret, left: await left(page), focus: await page.evaluate(() => document.activeElement.textContent) };
}

async function notToOthers(page) {
  await write(page);
  await ended(page);
  await send(page);
  await page.getByText('This tab has kept what you typed').waitFor();
  await signIn(page, job.other);
  await page.goto(job.at);
  return { value: await value(page), left: await left(page) };
}

// changedMeanwhile comes back to a form that asks something else than the one that was sent.
async function changedMeanwhile(page) {
  await write(page);
  await ended(page);
  await page.locator(`form[action="${job.action}"]`).evaluate((form) => form.querySelector('[name=relation]').remove());
  await send(page);
  await page.getByText('This tab has kept what you typed').waitFor();
  await signIn(page, job.email);
  await page.getByText('This page has changed since').waitFor();
  await look(page, 'typed-apart');
  return { value: await value(page), text: await page.locator('.flash blockquote').allInnerTexts(), left: await left(page) };
}

// sentBefore sends a form that leads to no page, and then one in which nothing is typed, which
// is lost.
async function sentBefore(page) {
  await write(page);
  await page.route(`**${job.action}`, (route) => route.fulfill({ status: 204 }), { times: 1 });
  const answered = page.waitForResponse((r) => r.status() === 204);
  await send(page);
  await answered;
  await ended(page);
  await page.locator(`form[action="${job.action}"]`).evaluate((form) => form.querySelectorAll('input:not([type=hidden]), select, textarea').forEach((e) => e.remove()));
  await send(page);
  await page.getByText('You were signed out').waitFor();
  return { left: await left(page), said: await page.getByText('This tab has kept what you typed').isVisible() };
}

// another comes back to the same form about another thing: one that has a version has its id.
async function another(page) {
  await page.route((url) => url.pathname === job.at, async (asked) => {
    const answer = await asked.fetch();
    const body = await answer.text();
    return asked.fulfill({ response: answer, body: body.replace('<input type="hidden" name="id"', '<input type="hidden" name="version" value="1">$&') });
  });
  await write(page);
  const id = () => page.locator(`form[action="${job.action}"] [name=id]`).inputValue();
  const was = await id();
  await ended(page);
  await send(page);
  await page.getByText('This tab has kept what you typed').waitFor();
  await page.goto('/sign-in'); // not straight back: what a redirect leads to is not changed above
  await signIn(page, job.email);
  await page.goto(job.at);
  await page.getByText('This page has changed since').waitFor();
  return { value: await value(page), text: await page.locator('.flash blockquote').allInnerTexts(), left: (await left(page)) ?? '', same: was === (await id()) };
}

try {
  const page = await open(desk);
  await page.goto('/sign-in');
  await signIn(page, job.email);
  const again = await comesBack(page);
  await send(page);
  await page.getByText(job.done).waitFor();
  const sent = await left(page);
  await page.goto(job.at);
  const afterSent = await left(page);
  const others = await notToOthers(page);
  await page.context().clearCookies();
  await page.goto('/sign-in');
  await signIn(page, job.email);
  const changed = await changedMeanwhile(page);
  const apart = await another(page);
  const before = await sentBefore(page);
  process.stdout.write(JSON.stringify({ again, sent, afterSent, others, changed, apart, before, faults }));
} catch (fault) {
  for (const page of browser.contexts().flatMap((c) => c.pages())) console.error(page.url(), 'shows:', await page.locator('body').innerText().catch(() => ''));
  throw fault;
} finally {
  await browser.close();
}
