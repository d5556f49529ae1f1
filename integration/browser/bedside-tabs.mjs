// What happens to a sheet where something comes twice, too late or from another tab: a
// double tap, a sheet finished elsewhere, one thrown away while it is marked, a second
// copy that was left behind, an answer that never came.

import { arrive, count, enrol, kept, mark, setClock } from './bedside.mjs';
import { browser, faults, job, open } from './browser.mjs';

const press = (page, name) => page.getByRole('button', { name }).first().click();
const heading = (page, name) => page.getByRole('heading', { level: 1, name }).waitFor();
const only = async (page) => {
  const sheets = await kept(page);
  if (sheets.length !== 1) faults.push(`${sheets.length} sheets are kept, not one`);
  return sheets[0];
};

// beginTwice taps twice, as fingers in gloves do.
async function beginTwice(page) {
  await page.getByRole('link', { name: job.observe, exact: true }).click();
  await heading(page, job.learner);
  await page.getByLabel('the child', { exact: true }).check();
  await page.getByLabel('a formal demonstration').check();
  await page.getByLabel('Place').fill('At home');
  await page.getByRole('button', { name: `This is ${job.learner}` }).dblclick();
  await page.locator('[aria-current="step"]').waitFor();
}

// letGo presses the stop, and lets go before it acts; the screen is drawn anew meanwhile.
async function letGo(page) {
  const stop = page.locator('#stop');
  const was = await stop.elementHandle();
  const { x, y, width, height } = await stop.boundingBox();
  await page.mouse.move(x + width / 2, y + height / 2);
  await page.mouse.down();
  await page.evaluate(() => document.getElementById('give-independent').click());
  await page.waitForFunction((e) => !e.isConnected, was);
  await page.mouse.up();
  await page.waitForTimeout(1500); // longer than it must be held
  if ((await only(page)).stopped) faults.push('a stop that was let go of has acted');
}

// wished tells that what somebody wished of the device holds when the page is loaded anew.
async function wished(page) {
  const keys = page.getByLabel('Keys 1 to 5 give marks');
  await page.goto('/bedside/#/device');
  const before = await count(page, 'settings');
  await keys.uncheck();
  for (let i = 0; i < 100 && (await count(page, 'settings')) === before; i++) await page.waitForTimeout(50);
  await page.reload();
  await keys.waitFor();
  if (await keys.isChecked()) faults.push('keys that were turned off are on again');
  await page.goto('/bedside/#/');
}

const tab = async (page, address) => {
  const other = await page.context().newPage();
  other.setDefaultTimeout(15000);
  other.on('pageerror', (e) => faults.push(`other tab: ${e.message}`));
  await other.goto(address);
  await other.getByText('This sheet is open in another tab').waitFor();
  return other;
};

// notThrownAway throws a sheet away that was marked unsafe in another tab since it was asked.
async function notThrownAway(page) {
  await press(page, 'Begun by mistake');
  await page.getByRole('dialog').waitFor();
  const other = await tab(page, page.url());
  await press(other, 'Mark here instead');
  await mark(other, 'Unsafe');
  await page.bringToFront();
  await page.getByRole('dialog').getByRole('button', { name: 'Throw it away' }).click();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await page.getByText('It was changed in another tab meanwhile').waitFor();
  if (!Object.values((await only(page)).marks).includes('unsafe')) faults.push('an unsafe mark was thrown away');
  await other.close();
  await page.reload();
  await page.locator('[aria-current="step"]').waitFor();
}

async function stopAndFinish(page) {
  await page.locator('#stop').press('Enter');
  await press(page, 'Stop now');
  await press(page, 'Say what happened');
  await press(page, 'Equipment failed');
  await press(page, 'Keep the words');
  await press(page, 'Finish it as it is');
  await press(page, 'finish and keep');
}

// finishedElsewhere takes a sheet over that was finished meanwhile: nothing can be done to it.
async function finishedElsewhere(page) {
  const other = await tab(page, page.url());
  await page.bringToFront();
  await page.context().setOffline(true);
  await stopAndFinish(page);
  await heading(page, 'Kept on this device, not sent yet');
  const before = await only(page);
  await other.bringToFront();
  await press(other, 'Mark here instead');
  await heading(other, 'Kept on this device, not sent yet');
  const after = await only(other);
  if (JSON.stringify(before) !== JSON.stringify(after)) faults.push(`a finished sheet was changed to ${JSON.stringify(after)}`);
  await other.close();
}

const files = (page) => page.evaluate(async () => {
  const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('bedside sheets');
  const all = [];
  for await (const [name, file] of folder.entries()) all.push([name, await (await file.getFile()).text()]);
  return all;
});

// leaveBehind writes a copy again, as where the browser was killed before it could go.
const leaveBehind = (page, copies) => page.evaluate(async (copies) => {
  const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('bedside sheets');
  for (const [name, text] of copies) {
    const to = await (await folder.getFileHandle(name, { create: true })).createWritable();
    await to.write(text);
    await to.close();
  }
}, copies);

const noCopies = async (page, when) => {
  const left = await files(page);
  if (left.length > 0) faults.push(`${when}: the copies ${left.map(([name]) => name)} are still there`);
};

// sent has the office take the sheet, whose copy then goes, also where it was left behind.
async function sent(page) {
  const copies = await files(page);
  if (copies.length !== 1) faults.push(`${copies.length} copies are there of one sheet`);
  await page.context().setOffline(false);
  await heading(page, 'The office has it: stopped for safety');
  await noCopies(page, 'sent');
  await leaveBehind(page, copies);
  await page.reload();
  await heading(page, 'The office has it: stopped for safety');
  await noCopies(page, 'opened again');
  return copies;
}

// answerLost has the first try to send a sheet fail: it is sent again by itself.
async function answerLost(page) {
  await page.goto('/bedside/#/');
  await page.getByRole('link', { name: job.observe, exact: true }).waitFor();
  await beginTwice(page);
  await page.route('**/api/v1/bedside/sheets/*', (route) => route.abort(), { times: 1 });
  await stopAndFinish(page);
  await heading(page, 'The office has it: stopped for safety');
}

// signOut leaves with a copy left behind: no sheet comes back for who is next.
async function signOut(page, copies) {
  await leaveBehind(page, copies);
  await page.goto('/today');
  await press(page, 'Menu');
  await press(page, 'Sign out');
  await page.waitForURL('**/sign-in**');
  for (let i = 0; i < 100 && (await kept(page)).length > 0; i++) await page.waitForTimeout(50);
  await noCopies(page, 'signed out');
  await page.goto('/bedside/');
  await heading(page, 'There is no pack on this device');
  const left = await kept(page);
  if (left.length > 0) faults.push(`after signing out there are still ${JSON.stringify(left)}`);
}

try {
  const page = await open();
  await setClock(page.context(), job.now);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await arrive(page, job);
  await enrol(page, 'Grey tablet');
  await wished(page);
  await beginTwice(page);
  await letGo(page);
  await notThrownAway(page);
  await finishedElsewhere(page);
  const copies = await sent(page);
  await answerLost(page);
  const sheets = await kept(page);
  await signOut(page, copies);
  // the network was cut, a try was broken off, and in the end nobody is signed in
  process.stdout.write(JSON.stringify({ sheets, faults: faults.filter((f) => !/ERR_INTERNET_DISCONNECTED|ERR_FAILED|401 \(Unauthorized\)/.test(f)) }));
} finally {
  await browser.close();
}
