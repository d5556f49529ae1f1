// Marks a sheet on a device whose room runs out for real: what could not be kept
// is not shown as kept, what was kept stays, and with room again it goes on. What to do
// comes as JSON on standard input; what came of it leaves as JSON on standard output.

import { arrive, begin, enrol, go, kept, mark, setClock } from './bedside.mjs';
import { browser, faults, job, look, open } from './browser.mjs';

const words = ['Independent', 'Cued', 'Assisted', 'Not met'];
const shown = {}; // marks that were shown as kept, by step
const noRoom = (page) => page.getByText('This device has no room left').first();

// room says how much the browser lets this site keep, in bytes beyond what it keeps.
async function room(page, bytes) {
  const cdp = await page.context().newCDPSession(page);
  const origin = new URL(job.base).origin;
  const { usage } = await cdp.send('Storage.getUsageAndQuota', { origin });
  await cdp.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: usage + bytes });
}

// fill takes all the room that is left with files beside the page's own.
const fill = (page) => page.evaluate(async () => {
  const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('photos', { create: true });
  for (let size = 1 << 18, n = 0; size >= 1; n++) {
    try {
      const to = await (await folder.getFileHandle(`photo ${n}`, { create: true })).createWritable();
      await to.write(new Uint8Array(size));
      await to.close();
    } catch (fault) {
      if (fault.name !== 'QuotaExceededError') throw fault;
      size >>= 1;
    }
  }
});

// used leaves no room.
async function used(page) {
  await room(page, 100_000);
  await fill(page);
}

const freed = (page) => page.evaluate(async () => (await navigator.storage.getDirectory()).removeEntry('photos', { recursive: true }));

// give taps a mark; it tells whether it was shown as kept, after which the next step
// comes, or refused for want of room.
async function give(page, step, word) {
  await go(page, step);
  await page.getByRole('button', { name: word, exact: true }).click();
  const next = page.waitForFunction((step) => Number(location.hash.split('/').at(-1)) !== step, step).then(() => true);
  const full = noRoom(page).waitFor().then(() => false);
  full.catch(() => {}); // whichever does not come waits in vain
  next.catch(() => {});
  const kept = await Promise.any([next, full]);
  if (kept) shown[step] = word.toLowerCase();
  return kept;
}

// untilRefused marks a step over and over, each time otherwise, until there is no room:
// a browser sets some aside for a while for a database that is open.
async function untilRefused(page, step) {
  for (let i = 0; i < 400; i++) {
    const word = words[i % words.length];
    if (!(await give(page, step, word))) return word;
  }
  throw new Error('there was always room');
}

// same compares what the device keeps with what was shown as kept.
async function same(page, when) {
  const [{ marks }] = await kept(page);
  if (JSON.stringify(marks) !== JSON.stringify(shown)) faults.push(`${when}: kept are ${JSON.stringify(marks)}, shown as kept ${JSON.stringify(shown)}`);
}

async function refused(page, step, word) {
  const pressed = await page.locator('.give[aria-pressed="true"]').allTextContents();
  if (pressed.includes(word)) faults.push(`${word} at step ${step} shows as chosen, and was not kept`);
  await page.getByText('Mark on paper until there is room').first().waitFor();
  await page.getByText('Not kept yet.').first().waitFor();
  await same(page, 'without room');
}

// again makes room and gives the mark that was refused.
async function again(page, step, word) {
  await freed(page);
  await room(page, 50_000_000);
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.locator('.give[aria-pressed="true"]').filter({ hasText: word }).waitFor();
  shown[step] = word.toLowerCase();
  if (await noRoom(page).count()) faults.push('with room again the screen still says that there is none');
  await same(page, 'with room again');
}

// withoutCopy has no room for the second copy alone: it is marked all the same.
async function withoutCopy(page) {
  await page.evaluate(() => {
    globalThis.reallyWrite = FileSystemFileHandle.prototype.createWritable;
    FileSystemFileHandle.prototype.createWritable = () => Promise.reject(new DOMException('no room', 'QuotaExceededError'));
  });
  await give(page, 8, 'Cued');
  await page.evaluate(() => (FileSystemFileHandle.prototype.createWritable = globalThis.reallyWrite));
  await same(page, 'without a second copy');
}

try {
  const page = await open();
  await setClock(page.context(), job.now);
  await arrive(page, job);
  await enrol(page, 'Grey tablet');
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await mark(page, 'Independent');
  shown[1] = 'independent';
  await used(page);
  const first = await untilRefused(page, 2);
  await look(page, 'bedside-full');
  await refused(page, 2, first);
  await page.reload();
  await page.locator('[aria-current="step"]').waitFor();
  await same(page, 'loaded anew without room');
  const second = await untilRefused(page, 4);
  await refused(page, 4, second);
  await again(page, 4, second);
  await withoutCopy(page);
  process.stdout.write(JSON.stringify({ sheets: await kept(page), shown, faults }));
} catch (fault) {
  const [page] = browser.contexts()[0].pages();
  console.error(page.url(), faults, shown, await page.locator('body').innerText().catch(() => 'no page'));
  throw fault;
} finally {
  await browser.close();
}
