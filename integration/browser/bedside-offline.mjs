// The page of the bedside with the network switched off in the middle: what was marked
// is there after each reload. The job says who, whom and which steps.

import { arrive, at, begin, enrol, go, kept, mark, setClock, settled, time, value } from './bedside.mjs';
import { held } from './bedside-eyes.mjs';
import { browser, faults, job, open } from './browser.mjs';

async function markSome(page, steps) {
  for (const step of steps) {
    await go(page, step.number);
    for (const [name, text] of Object.entries(step.values ?? {})) await value(page, name, text);
    await mark(page, step.mark);
    await settled(page, step.number);
  }
}

function compare(sheets, steps, when) {
  if (sheets.length !== 1) faults.push(`${when}: ${sheets.length} sheets are kept`);
  for (const { number, mark } of steps) {
    const stands = sheets[0]?.marks[number];
    if (stands !== mark.toLowerCase()) faults.push(`${when}: step ${number} was marked ${mark} and stands as ${stands}`);
  }
}

async function reload(page, step) {
  await page.reload();
  await page.locator('[aria-current="step"]').waitFor();
  if (await at(page) !== step) faults.push(`after a reload step ${await at(page)} is open, and it was ${step}`);
}

async function all(page) {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await arrive(page, job);
  await enrol(page, 'Grey tablet');
  await held(page, 'people');
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await held(page, 'first step');
  const half = Math.ceil(job.steps.length / 2);
  await markSome(page, job.steps.slice(0, half));
  await page.context().setOffline(true);
  await page.getByText('No network.').waitFor();
  await reload(page, await at(page));
  compare(await kept(page), job.steps.slice(0, half), 'with the network just off');
  await markSome(page, job.steps.slice(half));
  await go(page, job.timed.number);
  await time(page, job.timed.name, 300);
  await page.getByText('s, kept.').or(page.getByRole('button', { name: `${job.timed.name}: ` })).first().waitFor();
  await held(page, 'timed step');
  await reload(page, job.timed.number);
  compare(await kept(page), job.steps, 'after another reload');
  await page.getByRole('button', { name: 'Finish' }).first().click();
  await page.getByText(/Not yet: /).first().waitFor();
  await page.context().setOffline(false);
  await page.getByText('Online.').waitFor();
  const before = await kept(page);
  await signOut(page);
  const left = await kept(page);
  if (JSON.stringify(left) !== JSON.stringify(before)) faults.push(`signing out changed what was kept: ${JSON.stringify(left)}`);
  return left;
}

// signOut leaves by the top of the site's own pages, which puts the pack away.
async function signOut(page) {
  await page.goto('/today');
  await page.getByRole('button', { name: 'Menu' }).click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL('**/sign-in**');
  await page.waitForFunction(() => new Promise((done) => {
    const asked = indexedDB.open('wellshown-bedside');
    asked.onsuccess = () => {
      const packs = asked.result.transaction('pack').objectStore('pack').count();
      packs.onsuccess = () => { asked.result.close(); done(packs.result === 0); };
    };
  }));
}

try {
  const page = await open();
  await setClock(page.context(), job.now);
  const sheets = await all(page);
  process.stdout.write(JSON.stringify({ sheets, faults: faults.filter((f) => !f.includes('ERR_INTERNET_DISCONNECTED')) }));
} finally {
  await browser.close();
}
