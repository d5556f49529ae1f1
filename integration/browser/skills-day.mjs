// A skills day at the bedside with the network off: the day is loaded, two learners are
// passed at one station one after the other, and what cannot count is not offered. Then
// both sheets are sent. The job says who comes, and the steps of the station's skill.

import { all, arrive, count, enrol, finish, mark, settled, value } from './bedside.mjs';
import { held } from './bedside-eyes.mjs';
import { browser, faults, job, open } from './browser.mjs';

const people = (page) => page.getByRole('link', { name: 'At the bedside' }).click();
const station = (page, no) => page.locator(`[id^="station-"]`).filter({ hasText: `Station ${no}:` });
const begins = (page, no, who) => page.getByRole('link', { name: `Begin: ${who}, station ${no}`, exact: true });

// wrong finds how many there are of something that was counted before.
async function wrong(what, locator, want) {
  const got = await locator.count();
  if (got !== want) faults.push(`${what}: ${got} and not ${want}`);
}

// check reads the name check of a learner at station 1: the station has chosen the place
// and the child, and nobody has chosen what it is.
async function check(page, who) {
  await begins(page, 1, who).click();
  await page.getByRole('heading', { level: 1, name: who, exact: true }).waitFor();
  await page.getByText(`Station 1 of ${job.day}`).waitFor();
  await page.getByText('by the values of Mira, 7K').waitFor();
  await wrong('children to choose from', page.getByRole('group', { name: 'For which child' }), 0);
  if (await page.getByLabel('Place').inputValue() !== job.place) faults.push(`the place is ${await page.getByLabel('Place').inputValue()}`);
  await wrong('chosen beforehand', page.locator('main input:checked'), 0);
}

async function pass(page, who, next) {
  await page.getByLabel('a manikin, test lung or spare', { exact: true }).check();
  await page.getByLabel('a formal demonstration').check();
  await page.getByRole('button', { name: `This is ${who}` }).click();
  await page.waitForURL(/#\/sheet\//);
  if (next) await meanwhile(page, who, next);
  for (const step of job.steps) {
    await page.locator(`.line.now .mark:has-text("${step.number}")`).waitFor();
    for (const [name, text] of Object.entries(step.values ?? {})) await value(page, name, text);
    await mark(page, step.mark);
    await settled(page, step.number);
  }
}

// vain is who is due and cannot count, and a station at which nothing can: it is said
// why, and nothing formal is offered.
async function vain(page) {
  await page.getByText('Due, and cannot count here: 1').click();
  await page.getByText('comes first, is not current').first().waitFor();
  await wrong('begun where it cannot count', begins(page, 3, job.learners[0]), 0);
  await held(page, 'skills day');
  await page.getByRole('link', { name: `Practise: ${job.learners[0]}, station 3` }).click();
  await page.getByText('It cannot count:').waitFor();
  await wrong('formal where it cannot count', page.getByLabel('a formal demonstration'), 0);
  await held(page, 'name check, cannot count');
  await people(page);
}

// meanwhile looks at the name check of a second learner while the first one's sheet is
// open: it says whose is open, and that this is another's.
async function meanwhile(page, first, second) {
  const sheet = new URL(page.url()).hash;
  await page.goto('/bedside/#/');
  await page.getByRole('link', { name: `Go on marking: ${first}, station 1` }).waitFor();
  await begins(page, 1, second).click();
  await page.getByText(`You have sheets of others open: ${first}. What you begin here is of ${second} alone.`).waitFor();
  await page.goto('/bedside/' + sheet);
}

async function offline(page) {
  await page.context().setOffline(true);
  await page.getByText('No network.').waitFor();
  await page.reload();
  await vain(page);
  const [first, second] = job.learners;
  for (const [i, who] of [first, second].entries()) {
    await check(page, who);
    await held(page, `name check at a station ${i}`);
    await pass(page, who, i === 0 && second);
    await finish(page, who);
    await people(page);
    await page.getByText(`Shown here: ${i + 1}`).waitFor();
    await wrong('still to come', begins(page, 1, who), 0);
  }
  await page.getByText('Nobody is left to come.').waitFor();
  await page.getByText('Shown here: 2').click();
  await page.getByText('competent, kept here, not sent yet').nth(1).waitFor();
  await held(page, 'shown here');
}

// nextDay is after midnight, with a pack that still holds: of yesterday's stations nothing
// begins, also where the name check had stood open.
async function nextDay(page, at) {
  await page.context().setOffline(true);
  await page.goto('/bedside/' + at);
  await page.getByLabel('a manikin, test lung or spare', { exact: true }).check();
  await page.getByLabel('a formal demonstration').check();
  const before = await count(page, 'sheets');
  await page.clock.fastForward('15:00:00');
  await page.getByRole('button', { name: /^This is / }).click();
  await page.getByText('What you checked is not what stands in the pack now.').waitFor();
  if (await count(page, 'sheets') !== before) faults.push('a sheet has begun on another day');
  await page.goto('/bedside/#/');
  await page.getByText(/^Pack of /).waitFor();
  await wrong('stations of yesterday', station(page, 1), 0);
  await page.goto('/bedside/' + at);
  await page.getByRole('heading', { level: 1, name: 'This cannot be begun' }).waitFor();
}

try {
  const page = await open();
  await page.clock.install({ time: new Date(job.now) }); // the office's own, which stands still
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await arrive(page, job);
  await enrol(page, 'Grey tablet');
  await station(page, 1).waitFor();
  await wrong('stations of others', station(page, 2), 0);
  await station(page, 4).waitFor();
  await page.getByText('Nothing shown here can count. The agency no longer looks after Odo').waitFor();
  const at = await begins(page, 1, job.learners[1]).getAttribute('href');
  await offline(page);
  await page.context().setOffline(false);
  await page.getByText('0 sheets not sent').waitFor({ timeout: 90000 });
  await page.getByText('competent, waits for a signature').nth(1).waitFor();
  const sheets = (await all(page)).map((s) => ({ id: s.id, state: s.state, learner: s.learner.name, text: s.text }));
  if (await count(page, 'pack') !== 1) faults.push('the pack is gone');
  await nextDay(page, at);
  process.stdout.write(JSON.stringify({ sheets, faults: faults.filter((f) => !f.includes('ERR_INTERNET_DISCONNECTED')) }));
} catch (fault) {
  for (const page of browser.contexts().flatMap((c) => c.pages())) console.error(page.url(), 'shows:', await page.locator('body').innerText().catch(() => ''));
  throw fault;
} finally {
  await browser.close();
}
