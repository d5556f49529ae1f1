// The main job in a real browser, as an educator does it at a bedside with a
// phone: sign in, begin a circuit change, mark every step, look it over, record,
// sign by both on one device, save the certificate. What to do comes as JSON on
// standard input; what came of it leaves as JSON on standard output.

import { writeFile } from 'node:fs/promises';
import { browser, faults, job, look, open } from './browser.mjs';

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
