// Signs a sheet of the bedside with passkeys: both signers have one, on authenticators
// of their own (Chrome DevTools Protocol, domain WebAuthn). What to do comes as JSON on
// standard input; what came of it leaves as JSON on standard output.

import { arrive, begin, enrol, go, kept, mark, setClock } from './bedside.mjs';
import { browser, faults, job, look, open } from './browser.mjs';
import { ring } from './authenticators.mjs';

// add has somebody add a passkey to their account, in a window of their own.
async function add(email) {
  const page = await open();
  await setClock(page.context(), job.now);
  const keys = await ring(page);
  await page.goto('/sign-in?next=/account/passkeys');
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.getByLabel('Name').fill('Own phone');
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByText('The passkey is added.').waitFor();
  const [key] = await keys.all();
  await page.context().close();
  return key;
}

// stopped finishes a sheet that was stopped for safety, which is the shortest.
async function stopped(page) {
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await mark(page, 'Independent');
  await go(page, 2);
  await page.getByRole('button', { name: 'Stop for safety' }).click();
  await page.getByRole('dialog').getByRole('button', { name: /^Stop/ }).click();
  await page.getByRole('button', { name: 'Say what happened' }).click();
  await page.getByRole('button', { name: 'Equipment failed' }).click();
  await page.getByRole('button', { name: 'Keep the words' }).click();
  await page.getByRole('button', { name: 'Finish it as it is' }).click();
  await page.getByRole('button', { name: `This is ${job.learner}: finish and keep` }).click();
  await page.getByRole('heading', { level: 1, name: 'The office has it: stopped for safety' }).waitFor();
}

const box = (page, name, part) => page.locator('.sign').filter({ hasText: name }).filter({ hasText: `“${job.meanings[part]}”` });

// ask has the office ask somebody for their passkey.
async function ask(page, name, part) {
  await box(page, name, part).getByRole('button', { name: 'Sign with a passkey' }).click();
  await page.getByRole('heading', { name: `${name}, sign with a passkey` }).waitFor();
}

const unsigned = async (page, when) => {
  if (await page.getByText('has signed.').count()) faults.push(`something is signed ${when}`);
};

// elses has somebody else's passkey tried: the browser finds none of the signer's, and
// where it is made to use the other one all the same, the office refuses it.
async function elses(page, keys, own, other) {
  await keys.hold(other);
  await ask(page, job.learner, 'learner');
  await page.getByText('The passkey was not used, and nothing was signed.').waitFor();
  await unsigned(page, 'with a device that has none of the signer');
  await look(page, 'bedside-passkey-none');
  await page.getByRole('button', { name: 'Go back without signing' }).click();
  await page.route('**/passkey-question', async (route) => {
    const answer = await route.fetch();
    const body = await answer.json();
    const options = JSON.parse(body.options);
    options.allowCredentials = [{ type: 'public-key', id: other.credentialId.replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '') }];
    await route.fulfill({ response: answer, json: { ...body, options: JSON.stringify(options) } });
  });
  await box(page, job.learner, 'learner').getByRole('button', { name: 'Sign with a passkey' }).click();
  await page.getByText('This passkey was not accepted: it is somebody else’s').waitFor();
  await page.unroute('**/passkey-question');
  await unsigned(page, 'with a passkey of somebody else');
  await look(page, 'bedside-passkey-refused');
  await keys.hold(own);
}

// sign signs one part; whoever cannot show that it is them signs nothing.
async function sign(page, keys, key, name, part) {
  await keys.hold(key);
  await keys.verified(false);
  await ask(page, name, part);
  await page.getByText('The passkey was not used, and nothing was signed.').waitFor();
  if (await page.getByText(`${name} has signed.`).count()) faults.push(`${part}: signed by whoever could not show who they are`);
  await look(page, `bedside-passkey-${part}`);
  await keys.verified(true);
  await page.getByRole('button', { name: 'Sign with my passkey' }).click();
  if (part === 'learner') await page.getByRole('link', { name: 'Give the device back' }).click();
  await page.getByText(`${name} has signed.`).waitFor();
}

try {
  const learners = await add(job.learnerEmail);
  const observers = await add(job.email);
  const page = await open();
  await setClock(page.context(), job.now);
  const keys = await ring(page);
  await arrive(page, job);
  await enrol(page, 'Grey tablet');
  await stopped(page);
  await page.reload();
  await page.getByRole('button', { name: 'Sign with a passkey' }).waitFor(); // the office has said that there are passkeys
  await page.getByRole('link', { name: `Hand over to ${job.learner}` }).click();
  await elses(page, keys, learners, observers);
  await sign(page, keys, learners, job.learner, 'learner');
  await sign(page, keys, observers, job.observer, 'observer');
  await page.getByText('Both have signed.').waitFor();
  await look(page, 'bedside-passkey-signed');
  const expected = (f) => f.includes('422');
  process.stdout.write(JSON.stringify({ sheets: await kept(page), faults: faults.filter((f) => !expected(f)) }));
} finally {
  await browser.close();
}
