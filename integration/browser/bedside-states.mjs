// Goes through the states of the bedside's page and looks at each: the name check,
// every dialog, storage that is full, a second tab, the stop, the end, the outbox.

import { arrive, at, begin, enrol, go, kept, mark, setClock, settled } from './bedside.mjs';
import { held } from './bedside-eyes.mjs';
import { browser, faults, job, open } from './browser.mjs';

const press = (page, name) => page.getByRole('button', { name }).first().click();
const heading = (page, name) => page.getByRole('heading', { level: 1, name }).waitFor();

async function before(page) {
  await page.getByRole('link', { name: 'Enrol this device' }).waitFor();
  await held(page, 'first visit');
  await page.getByRole('link', { name: 'Enrol this device' }).click();
  await page.getByLabel('Name of this device').waitFor();
  await held(page, 'enrolling');
  await page.goBack();
  await enrol(page, 'Grey tablet');
  await held(page, 'people');
}

// anotherSkill sees somebody of whom nothing is asked: each skill is there, for the child
// whose team they are on, and stays unfolded while the page is drawn anew.
async function anotherSkill(page) {
  const observe = page.getByRole('link', { name: /^Observe .*, Ada Moe/ });
  if (await observe.count()) faults.push('what nobody asks for is not folded away');
  await page.getByText('Another skill, Ada Moe').click();
  await page.context().setOffline(true);
  await page.getByText('No network.').waitFor();
  await observe.first().waitFor();
  const skills = await observe.count();
  if (skills !== 12) faults.push(`${skills} skills are offered and not the 12 of the catalogue`);
  await held(page, 'another skill');
  await page.getByRole('link', { name: 'Observe Heated humidifier set-up and daily care, Ada Moe, for Mira, 7K', exact: true }).click();
  await heading(page, 'Ada Moe');
  await page.getByText('for Mira, 7K').waitFor();
  await page.goBack();
  await page.getByText('Another skill, Ada Moe').click();
  if (await observe.count() !== 0) faults.push('what was folded away again is still there');
  await page.context().setOffline(false);
  await page.getByText('Online.').waitFor();
}

async function nameCheck(page) {
  await page.getByRole('link', { name: job.observe, exact: true }).click();
  await heading(page, job.learner);
  await press(page, `This is ${job.learner}`);
  await page.getByText('Before it can begin').waitFor();
  await held(page, 'name check');
  await page.goBack();
}

async function dialogs(page) {
  await held(page, 'first step');
  await press(page, 'Help with marking');
  await held(page, 'help');
  await press(page, 'Close');
  await press(page, 'Add a note');
  await press(page, 'Explained it in own words');
  await held(page, 'note');
  await press(page, 'Keep the words');
  await go(page, 2);
  await press(page, 'Does not apply here');
  await held(page, 'does not apply');
  await press(page, 'Leave it');
  await mark(page, 'Unsafe');
  await settled(page, 2);
  await press(page, 'Undo');
  await held(page, 'taking back');
  await press(page, 'Tapped by mistake');
  await press(page, 'Take it back');
  await go(page, job.timed.number);
  await press(page, 'Start clock');
  await page.getByRole('timer').waitFor();
  await held(page, 'clock runs');
  await press(page, 'Stop clock');
  await page.getByRole('button', { name: `${job.timed.name}: ` }).last().click();
  await held(page, 'number pad');
  await press(page, 'Leave it');
}

// quick taps faster than the device keeps, at one step and the next: no mark is lost, and
// what is tapped twice is given once.
async function quick(page) {
  const turn = (await kept(page))[0].turn;
  await page.evaluate(() => {
    const tap = (id) => document.getElementById(id).click();
    ['go-9', 'give-independent', 'go-10', 'give-cued', 'give-cued'].forEach(tap);
  });
  await page.waitForFunction(() => document.querySelector('#go-9')?.textContent.startsWith('independent') && document.querySelector('#go-10')?.textContent.startsWith('cued'));
  const [now] = await kept(page);
  if (now.marks[9] !== 'independent' || now.marks[10] !== 'cued' || now.turn !== turn + 2) faults.push(`after quick taps ${JSON.stringify(now.marks)} are kept, ${now.turn - turn} changes`);
}

// tooShort times a step that is marked already much too short: that is seen before
// anything else comes, and stands in the list of steps.
async function tooShort(page) {
  await go(page, 3);
  await mark(page, 'Independent');
  await press(page, 'Start clock: rub');
  await press(page, 'Stop clock: rub');
  await page.getByText('Out of range: it counts as not met.').waitFor();
  await page.waitForTimeout(800);
  if (await at(page) !== 3) faults.push('a time that is too short is gone from the screen at once');
  await held(page, 'out of range');
  await go(page, 4);
  await page.locator('#go-3').getByText('out of range').waitFor();
}

// full has the browser refuse to keep anything, as where no room is left (W3C Indexed
// Database API 3.0: QuotaExceededError), and then keep again.
async function full(page) {
  await go(page, 5);
  await page.evaluate(() => {
    globalThis.reallyPut = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = () => { throw new DOMException('no room', 'QuotaExceededError'); };
  });
  await press(page, 'Cued');
  await page.getByText('This device has no room left').first().waitFor();
  if (await page.locator('.give[aria-pressed="true"]').count()) faults.push('a mark shows as chosen that was not kept');
  await held(page, 'no room');
  if ((await kept(page))[0].marks[5]) faults.push('a mark was kept although nothing could be');
  await page.evaluate(() => (IDBObjectStore.prototype.put = globalThis.reallyPut));
  await press(page, 'Try again');
  await page.locator('.give[aria-pressed="true"]').waitFor();
  if ((await kept(page))[0].marks[5] !== 'cued') faults.push('a mark that waited for room is not kept');
}

async function twoTabs(page) {
  const other = await page.context().newPage();
  other.setDefaultTimeout(15000);
  await other.emulateMedia({ reducedMotion: 'reduce' });
  await other.goto(page.url());
  await other.getByText('This sheet is open in another tab').waitFor();
  await held(other, 'second tab');
  await press(other, 'Mark here instead');
  await other.getByText('This sheet is open in another tab').waitFor({ state: 'detached' });
  await page.getByText('This sheet is open in another tab').waitFor();
  const turn = (await kept(other))[0].turn;
  await page.keyboard.press('1');
  await mark(other, 'Not met');
  await settled(other, 5);
  if ((await kept(other))[0].turn !== turn + 1) faults.push('both tabs marked one sheet');
  await other.close();
  await page.reload();
  await page.locator('[aria-current="step"]').waitFor();
}

// another has somebody else use the device without a network: they mark nothing on a
// sheet that is not theirs, and its owner goes on where it was.
async function another(page) {
  await page.getByText('Online.').first().waitFor(); // the office has said who is signed in: it says so no more once the network is off
  await page.context().setOffline(true);
  await page.evaluate(() => new Promise((done, failed) => {
    const asked = indexedDB.open('wellshown-bedside');
    asked.onerror = () => failed(asked.error);
    asked.onsuccess = () => {
      const t = asked.result.transaction('settings', 'readwrite');
      t.objectStore('settings').put({ id: 'somebody else', name: 'Somebody Else' }, 'person');
      t.oncomplete = () => { asked.result.close(); done(); };
    };
  }));
  await page.locator('.give').first().waitFor();
  await page.evaluate(() => new BroadcastChannel('wellshown-bedside').postMessage('changed')); // as another tab says it in which they signed in
  await page.getByText('They sign in on this device to go on with it').waitFor();
  for (const screen of ['sheet', 'finish']) {
    await page.evaluate((to) => (location.hash = to), `#/${screen}/${(await kept(page))[0].id}`);
    await page.reload();
    await page.getByText('They sign in on this device to go on with it').waitFor();
    if (await page.locator('.give, #close-sheet').count()) faults.push(`somebody else can go on at ${screen}`);
  }
  await held(page, 'of somebody else');
  await page.evaluate((to) => (location.hash = to), `#/sheet/${(await kept(page))[0].id}/5`);
  await page.context().setOffline(false);
  await page.locator('[aria-current="step"]').waitFor();
}

async function stopping(page) {
  const stop = page.getByRole('button', { name: 'Stop for safety' });
  await stop.click();
  await page.getByRole('dialog').waitFor();
  await held(page, 'stop asked');
  await press(page, 'Go on marking');
  const at = await stop.boundingBox();
  await page.mouse.move(at.x + at.width / 2, at.y + at.height / 2);
  await page.mouse.down();
  await heading(page, 'Stopped for safety');
  await page.mouse.up();
  await held(page, 'stopped');
  await press(page, 'Say what happened');
  await press(page, 'Equipment failed');
  await held(page, 'what happened');
  await press(page, 'Keep the words');
  await press(page, 'Finish it as it is');
  await heading(page, 'Provisional: stopped for safety');
}

async function ending(page) {
  await held(page, 'the end');
  await page.locator('#hand-to-draw').click();
  const field = page.locator('.drawing');
  await field.scrollIntoViewIfNeeded();
  const at = await field.boundingBox();
  await page.mouse.move(at.x + 20, at.y + 40);
  await page.mouse.down();
  for (let i = 1; i < 12; i++) await page.mouse.move(at.x + 20 + 20 * i, at.y + 40 + 30 * (i % 2));
  await page.mouse.up();
  await held(page, 'drawn');
  await page.locator('#give-back').click();
  await page.getByText('Drawn.').waitFor();
  await page.context().setOffline(true);
  await press(page, 'finish and keep');
  await heading(page, 'Kept on this device, not sent yet');
  await held(page, 'kept');
  await page.getByRole('link', { name: '1 sheet not sent' }).click();
  await heading(page, '1 sheet waits to be sent');
  await held(page, 'outbox');
  await page.context().setOffline(false);
  await heading(page, 'Every finished sheet is with the office');
  await page.getByRole('link', { name: 'Back to the people' }).click();
  await page.getByRole('link', { name: 'What happens next' }).click();
  await heading(page, 'The office has it: stopped for safety');
  await held(page, 'taken');
  await page.getByRole('link', { name: 'This device' }).click();
  await page.getByRole('heading', { name: 'Signs that a mark is kept' }).waitFor();
  await held(page, 'this device');
}

try {
  const page = await open();
  await setClock(page.context(), job.now);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await arrive(page, job);
  await before(page);
  await anotherSkill(page);
  await nameCheck(page);
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await dialogs(page);
  await tooShort(page);
  await quick(page);
  await full(page);
  await twoTabs(page);
  await another(page);
  await stopping(page);
  await ending(page);
  process.stdout.write(JSON.stringify({ sheets: await kept(page), faults: faults.filter((f) => !f.includes('ERR_INTERNET_DISCONNECTED')) }));
} finally {
  await browser.close();
}
