// A passkey in a real browser with its virtual authenticator: add one, sign out,
// sign in with it, sign a demonstration with it. What to do comes as JSON on
// standard input; what came of it leaves as JSON on standard output.

import { ring } from './authenticators.mjs';
import { browser, faults, job, look, open } from './browser.mjs';

async function signIn(page) {
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(job.email);
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForURL((u) => u.pathname !== '/sign-in');
}

async function add(page) {
  await page.goto(job.record);
  if (await page.locator('form[aria-labelledby="sign-observer"]').getByRole('button', { name: 'Sign with a passkey' }).isVisible()) faults.push('a passkey is offered to somebody who has none');
  await page.goto('/account/passkeys');
  await look(page, 'passkeys-none');
  await page.getByLabel('Name').fill('This phone');
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByText('The passkey is added.').waitFor();
  await page.getByText('This phone').first().waitFor();
  await look(page, 'passkeys');
}

async function signOut(page) {
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL('**/sign-in');
}

async function signInWithPasskey(page) {
  await page.goto(`/sign-in?next=${encodeURIComponent(job.record)}`);
  await look(page, 'sign-in');
  await page.getByRole('link', { name: 'Sign in with a passkey' }).click();
  await page.waitForURL(`**${job.record}`);
}

// sign is first tried by somebody whom the authenticator does not know: nothing is
// signed, and the page says so; then by its owner.
async function sign(page, device) {
  await look(page, 'record');
  await device.verified(false);
  await page.locator('form[aria-labelledby="sign-observer"]').getByRole('button', { name: 'Sign with a passkey' }).click();
  await page.getByText('The passkey was not used').waitFor();
  await page.getByText('I observed and judged this.').waitFor();
  await look(page, 'passkey-sign');
  await device.verified(true);
  await page.getByRole('button', { name: 'Sign with my passkey' }).click();
  await page.getByText('Signed by').first().waitFor();
  await look(page, 'signed');
}

try {
  const page = await open();
  const device = await ring(page);
  await signIn(page);
  await add(page);
  await signOut(page);
  await signInWithPasskey(page);
  await sign(page, device);
  const keys = await device.all();
  process.stdout.write(JSON.stringify({ keys: keys.length, resident: keys[0]?.isResidentCredential, party: keys[0]?.rpId, used: keys[0]?.signCount, faults }));
} finally {
  await browser.close();
}
