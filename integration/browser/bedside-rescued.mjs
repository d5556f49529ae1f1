// A database that was lost after the second copy of a sheet had fallen behind: a mark that
// was unsafe, seen as kept, is not on what comes back. It is told, and the sheet neither
// finished nor thrown away, before each mark was looked at.

import { all, arrive, at, begin, enrol, finish, go, mark, setClock, value } from './bedside.mjs';
import { held } from './bedside-eyes.mjs';
import { browser, faults, job, open } from './browser.mjs';

const heading = (page, name) => page.getByRole('heading', { level: 1, name }).waitFor();

// fill marks every step as independent.
async function fill(page) {
  for (const s of job.steps) {
    await go(page, s.number);
    for (const [name, text] of Object.entries(s.values ?? {})) await value(page, name, text);
    if (!page.url().includes('#/finish/') && await at(page) === s.number) await mark(page, 'Independent');
  }
  await heading(page, /^Provisional: competent/);
}

const folder = "(await (await navigator.storage.getDirectory()).getDirectoryHandle('bedside sheets'))";

const copies = (page) => page.evaluate(`(async () => {
  const all = [];
  for await (const [name, file] of ${folder}.entries()) all.push([name, await (await file.getFile()).text()]);
  return all;
})()`);

// fallBehind leaves the copies as they were before, and the database without its sheets.
const fallBehind = (page, older) => page.evaluate(`(async () => {
  for (const [name, text] of ${JSON.stringify(older)}) {
    const to = await (await ${folder}.getFileHandle(name, { create: true })).createWritable();
    await to.write(text);
    await to.close();
  }
  await new Promise((done, failed) => {
    const asked = indexedDB.open('wellshown-bedside');
    asked.onsuccess = () => {
      const t = asked.result.transaction('sheets', 'readwrite');
      t.objectStore('sheets').clear();
      t.oncomplete = () => { asked.result.close(); done(); };
      t.onabort = () => failed(t.error);
    };
  });
})()`);

const only = async (page) => {
  const sheets = await all(page);
  if (sheets.length !== 1) faults.push(`${sheets.length} sheets are kept, not one`);
  return sheets[0];
};

// loseUnsafe marks the first step unsafe, and loses that with the database.
async function loseUnsafe(page, id) {
  const older = await copies(page);
  await page.goto(`/bedside/#/sheet/${id}/1`);
  await heading(page, /./);
  await mark(page, 'Unsafe');
  if ((await only(page)).marks[1].mark !== 'unsafe') faults.push('an unsafe mark was not kept');
  await page.goto('/bedside/#/');
  await fallBehind(page, older);
  await page.reload();
  await page.getByText('1 sheet came back from a second copy.').waitFor();
  if ((await only(page)).marks[1].mark !== 'independent') faults.push('what came back is no older copy, so nothing is shown here');
}

// notFinished goes every way to the end of it.
async function notFinished(page, id) {
  await page.goto(`/bedside/#/finish/${id}`);
  await heading(page, 'Look at each mark of this sheet');
  if (await page.locator('#close-sheet').count()) faults.push('a sheet that came back is finished unseen');
  const shown = await page.locator('main .given').allTextContents();
  if (shown.length !== job.steps.length || shown.some((m) => m !== 'independent')) faults.push(`the marks to look at are ${shown}`);
  await held(page, 'looking over');
  await page.reload();
  await heading(page, 'Look at each mark of this sheet');
  await page.getByRole('link', { name: 'Go back to marking' }).click();
  await page.getByText('This sheet came back from a second copy.').waitFor();
  await held(page, 'came back');
  if (await page.locator('#throw-away').count()) faults.push('a sheet that came back is thrown away unseen');
}

try {
  const page = await open();
  await setClock(page.context(), job.now);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await arrive(page, job);
  await enrol(page, 'Grey tablet');
  await page.context().setOffline(true);
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  const { id } = await only(page);
  await fill(page);
  await loseUnsafe(page, id);
  await notFinished(page, id);
  await go(page, 1);
  await mark(page, 'Unsafe');
  await page.locator('#finish').click();
  await page.getByRole('button', { name: 'Every mark here is as I saw it' }).click();
  await finish(page, job.learner);
  await page.context().setOffline(false);
  await heading(page, 'The office has it: not yet competent');
  process.stdout.write(JSON.stringify({ id, faults: faults.filter((f) => !/ERR_INTERNET_DISCONNECTED/.test(f)) }));
} finally {
  await browser.close();
}
