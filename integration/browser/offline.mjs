// A circuit change at a bedside without network, and without a server: marked, killed
// in the middle, gone on with, finished; then sent, signed by both and certified. What
// to do comes as JSON on standard input; what came of it leaves on standard output.

import { readFileSync } from 'node:fs';
import { all, arrive, begin, enrol, mark, settled, sign, value } from './bedside.mjs';
import { Tablet } from './tablet.mjs';

const job = JSON.parse(readFileSync(0, 'utf8'));
const faults = [];
const tablet = new Tablet(job.chromium, job.profile, faults);
const server = (what) => fetch(`${job.control}/${what}`, { method: 'POST' });
const heading = (name) => tablet.page.getByRole('heading', { level: 1, name });

async function give(step) {
  const { page } = tablet;
  for (const [name, text] of Object.entries(step.values ?? {})) await value(page, name, text);
  await mark(page, step.mark);
  await settled(page, step.number);
}

// interrupt kills the browser right after a mark was shown as kept, while a clock runs.
async function interrupt(next) {
  const [timed] = Object.keys(next.values);
  await tablet.page.getByRole('button', { name: `Start clock: ${timed}` }).click();
  const stopClock = () => tablet.page.getByRole('button', { name: `Stop clock: ${timed}` });
  await stopClock().waitFor();
  const [before] = await all(tablet.page);
  await tablet.kill();
  await tablet.start();
  await tablet.page.goto(`${job.base}/bedside/`);
  const [after] = await all(tablet.page);
  if (JSON.stringify(before) !== JSON.stringify(after)) faults.push(`after the kill the device keeps ${JSON.stringify(after)}, before it ${JSON.stringify(before)}`);
  await tablet.page.getByRole('link', { name: /^Go on marking/ }).click();
  await stopClock().click();
  await tablet.page.getByRole('button', { name: new RegExp(`^${timed}: [0-9]`) }).waitFor();
  const [stopped] = await all(tablet.page);
  const read = stopped.marks[next.number]?.readings?.[timed];
  if (!(Number(read?.value) > 0)) faults.push(`the clock that ran through the kill reads ${JSON.stringify(read)}`);
}

// draw signs with a finger where there is room for it.
async function draw() {
  const { page } = tablet;
  await page.getByRole('link', { name: `Hand over to ${job.learner}` }).click();
  const box = await page.locator('main svg.drawing').first().boundingBox();
  await page.mouse.move(box.x + 20, box.y + box.height / 2);
  await page.mouse.down();
  for (let i = 1; i <= 20; i++) await page.mouse.move(box.x + 20 + (box.width - 40) * (i / 20), box.y + box.height * (0.5 + 0.3 * Math.sin(i)));
  await page.mouse.up();
  await page.getByRole('link', { name: 'Give the device back' }).click();
  await page.getByText('Drawn.').waitFor();
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

try {
  await tablet.start();
  await arrive(tablet.page, job);
  await enrol(tablet.page, 'Ward tablet');
  await server('kill');
  await tablet.cut(true);
  await tablet.page.reload();
  await begin(tablet.page, { observe: `Observe ${job.title}, ${job.learner}, for Mira, 7K`, learner: job.learner, real: true, formal: true, place: 'at home' });
  for (const step of job.steps) {
    if (step.number === job.interruptAt) await interrupt(step);
    await give(step);
  }
  await finish();
  const [sheet] = await all(tablet.page);
  await server('start');
  await tablet.cut(false);
  await tablet.page.goto(`${job.base}/bedside/#/after/${sheet.id}`);
  const signedOut = tablet.page.getByRole('link', { name: 'Sign in' });
  await heading('The office has it: competent').or(signedOut).first().waitFor();
  if (await signedOut.isVisible()) { // cookies are saved by the browser now and then only
    await arrive(tablet.page, job);
    await tablet.page.goto(`${job.base}/bedside/#/after/${sheet.id}`);
    await heading('The office has it: competent').waitFor();
  }
  await sign(tablet.page, 'learner', job.learner, job.password);
  await sign(tablet.page, 'observer', job.observer, job.password);
  await tablet.page.getByText('The certificate is issued').waitFor();
  process.stdout.write(JSON.stringify({ id: sheet.id, text: sheet.text, faults }));
} catch (fault) {
  console.error(tablet.page.url(), await tablet.page.locator('body').innerText().catch(() => 'no page'), faults);
  throw fault;
} finally {
  await tablet.kill();
}
