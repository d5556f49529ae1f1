// Signs a sheet of the bedside with passkeys: both signers have one, on authenticators
// of their own (Chrome DevTools Protocol, domain WebAuthn). What to do comes as JSON on
// standard input; what came of it leaves as JSON on standard output.

import { arrive, begin, enrol, go, kept, mark, setClock, stopForSafety } from './bedside.mjs';
import { browser, faults, job, look, open } from './browser.mjs';
import { ring } from './authenticators.mjs';

// as is a text in the language of whose turn it is, by its English.
const as = (part, text, ...args) => args.reduce((t, arg) => t.replace('%s', arg), part === 'learner' ? job.theirs[text] : text);

// add has somebody add a passkey to their account, in a window of their own.
async function add(part, email) {
  const page = await open();
  await setClock(page.context(), job.now);
  const keys = await ring(page);
  await page.goto('/sign-in?next=/account/passkeys');
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.getByLabel(as(part, 'Name')).fill('Own phone');
  await page.getByLabel(as(part, 'Password')).fill(job.password);
  await page.getByRole('button', { name: as(part, 'Go on') }).click();
  await page.getByText(as(part, 'The passkey is added. You can sign in with it, and sign records.')).waitFor();
  const [key] = await keys.all();
  await page.context().close();
  return key;
}

// stopped finishes a sheet that was stopped for safety, which is the shortest.
async function stopped(page) {
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await mark(page, 'Independent');
  await go(page, 2);
  await stopForSafety(page);
  await page.getByRole('button', { name: `This is ${job.learner}: finish and keep` }).click();
  await page.getByRole('heading', { level: 1, name: 'The office has it: stopped for safety' }).waitFor();
}

const box = (page, name, part) => page.locator('.sign').filter({ hasText: name }).filter({ hasText: as(part, '“%s”', as(part, job.meanings[part])) });

// ask has the office ask somebody for their passkey.
async function ask(page, name, part) {
  await box(page, name, part).getByRole('button', { name: as(part, 'Sign with a passkey') }).click();
  await page.getByRole('heading', { name: as(part, '%s, sign with a passkey', name) }).waitFor();
  const says = page.locator('.sign .statement').filter({ hasText: job.learner });
  const language = await says.evaluate((e) => e.closest('[lang]').lang);
  const words = await says.innerText();
  if (language !== (part === 'learner' ? job.language : 'en')) faults.push(`${part}: what is signed is in ${language}: ${words}`);
  if (!words.includes(as(part, job.meanings[part]))) faults.push(`${part}: what is signed says ${words}`);
}

const notUsed = (part, name) => as(part, 'The passkey was not used, and nothing was signed. This device may have none of %s, or could not tell that it was them. Try again, or go back and use the password.', name);
const elsewhere = 'This passkey was not accepted: it is somebody else’s, or it was removed here. Nothing was done. Whoever’s turn it is uses a passkey or password of their own.';

const unsigned = async (page, when) => {
  if (await page.getByText('has signed.').count()) faults.push(`something is signed ${when}`);
};

// elses has somebody else's passkey tried: the browser finds none of the signer's, and
// where it is made to use the other one all the same, the office refuses it.
async function elses(page, keys, own, other) {
  await keys.hold(other);
  await ask(page, job.learner, 'learner');
  await page.getByText(notUsed('learner', job.learner)).waitFor();
  await unsigned(page, 'with a device that has none of the signer');
  await look(page, 'bedside-passkey-none');
  await page.getByRole('button', { name: as('learner', 'Go back without signing') }).click();
  await page.route('**/passkey-question', async (route) => {
    const answer = await route.fetch();
    const body = await answer.json();
    const options = JSON.parse(body.options);
    options.allowCredentials = [{ type: 'public-key', id: other.credentialId.replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '') }];
    await route.fulfill({ response: answer, json: { ...body, options: JSON.stringify(options) } });
  });
  await box(page, job.learner, 'learner').getByRole('button', { name: as('learner', 'Sign with a passkey') }).click();
  await page.getByText(as('learner', elsewhere)).waitFor();
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
  await page.getByText(notUsed(part, name)).waitFor();
  if (await page.getByText(`${name} has signed.`).count()) faults.push(`${part}: signed by whoever could not show who they are`);
  await look(page, `bedside-passkey-${part}`);
  await keys.verified(true);
  await page.getByRole('button', { name: as(part, 'Sign with my passkey') }).click();
  if (part === 'learner') await page.getByRole('link', { name: as('learner', 'Give the device back') }).click();
  await page.getByText(`${name} has signed.`).waitFor();
}

try {
  const learners = await add('learner', job.learnerEmail);
  const observers = await add('observer', job.email);
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
