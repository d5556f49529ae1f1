// Many sheets, and five interruptions of each at chance moments: the browser killed, its
// database lost with it, the service killed, the network cut, a sheet sent again that was
// sent before, a second tab with the same sheet. It tells which marks the page showed as
// kept.

import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { all, arrive, begin, count, enrol } from './bedside.mjs';
import { Tablet } from './tablet.mjs';

const job = JSON.parse(readFileSync(0, 'utf8'));
const faults = [];
const counts = { sheets: 0, marks: 0, 'databases lost by the browser': 0, 'kill browser': 0, 'lose database': 0, 'kill service': 0, 'cut network': 0, replay: 0, 'second tab': 0 };
const acknowledged = {}; // by sheet and step, the mark that was last shown as kept
const tablet = new Tablet(job.chromium, job.profile, faults);
const words = ['Independent', 'Cued', 'Assisted', 'Not met'];
let chance = job.seed;

// next is a number below n, the same in each run (a linear congruential generator with
// the constants of Numerical Recipes; from memory).
function next(n) {
  chance = (Math.imul(chance, 1664525) + 1013904223) >>> 0;
  return Math.floor((chance / 4294967296) * n);
}

const server = (what) => fetch(`${job.control}/${what}`, { method: 'POST' });
let up = true;

// watch tells of each mark that the page shows as kept, the moment it does.
function watch() {
  const told = new Set();
  new MutationObserver(() => {
    const pressed = document.querySelector('.marks [aria-pressed="true"]');
    const step = document.querySelector('.line.now .num')?.lastChild?.textContent;
    const sheet = location.hash.split('/')[2];
    if (!pressed || !step) return;
    const mark = pressed.id.replace('give-', '').replace('-', ' ');
    const all = [sheet, step, mark].join(' ');
    if (told.has(all)) return;
    told.add(all);
    globalThis.kept(sheet, step, mark);
  }).observe(document, { subtree: true, childList: true, attributes: true });
}

async function start() {
  await tablet.start();
  await tablet.context.exposeBinding('kept', (_, sheet, step, mark) => ((acknowledged[sheet] ??= {})[step] = mark));
  await tablet.context.addInitScript(watch);
  await tablet.page.goto(`${job.base}/bedside/`).catch(() => {});
  await tablet.page.locator('main h1').waitFor(); // its database is made; to leave in the middle of that is not tried here
}

// again opens the browser that was killed, and holds what it keeps to what was shown as
// kept. Where it has lost its database, and with that its key, the device is enrolled anew.
async function again(sheet) {
  await start();
  await check(sheet);
  if (await count(tablet.page, 'key') === 0) {
    counts['databases lost by the browser']++;
    await allWell();
    await signIn();
    await revokeLost();
    await enrol(tablet.page, 'Ward tablet');
  } else if (up && !tablet.offline) {
    await signIn(); // cookies are saved by the browser now and then only
  }
  await tablet.page.goto(`${job.base}/bedside/#/sheet/${sheet}`);
}

// signIn signs in where the browser does not know any more who is.
async function signIn() {
  const session = await tablet.context.request.get(`${job.base}/bedside/session`);
  if (session.status() !== 200) {
    await arrive(tablet.page, job);
    if (await count(tablet.page, 'key')) await tablet.page.getByText(/^Pack of /).waitFor(); // who is signed out has none
  } else await tablet.page.goto(`${job.base}/bedside/#/`);
}

// revokeLost does what somebody does who may enrol no more devices: of those whose key was
// lost it keeps the newest, which may still have signed what waits.
async function revokeLost() {
  const { items } = await (await tablet.context.request.get(`${job.base}/api/v1/bedside/devices`)).json();
  const { csrf } = await (await tablet.context.request.get(`${job.base}/bedside/session`)).json();
  for (const { id } of items.filter((device) => !device.revoked_at).slice(5)) {
    await tablet.context.request.delete(`${job.base}/api/v1/bedside/devices/${id}`, { headers: { 'X-CSRF': csrf }, failOnStatusCode: true });
  }
}

async function allWell() {
  if (!up) await server('start');
  up = true;
  await tablet.cut(false);
}

const interruptions = {
  async 'kill browser'(sheet) {
    await tablet.kill();
    await again(sheet);
  },
  // lose database does what Chromium does to a database it finds broken: after about one
  // kill in a hundred it throws all of it away.
  async 'lose database'(sheet) {
    await tablet.kill();
    rmSync(join(job.profile, 'Default', 'IndexedDB'), { recursive: true });
    await again(sheet);
    counts['databases lost by the browser']--;
  },
  async 'kill service'() {
    await server(up ? 'kill' : 'start');
    up = !up;
  },
  async 'cut network'() { await tablet.cut(!tablet.offline); },
  // replay sends again what was sent, as it was, or what is finished and not sent yet.
  async replay() {
    const done = (await all(tablet.page)).filter((s) => s.text);
    if (done.length === 0) return;
    const { id, device, text, signature } = done[next(done.length)];
    await tablet.page.evaluate(async ({ id, device, text, signature }) => {
      try {
        const { csrf } = await (await fetch('/bedside/session')).json();
        await fetch(`/api/v1/bedside/sheets/${id}`, { method: 'PUT', headers: { 'Content-Type': 'application/json', 'X-CSRF': csrf },
          body: JSON.stringify({ device, sheet: text, signature, sent_at: new Date().toISOString() }) });
      } catch { /* the network is cut, or the service dead: that is the point */ }
    }, { id, device, text, signature });
  },
  // second tab opens the same sheet: never may both mark it.
  async 'second tab'(sheet) {
    const other = await tablet.open();
    await other.goto(`${job.base}/bedside/#/sheet/${sheet}/${1 + next(job.steps)}`);
    await other.locator('main h1').waitFor();
    const both = async () => Math.min(...await Promise.all([tablet.page, other].map((p) => p.locator('main:not([inert]) .give:enabled').count()))) > 0;
    if (await both()) faults.push(`two tabs may mark ${sheet} at once`);
    await other.close();
  },
};

// check holds what the device keeps to what was shown as kept.
async function check(sheet) {
  const there = (await all(tablet.page)).find((s) => s.id === sheet);
  for (const [step, mark] of Object.entries(acknowledged[sheet] ?? {})) {
    if (there?.marks[step]?.mark !== mark) faults.push(`step ${step} of ${sheet} was shown as ${mark} and is ${JSON.stringify(there?.marks[step])}`);
  }
}

async function interrupt(sheet) {
  const names = [...Array(2).fill('kill browser'), 'lose database', ...Array(3).fill('kill service'), ...Array(3).fill('cut network'), ...Array(4).fill('replay'), ...Array(3).fill('second tab')];
  const name = names[next(names.length)];
  await interruptions[name](sheet);
  counts[name]++;
}

// give taps a mark; sometimes the browser is gone before it can be kept.
async function give(sheet, no) {
  const { page } = tablet;
  await page.goto(`${job.base}/bedside/#/sheet/${sheet}/${no}`);
  await page.locator(`.line.now .num`, { hasText: new RegExp(`^Step ${no}$`) }).waitFor();
  const word = words[next(words.length)];
  await page.getByRole('button', { name: word, exact: true }).click();
  counts.marks++;
  await wait(next(60));
}

async function fill(i) {
  const learner = job.learners[i % job.learners.length];
  await tablet.page.goto(`${job.base}/bedside/#/`);
  await begin(tablet.page, { observe: `Observe ${job.title}, ${learner}`, learner, real: false, formal: false, place: 'skills room' });
  const sheet = tablet.page.url().split('/').at(-2);
  counts.sheets++;
  for (let no = 1; no <= job.steps; no++) {
    await give(sheet, no);
    if (total() < job.interruptions * ((i + 1) / job.sheets)) await interrupt(sheet);
  }
  while (total() < Math.floor(job.interruptions * ((i + 1) / job.sheets))) await interrupt(sheet);
  await close(sheet);
}

const total = () => Object.keys(interruptions).reduce((sum, name) => sum + counts[name], 0);

// close marks what was not kept, and finishes the sheet.
async function close(sheet) {
  const { page } = tablet;
  await page.goto(`${job.base}/bedside/#/sheet/${sheet}`);
  await page.locator('#step').waitFor();
  const there = (await all(tablet.page)).find((s) => s.id === sheet);
  for (let no = 1; no <= job.steps; no++) {
    if (there.marks[no]?.mark) continue;
    await page.goto(`${job.base}/bedside/#/sheet/${sheet}/${no}`);
    await page.locator(`.line.now .num`, { hasText: new RegExp(`^Step ${no}$`) }).waitFor();
    await page.getByRole('button', { name: 'Cued', exact: true }).click();
    await page.waitForFunction((no) => document.querySelector('.line.now .num')?.textContent !== `Step ${no}`, no);
  }
  await check(sheet);
  await page.goto(`${job.base}/bedside/#/finish/${sheet}`);
  await page.locator('#close-sheet, #looked-over').waitFor();
  const back = await page.locator('#looked-over').count();
  if (back !== (there.rescued ? 1 : 0)) faults.push(`${sheet} came back from its copy: ${there.rescued}; it is to be looked over: ${back}`);
  if (back) await page.locator('#looked-over').click();
  await page.locator('#close-sheet').click();
  await page.waitForURL('**#/after/*');
}

// sendAll sends what still waits, when all is well again.
async function sendAll() {
  await allWell();
  await signIn();
  await tablet.page.goto(`${job.base}/bedside/#/waiting`);
  for (let i = 0; i < 60; i++) {
    const left = (await all(tablet.page)).filter((s) => s.state !== 'sent');
    if (left.length === 0) return;
    if (left.some((s) => s.state === 'refused')) throw new Error(JSON.stringify(left.find((s) => s.state === 'refused').refusal));
    await tablet.page.getByRole('button', { name: 'Send now' }).click().catch(() => {});
    await wait(500);
  }
  throw new Error('the outbox does not empty');
}

try {
  await start();
  await arrive(tablet.page, job);
  await enrol(tablet.page, 'Ward tablet');
  for (let i = 0; i < job.sheets; i++) await fill(i);
  await sendAll();
  process.stdout.write(JSON.stringify({ acknowledged, counts, faults }));
} catch (fault) {
  console.error(tablet.page.url(), await tablet.page.locator('body').innerText().catch(() => 'no page'), faults);
  throw fault;
} finally {
  await tablet.kill();
}
