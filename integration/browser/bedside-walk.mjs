// A walk through every state of the page at the bedside, as an educator comes to it: a
// device is enrolled, two sheets are marked, things go wrong. At each state `at` is
// told its name and the page that shows it.
//
// The job has the addresses of two pairs of learner and skill (`see`), the first of
// which the office refuses to take as a pass, and for each the steps with their values.

import { begin, draw, give, go, mark, says } from './bedside-moves.mjs';
import { faults, job } from './browser.mjs';

export async function walk(context, at) {
  const page = await context.newPage();
  await page.clock.install({ time: new Date(job.now) }); // the office's own, which stands still
  await enrol(page, at);
  await stations(page, at);
  await nameCheck(page, at);
  await steps(page, at);
  await asked(page, at);
  await stopped(page, at);
  await twoTabs(context, page, at);
  await full(page, at);
  await refused(context, page, at);
  await taken(page, at);
  await runOut(context, page, at);
}

// inSight is says, for what must be seen by whoever has just tapped: without scrolling.
async function inSight(page, words) {
  await says(page, words);
  const box = await page.locator('#top, #main').getByText(words).first().boundingBox();
  if (box.y < 0 || box.y + box.height > page.viewportSize().height) faults.push(`“${words}” is out of sight`);
}

async function enrol(page, at) {
  await page.goto('/bedside/');
  await page.locator('#enrol').waitFor();
  await at('01 not enrolled', page);
  await page.locator('#enrol').click();
  await page.getByLabel('Name of this device').fill('Ward tablet 2');
  await at('02 enrolling', page);
  await page.getByRole('button', { name: 'Enrol this device' }).click();
  await page.getByRole('heading', { level: 1, name: 'Whom do you see?' }).waitFor();
  await at('03 people', page, { whole: true });
}

// stations is a skills day: own stations with who is to come, who cannot count there, the
// name check at a station, and what nobody asks for.
async function stations(page, at) {
  await page.locator('[id^="fold-vain-"]').first().click();
  await page.getByRole('link', { name: /^Practise: / }).first().waitFor();
  await page.locator('[id^="fold-other-"]').last().click();
  await at('03 people, all unfolded', page, { whole: true });
  await page.getByRole('link', { name: /^Begin: .*station 1$/ }).first().click();
  await says(page, 'Station 1 of');
  await at('03 name check at a station', page, { whole: true });
  await page.goBack();
  await page.getByRole('link', { name: /^Practise: / }).first().click();
  await says(page, 'It cannot count:');
  await at('03 name check, cannot count', page, { whole: true });
  await page.goBack();
  for (const fold of ['vain', 'other']) await page.locator(`[id^="fold-${fold}-"]`)[fold === 'vain' ? 'first' : 'last']().click();
}

async function nameCheck(page, at) {
  await page.locator(`[id="${job.sheets[0].see}"]`).click();
  await page.locator('#this-is').waitFor();
  await at('04 name check', page);
  await page.locator('#this-is').click();
  await inSight(page, 'Before it can begin');
  await at('05 name check, something lacks', page);
  await page.goBack();
  await begin(page, job.sheets[0].see);
  await at('06 name check, ready', page);
  await page.locator('#this-is').click();
  await page.locator('#step').waitFor();
}

const of = (kind) => job.sheets[0].steps.find((s) => s.kind === kind).number;

async function steps(page, at) {
  for (const kind of ['plain', 'critical', 'timed', 'measured']) {
    await go(page, of(kind));
    await at(`07 step, ${kind}`, page);
  }
  await go(page, of('timed'));
  await page.locator('#clock-0').click();
  await page.locator('.face').waitFor();
  await page.waitForTimeout(1200);
  await at('08 stopwatch runs', page);
  await go(page, of('plain'));
  await at('09 stopwatch runs at another step', page);
  await go(page, of('timed'));
  await page.locator('#clock-0').click();
  await go(page, of('measured'));
  await page.locator('#value-0').click();
  await at('10 number pad', page);
  await page.locator('#reading').fill('999');
  await at('11 number pad, out of range', page);
  await page.getByRole('button', { name: 'Leave it' }).click();
  await go(page, of('plain'));
  await give(page, 'cued');
  await go(page, of('plain'));
  await at('12 step marked', page);
}

async function asked(page, at) {
  await page.locator('#note').click();
  await page.getByLabel('Words of your own').fill('Paused at the second clamp, then went on without a word.');
  await at('13 note', page);
  await page.getByRole('button', { name: 'Keep the words' }).click();
  await says(page, 'Paused at the second clamp');
  await page.locator('#help').click();
  await at('14 help', page);
  await page.getByRole('button', { name: 'Close' }).click();
  await page.locator('#finish').click();
  await says(page, 'Not yet:');
  await at('15 finish with open steps', page);
  const id = new URL(page.url()).hash.split('/')[2];
  await page.evaluate((id) => { location.hash = `#/finish/${id}`; }, id);
  await page.getByRole('heading', { level: 1, name: 'still open' }).waitFor();
  await at('16 list of open steps', page);
  await page.getByRole('link', { name: 'Go on marking' }).click();
  await page.locator('#step').waitFor();
}

async function stopped(page, at) {
  const box = await page.locator('#stop').boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.clock.pauseAt(await page.evaluate(() => Date.now() + 5000)); // a second would stop it
  await page.mouse.down();
  await at('17 stop held', page, { asItIs: true });
  await page.mouse.move(2, 2);
  await page.mouse.up();
  await page.clock.resume();
  await page.locator('#stop').click();
  await page.getByRole('button', { name: 'Stop now' }).waitFor();
  await at('18 stop asked', page);
  await page.getByRole('button', { name: 'Stop now' }).click();
  await page.locator('#what-happened').waitFor();
  await at('19 stopped for safety', page);
  await page.locator('#what-happened').click();
  await at('20 what happened', page);
  await page.getByRole('button', { name: 'The tube moved or came out' }).click();
  await page.getByRole('button', { name: 'Keep the words' }).click();
  await page.getByRole('button', { name: 'Change the words' }).waitFor();
  await at('21 stopped, with words', page);
  await page.locator('#resume').click();
  await page.getByRole('button', { name: 'Tapped by mistake' }).click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.locator('#step').waitFor();
}

async function twoTabs(context, page, at) {
  const second = await context.newPage();
  await second.clock.install({ time: new Date(job.now) });
  await second.goto(page.url());
  await second.locator('#take-over').waitFor();
  await at('22 open in another tab', second);
  await second.close();
}

// full gives the page less room than it uses already, as a full tablet does. For half
// a minute the browser goes by how much room there was: marks are given until it looks.
async function full(page, at) {
  const cdp = await page.context().newCDPSession(page);
  const origin = new URL(job.base).origin;
  const retry = page.locator('#retry');
  await cdp.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
  for (let tries = 0; tries < 60 && !await retry.count(); tries++) {
    await go(page, of('critical'));
    await page.locator(tries % 2 ? '#give-cued' : '#give-independent').click();
    await page.waitForTimeout(1000);
  }
  await retry.waitFor();
  await at('23 no room left', page);
  await cdp.send('Storage.overrideQuotaForOrigin', { origin });
  await retry.click();
  await retry.waitFor({ state: 'detached' });
}

// refused is a sheet that is finished with the network off, waits, and is not taken.
async function refused(context, page, at) {
  await context.setOffline(true);
  await says(page, 'No network.');
  await at('24 offline, marking', page);
  await mark(page, job.sheets[0]);
  await at('25 finish, with the outcome', page);
  await page.locator('#hand-to-draw').click();
  await draw(page);
  await at('26 drawn signature', page);
  await page.locator('#give-back').click();
  await says(page, 'Drawn.');
  await page.locator('#close-sheet').click();
  await page.getByRole('heading', { level: 1, name: 'not sent yet' }).waitFor();
  await at('27 kept, not sent yet', page);
  await page.goto('/bedside/#/waiting');
  await page.getByRole('heading', { level: 1, name: 'waits to be sent' }).waitFor();
  await at('28 outbox, one waits', page);
  await page.goto('/bedside/#/');
  await page.locator('#today').waitFor();
  await page.locator('[id^="fold-shown-"]').first().click();
  await at('29 people, offline', page, { whole: true });
  await context.setOffline(false);
  await page.goto('/bedside/#/waiting');
  await says(page, 'Not taken:');
  await at('30 outbox, one refused', page);
}

// taken is a sheet that the office has, and that both sign.
async function taken(page, at) {
  await page.goto('/bedside/#/');
  await begin(page, job.sheets[1].see);
  await page.locator('#this-is').click();
  await page.locator('#step').waitFor();
  await mark(page, job.sheets[1]);
  await page.locator('#close-sheet').click();
  await page.getByRole('heading', { level: 1, name: 'The office has it' }).waitFor();
  await at('31 the office has it', page);
  await page.locator('#hand-over').click();
  await handed(page, at);
  await page.locator('#give-back').click();
  await says(page, `${job.sheets[1].learner} has signed.`);
  await page.locator('#secret-observer').fill(job.password);
  await page.getByRole('button', { name: 'Sign as observer' }).click();
  await says(page, `${job.sheets[1].observer} has signed.`);
  await at('32 both have signed', page);
  await page.goto('/bedside/#/device');
  await page.getByRole('heading', { level: 1, name: 'This device is enrolled' }).waitFor();
  await at('33 this device', page);
}

// handed is what a learner is handed: no way leads from it but to give the device back,
// nobody else who learns is named, and a wrong password is said to be one.
async function handed(page, at) {
  await page.getByRole('heading', { level: 1, name: 'read and sign' }).waitFor();
  await at('31 handed to the learner', page);
  const ways = await page.locator('#top a, #main a').allInnerTexts();
  if (ways.length !== 1) faults.push(`handed to the learner: ways lead to ${ways.join(', ')}`);
  for (const other of ['Olu Hart', 'Ada Moe']) if (await page.locator('body').getByText(other).count()) faults.push(`handed to the learner: ${other} is named`);
  await page.locator('#secret-learner').fill('not the password');
  await page.getByRole('button', { name: 'Sign as learner' }).click();
  await says(page, 'One thing needs mending. ');
  const said = await page.locator('.sign p.fault').innerText();
  if (!/password/i.test(said)) faults.push(`a wrong password is told as “${said}”`);
  await at('31 wrong password', page);
  await page.locator('#secret-learner').fill(job.learnerPassword);
  await page.getByRole('button', { name: 'Sign as learner' }).click();
  await page.getByRole('heading', { level: 1, name: 'Thank you' }).waitFor();
  await at('31 the learner has signed', page);
}

async function runOut(context, page, at) {
  await context.setOffline(true);
  await page.clock.fastForward('25:00:00');
  await page.goto('/bedside/#/');
  await page.getByRole('heading', { level: 1, name: 'The pack has run out' }).waitFor();
  await at('34 the pack has run out', page);
  await context.clearCookies();
  await context.setOffline(false);
  await says(page, 'You are signed out');
  await at('35 signed out', page);
}
