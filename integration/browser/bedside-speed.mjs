// Measures the bedside in a browser whose CPU is slowed: taps, the first load, and from
// opening the page to a first mark with the network off. What to do comes as JSON on
// standard input; what was measured leaves as JSON on standard output.

import { begin, enrol, go, setClock } from './bedside.mjs';
import { browser, faults, job, open } from './browser.mjs';

const came = { shown: [], stored: [], chosen: [], people: [], mark: [], peopleSlowed: [], markSlowed: [] };
const sent = async () => Number(await (await fetch(job.count)).text());

async function slowed(page, rate = job.slowed) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate });
}

async function signIn(page) {
  await page.goto('/sign-in?next=/account');
  await page.getByLabel('E-mail').fill(job.email);
  await page.getByLabel('Password').fill(job.password);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForURL('**/account');
}

// firstLoad counts what is sent until the page stands and is kept for the network off.
async function firstLoad(page) {
  await page.waitForLoadState('networkidle');
  const before = await sent();
  await page.goto('/bedside/');
  await page.getByRole('link', { name: 'Enrol this device' }).waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready.then((r) => r.active.state));
  await page.waitForLoadState('networkidle');
  came.bytes = (await sent()) - before;
}

// watch notes, for each tap on a mark, when a frame with it was drawn, when the database
// had kept the sheet, and when a frame with the mark as chosen was drawn.
const watch = () => {
  const drawn = (act) => requestAnimationFrame(() => { const { port1, port2 } = new MessageChannel(); port1.onmessage = () => act(performance.now()); port2.postMessage(0); });
  globalThis.tap = null;
  addEventListener('click', (e) => {
    const give = e.target.closest?.('.give');
    if (give) globalThis.tap = { at: e.timeStamp, word: give.textContent };
  }, true);
  const transaction = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (store, mode, options) {
    const t = transaction.call(this, store, mode, options);
    const { tap } = globalThis;
    if (store === 'sheets' && mode === 'readwrite' && tap) t.addEventListener('complete', () => (tap.stored ??= performance.now() - tap.at));
    return t;
  };
  new MutationObserver(() => {
    const { tap } = globalThis;
    if (!tap) return;
    if (!tap.showing && document.querySelector('.give.giving')) { tap.showing = true; drawn((now) => (tap.shown = now - tap.at)); }
    const pressed = document.querySelector('.give[aria-pressed="true"]');
    if (!tap.pressed && pressed?.textContent === tap.word) { tap.pressed = true; drawn((now) => (tap.chosen = now - tap.at)); }
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['class', 'aria-pressed'] });
};

async function taps(page) {
  for (let i = 0; i < job.taps; i++) {
    await go(page, 2);
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: i % 2 ? 'Cued' : 'Assisted', exact: true }).tap();
    await page.waitForFunction(() => globalThis.tap?.chosen && globalThis.tap.stored && globalThis.tap.shown);
    const { shown, stored, chosen } = await page.evaluate(() => globalThis.tap);
    came.shown.push(shown);
    came.stored.push(stored);
    came.chosen.push(chosen);
    await page.waitForURL(/\/(?!2$)\d+$/);
  }
}

// opening opens the page as from its icon, begins a sheet and gives a first mark.
async function opening(context, rate, people, mark) {
  const page = await context.newPage();
  await slowed(page, rate);
  const from = Date.now();
  await page.goto('/bedside/');
  await page.getByRole('link', { name: job.observe, exact: true }).waitFor();
  people.push(Date.now() - from);
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await page.getByRole('button', { name: 'Independent', exact: true }).tap();
  await page.locator('.give[aria-pressed="true"]').waitFor();
  mark.push(Date.now() - from);
  await page.close();
}

try {
  const page = await open();
  const context = page.context();
  await setClock(context, job.now);
  await signIn(page);
  await firstLoad(page);
  await enrol(page, 'Grey tablet');
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await slowed(page);
  await page.evaluate(watch);
  await taps(page);
  await page.close();
  await context.setOffline(true);
  for (let i = 0; i < job.openings; i++) {
    await opening(context, 1, came.people, came.mark);
    await opening(context, job.slowed, came.peopleSlowed, came.markSlowed);
  }
  process.stdout.write(JSON.stringify({ ...came, faults: faults.filter((f) => !f.includes('ERR_INTERNET_DISCONNECTED')) }));
} finally {
  await browser.close();
}
