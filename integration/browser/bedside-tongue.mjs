// Two demonstrations without a network by a mother who reads another language than the
// observer: one by a pack that says nothing of languages, one by a pack of today. What she
// reads while the device is hers comes back; the rest is looked at here.

import { arrive, begin, enrol, go, kept, mark, setClock, stopForSafety } from './bedside.mjs';
import { held } from './bedside-eyes.mjs';
import { draw } from './bedside-moves.mjs';
import { browser, faults, job, look, open } from './browser.mjs';

const read = {};

// words are what the page says in its own language, to eyes and to a screen reader: what is
// marked as another one is left out.
const words = (page) => page.evaluate(() => {
  const { lang } = document.documentElement;
  const said = [document.title];
  for (const e of document.body.querySelectorAll('*')) {
    if (e.closest('svg:not([aria-label]), script') || e.closest('[lang]').lang !== lang) continue;
    if (e.hasAttribute('aria-label')) said.push(e.getAttribute('aria-label'));
    if (![...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent.trim())) continue;
    const own = e.cloneNode(true);
    own.querySelectorAll(`[lang]:not([lang="${lang}"])`).forEach((other) => other.remove());
    said.push(own.textContent.replace(/\s+/g, ' ').trim());
  }
  return said.filter(Boolean);
});

// inTheirs keeps what is read by the learner, and looks at the page at every size.
async function inTheirs(page, name) {
  const { lang, dir } = await page.evaluate(() => ({ lang: document.documentElement.lang, dir: document.documentElement.dir }));
  if (lang !== job.language || dir !== 'ltr') faults.push(`${name} says that it is in ${lang}, ${dir}`);
  await held(page, `tongue ${name}`);
  read[name] = await words(page);
}

async function inEnglish(page, name) {
  const lang = await page.evaluate(() => document.documentElement.lang);
  if (lang !== 'en') faults.push(`${name} says that it is in ${lang}`);
  await look(page, `bedside-tongue-${name.replaceAll(' ', '-')}`);
}

// stopped ends a demonstration for safety, of which something was unsafe.
async function stopped(page) {
  await begin(page, { observe: job.observe, learner: job.learner, real: true, formal: true, place: 'At home' });
  await mark(page, 'Unsafe');
  await go(page, 2);
  await stopForSafety(page);
  await page.getByLabel('What you said and heard', { exact: true }).fill('We looked at the bag together.');
  await page.getByRole('link', { name: `Hand over to ${job.learner}` }).click();
}

const close = (page) => page.getByRole('button', { name: `This is ${job.learner}: finish and keep` }).click();
const sent = (page) => page.getByRole('heading', { level: 1, name: 'The office has it: stopped for safety' }).waitFor();

async function observer() {
  const page = await open({ viewport: { width: 360, height: 640 }, hasTouch: true });
  await setClock(page.context(), job.now);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  return page;
}

// before has a device take a pack of before along, and a language that it does not know.
async function before(language) {
  const page = await observer();
  await page.route('**/bedside/pack?*', async (route) => {
    const answer = await route.fetch();
    const { tongues, ...pack } = await answer.json();
    pack.learners.forEach((l) => { if (language) l.language = language; else delete l.language; });
    await route.fulfill({ response: answer, json: language ? { ...pack, tongues } : pack });
  });
  await arrive(page, job);
  await enrol(page, 'Old tablet');
  await page.context().setOffline(true);
  await stopped(page);
  await page.getByRole('heading', { level: 1, name: `${job.learner}, see how it went` }).waitFor();
  await inEnglish(page, 'what is handed over by an old pack');
  await draw(page);
  await page.getByRole('link', { name: 'Give the device back' }).click();
  await page.getByText('Drawn.').waitFor();
  await page.context().setOffline(false);
  await close(page);
  await sent(page);
  const [sheet] = await kept(page);
  await page.context().close();
  return sheet;
}

// theirs is the mother's turn at the device: she draws without a network, and signs with one.
async function theirs(page) {
  await page.context().setOffline(true);
  await stopped(page);
  await page.getByRole('heading', { level: 1, name: job.seen }).waitFor();
  await inTheirs(page, 'seen');
  await draw(page);
  await page.locator('#said').getByText(job.kept).waitFor({ state: 'attached' });
  await page.locator('#give-back').click();
  await page.getByRole('heading', { level: 1, name: 'Provisional: stopped for safety' }).waitFor();
  await page.getByText('Drawn.').waitFor();
  await inEnglish(page, 'what was given back');
  await page.context().setOffline(false);
  await close(page);
  await sent(page);
  await page.locator('#hand-over').click();
  await page.getByRole('heading', { level: 1, name: job.sign }).waitFor();
  await page.locator('#secret-learner').fill('not the password');
  await page.locator('.sign button.main').click();
  await page.locator('.sign p.fault svg').waitFor();
  await inTheirs(page, 'sign');
  await page.locator('#secret-learner').fill(job.password);
  await page.locator('.sign button.main').click();
  await page.getByRole('heading', { level: 1, name: job.thanks }).waitFor();
  await inTheirs(page, 'thanks');
  await page.locator('#give-back').click();
  await page.getByText(`${job.learner} has signed.`).waitFor();
  await inEnglish(page, 'what was given back once signed');
}

try {
  const old = await before('');
  const unknown = await before('xx');
  const page = await observer();
  await arrive(page, job);
  await enrol(page, 'Grey tablet');
  await theirs(page);
  const sheets = [old, unknown, ...await kept(page)];
  const expected = (f) => f.includes('422') || f.includes('ERR_INTERNET_DISCONNECTED');
  process.stdout.write(JSON.stringify({ sheets, read, faults: faults.filter((f) => !expected(f)) }));
} catch (fault) {
  for (const page of browser.contexts().flatMap((c) => c.pages())) console.error(page.url(), 'shows:', await page.locator('body').innerText().catch(() => ''));
  throw fault;
} finally {
  await browser.close();
}
