// A circuit change at a bedside without network, and without a server: marked, killed
// in the middle, gone on with, finished; then sent, signed by both and certified. What
// to do comes as JSON on standard input; what came of it leaves on standard output.

import { readFileSync } from 'node:fs';
import { Tablet } from './tablet.mjs';

const job = JSON.parse(readFileSync(0, 'utf8'));
const faults = [];
const tablet = new Tablet(job.chromium, job.profile, faults);
const server = (what) => fetch(`${job.control}/${what}`, { method: 'POST' });
const heading = (name) => tablet.page.getByRole('heading', { level: 1, name });

async function signIn(page) {
  await page.getByLabel('E-mail').fill(job.email);
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL((u) => u.pathname !== '/sign-in');
}

async function prepare() {
  const { page } = tablet;
  await page.goto(`${job.base}/sign-in`);
  await signIn(page);
  await page.goto(`${job.base}/bedside/`);
  await page.getByRole('link', { name: 'Enrol this device' }).click();
  await page.getByLabel('Name of this device').fill('Ward tablet');
  await page.getByRole('button', { name: 'Enrol this device' }).click();
  await heading('Whom do you see?').waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready);
}

async function begin() {
  const { page } = tablet;
  await page.getByRole('link', { name: `Observe ${job.title}, ${job.learner}, for Mira, 7K` }).click();
  await heading(job.learner).waitFor();
  await page.getByLabel('the child', { exact: true }).check();
  await page.getByLabel('a formal demonstration').check();
  await page.getByLabel('Place').fill('at home');
  await page.getByRole('button', { name: `This is ${job.learner}` }).click();
  await page.locator('#step').waitFor();
}

// value types a reading on the pad; the stop-watch is used where it can tell nothing
// about the step.
async function value(name, text) {
  const { page } = tablet;
  await page.getByRole('button', { name: `${name}: Type it in` }).click();
  const pad = page.getByRole('dialog');
  for (const digit of text) await pad.getByRole('button', { name: digit === '.' ? 'Decimal point' : digit, exact: true }).click();
  await pad.getByRole('button', { name: 'Keep the value' }).click();
  await pad.waitFor({ state: 'detached' });
}

const kept = () => tablet.page.evaluate(() => new Promise((done, failed) => {
  const asked = indexedDB.open('wellshown-bedside');
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const all = asked.result.transaction('sheets').objectStore('sheets').getAll();
    all.onsuccess = () => { asked.result.close(); done(all.result); };
    all.onerror = () => failed(all.error);
  };
}));

async function mark(step) {
  const { page } = tablet;
  await page.locator('.line.now .num', { hasText: new RegExp(`^Step ${step.number}$`) }).waitFor();
  for (const [name, text] of Object.entries(step.values ?? {})) await value(name, text);
  const word = await page.locator('#step').textContent();
  await page.getByRole('button', { name: step.mark, exact: true }).click();
  await page.waitForFunction((word) => document.querySelector('#step')?.textContent !== word, word);
}

// interrupt kills the browser right after a mark was shown as kept, while a clock runs.
async function interrupt(next) {
  const timed = Object.keys(next.values ?? {})[0];
  await tablet.page.locator('.line.now .num', { hasText: new RegExp(`^Step ${next.number}$`) }).waitFor();
  await tablet.page.getByRole('button', { name: /^Start/ }).first().click();
  await tablet.page.getByRole('button', { name: /^Stop(?! for safety)/ }).first().waitFor();
  const [before] = await kept();
  await tablet.kill();
  await tablet.start();
  await tablet.page.goto(`${job.base}/bedside/`);
  const [after] = await kept();
  if (JSON.stringify(before) !== JSON.stringify(after)) faults.push(`after the kill the device keeps ${JSON.stringify(after.marks)}, before it ${JSON.stringify(before.marks)}`);
  await tablet.page.getByRole('link', { name: /^Go on marking/ }).click();
  await tablet.page.getByRole('button', { name: /^Stop(?! for safety)/ }).first().click();
  const [stopped] = await kept();
  const read = stopped.marks[next.number]?.readings?.[timed];
  if (!(Number(read?.value) > 0)) faults.push(`the clock that ran through the kill reads ${JSON.stringify(read)}`);
  // What it read took a restart of the browser: the step's own value is put in its place.
  await tablet.page.getByRole('button', { name: new RegExp(`^${timed}: `) }).click();
  await tablet.page.getByRole('button', { name: 'Take it away' }).click();
  await tablet.page.getByRole('dialog').waitFor({ state: 'detached' });
}

// draw signs with a finger where there is room for it.
async function draw() {
  const { page } = tablet;
  const box = await page.locator('main svg.drawing').first().boundingBox();
  await page.mouse.move(box.x + 20, box.y + box.height / 2);
  await page.mouse.down();
  for (let i = 1; i <= 20; i++) await page.mouse.move(box.x + 20 + (box.width - 40) * (i / 20), box.y + box.height * (0.5 + 0.3 * Math.sin(i)));
  await page.mouse.up();
}

async function finish() {
  const { page } = tablet;
  await heading('Provisional: competent').waitFor();
  await page.getByRole('textbox', { name: 'What you said and heard' }).fill('Calm and sure; said each alarm aloud.');
  await page.getByRole('textbox', { name: 'What to practise next' }).fill('The bag, with one hand.');
  await heading('Provisional: competent').click(); // leaves the field, which keeps it
  await draw();
  await page.getByRole('button', { name: `This is ${job.learner}: finish and keep` }).click();
  await page.waitForURL('**#/after/*');
}

async function sign() {
  const { page } = tablet;
  await page.getByLabel(`Password of ${job.learner}`).fill(job.password);
  await page.getByRole('button', { name: 'Sign as learner' }).click();
  await page.getByText(`${job.learner} has signed`).waitFor();
  await page.getByLabel(/^(Password|PIN) of Edda Lorne/).fill(job.password);
  await page.getByRole('button', { name: 'Sign as observer' }).click();
  await page.getByText('The certificate is issued').waitFor();
}

try {
  await tablet.start();
  await prepare();
  await server('kill');
  await tablet.cut(true);
  await tablet.page.reload();
  await begin();
  for (const step of job.steps) {
    if (step.number === job.interruptAt) await interrupt(step);
    await mark(step);
  }
  await finish();
  const [sheet] = await kept();
  await server('start');
  await tablet.cut(false);
  await tablet.page.goto(`${job.base}/bedside/#/after/${sheet.id}`);
  const signedOut = tablet.page.getByRole('link', { name: 'Sign in' });
  await heading('The office has it: competent').or(signedOut).first().waitFor();
  if (await signedOut.isVisible()) { // cookies are saved by the browser now and then only
    await signedOut.click();
    await signIn(tablet.page);
    await tablet.page.goto(`${job.base}/bedside/#/after/${sheet.id}`);
    await heading('The office has it: competent').waitFor();
  }
  await sign();
  process.stdout.write(JSON.stringify({ id: sheet.id, text: sheet.text, faults }));
} catch (fault) {
  console.error(tablet.page.url(), await tablet.page.locator('body').innerText().catch(() => 'no page'), faults);
  throw fault;
} finally {
  await tablet.kill();
}
