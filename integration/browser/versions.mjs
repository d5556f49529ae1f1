// Another version of the service comes to run while a sheet is marked: the page goes on
// as it was until no sheet is open and somebody takes the new one. What to do comes as
// JSON on standard input; what came of it leaves as JSON on standard output.

import { readFileSync } from 'node:fs';
import { arrive, at, begin, enrol, finish, kept, mark, settled } from './bedside.mjs';
import { Tablet } from './tablet.mjs';

const job = JSON.parse(readFileSync(0, 'utf8'));
const faults = [];
const marks = {};
const tablet = new Tablet(job.chromium, job.profile, faults);
const scripts = job.files.filter((name) => name.endsWith('.js') && name !== 'sw.js').length;
const offer = (page) => page.getByRole('button', { name: 'Use it now' });

// give marks the step that is open and remembers what was shown as kept.
async function give(page, word) {
  const step = await at(page);
  await mark(page, word);
  marks[step] = word.toLowerCase();
  await settled(page, step);
}

// versions counts what a page is made of: the files it gets that are of the new version,
// and the scripts of the new version that run in it.
async function versions(page) {
  const shell = job.files.filter((name) => name !== 'sw.js').map((name) => (name === 'index.html' ? '/bedside/' : `/bedside/${name}`));
  return page.evaluate(async ({ shell, mark }) => {
    const texts = await Promise.all(shell.map(async (address) => (await fetch(address)).text()));
    return { files: texts.filter((text) => text.trimEnd().split('\n').slice(-2).join('\n').includes(mark)).length, running: globalThis.ofAnotherVersion ?? 0 };
  }, { shell, mark: job.mark });
}

async function isAll(page, which, when) {
  const found = await versions(page);
  const want = which === 'new' ? { files: job.files.length - 1, running: scripts } : { files: 0, running: 0 };
  if (JSON.stringify(found) !== JSON.stringify(want)) faults.push(`${when}: the page has ${JSON.stringify(found)} of the new version, not ${JSON.stringify(want)}`);
}

// waits until the browser has the new version in waiting.
const waits = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  await registration.update();
  while (!registration.waiting) await new Promise((done) => setTimeout(done, 50));
});

// asksInVain has the page ask for the new version while a sheet is held: the worker
// itself does not take over.
const asksInVain = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  registration.waiting.postMessage('take over');
  await new Promise((done) => setTimeout(done, 1000));
  return Boolean(registration.waiting);
});

async function inUse(page) {
  await waits(page);
  await isAll(page, 'old', 'with a sheet open');
  await give(page, 'Cued');
  if (!(await asksInVain(page))) faults.push('the new version took over while a sheet was marked');
  await page.reload();
  await page.locator('[aria-current="step"]').waitFor();
  await isAll(page, 'old', 'loaded anew with a sheet open');
  const second = await tablet.open();
  await second.goto(`${job.base}/bedside/`);
  await second.getByRole('link', { name: /^Go on marking/ }).waitFor();
  await isAll(second, 'old', 'in a second tab');
  if (await offer(second).count()) faults.push('the new version is offered while a sheet is open');
  await second.close();
  const [sheet] = await kept(page);
  if (sheet.marks[1] !== 'independent' || sheet.marks[2] !== 'cued') faults.push(`kept are ${JSON.stringify(sheet.marks)}`);
}

// ended finishes the sheet while the office takes none, so that it waits on the device.
async function ended(page) {
  await give(page, 'Independent');
  await give(page, 'Independent');
  await page.route('**/api/v1/bedside/sheets/*', (route) => route.fulfill({ status: 503 }));
  await finish(page, job.learner);
  await page.getByRole('link', { name: 'Back to the people' }).click();
}

async function taken(page) {
  await offer(page).waitFor();
  await isAll(page, 'old', 'with the new version offered');
  const [before] = await kept(page);
  await page.unroute('**/api/v1/bedside/sheets/*');
  await tablet.context.setOffline(true); // what is taken is on the device already
  const loaded = page.waitForEvent('load');
  await offer(page).click();
  await loaded;
  await page.getByRole('link', { name: '1 sheet is not sent yet' }).waitFor();
  const [after] = await kept(page);
  if (JSON.stringify(before) !== JSON.stringify(after)) faults.push(`under the new version the device keeps ${JSON.stringify(after)}, before it ${JSON.stringify(before)}`);
  await isAll(page, 'new', 'after it was taken');
  await tablet.context.setOffline(false);
  await page.getByRole('link', { name: /^What happens next/ }).waitFor();
  if (await offer(page).count()) faults.push('a version is offered that is in use already');
}

try {
  await tablet.start();
  const { page } = tablet;
  await arrive(page, job);
  await enrol(page, 'Ward tablet');
  await begin(page, { observe: job.observe, learner: job.learner, real: false, formal: true, place: 'At home' });
  await give(page, 'Independent');
  await fetch(`${job.control}/upgrade`, { method: 'POST' });
  await inUse(page);
  await ended(page);
  await taken(page);
  process.stdout.write(JSON.stringify({ sheets: await kept(page), marks, faults }));
} catch (fault) {
  console.error(tablet.page.url(), await tablet.page.locator('body').innerText().catch(() => 'no page'), faults);
  throw fault;
} finally {
  await tablet.kill();
}
