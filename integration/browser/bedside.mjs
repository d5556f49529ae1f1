// What a person does on the page of the bedside, for scripts that drive it: every
// control is found by its role and its name, as a screen reader finds it.

// setClock has a page of the bedside go by the clock of the test's office from now on.
export async function setClock(context, now) {
  await context.addInitScript((ahead) => {
    const Real = Date;
    const real = Real.now;
    globalThis.Date = class extends Real {
      constructor(...given) { super(...(given.length ? given : [real() + ahead])); }
      static now() { return real() + ahead; }
    };
  }, Date.parse(now) - Date.now());
}

// arrive signs in on the site's own page and comes to the bedside; base is the site's
// address, where the browser was not told.
export async function arrive(page, { email, password, base = '' }) {
  await page.goto(base + '/sign-in?next=/bedside/');
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL('**/bedside/**');
}

// enrol gives the device its key and waits for the day's pack, and for the worker that
// keeps the page.
export async function enrol(page, name) {
  await page.getByRole('link', { name: 'Enrol this device' }).click();
  await page.getByLabel('Name of this device').fill(name);
  await page.getByRole('button', { name: 'Enrol this device' }).click();
  await page.getByText(/^Pack of /).waitFor();
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller) await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
  });
}

// begin checks the name and opens a sheet. observe is the accessible name of its link.
export async function begin(page, { observe, learner, real, formal, place }) {
  await page.getByRole('link', { name: observe, exact: true }).click();
  await page.getByRole('heading', { level: 1, name: learner, exact: true }).waitFor();
  const manikinOnly = await page.getByText('On a manikin, test lung or spare only').count();
  if (!manikinOnly) await page.getByLabel(real ? 'the child' : 'a manikin, test lung or spare', { exact: true }).check();
  await page.getByLabel(formal ? 'a formal demonstration' : 'practice').check();
  await page.getByLabel('Place').fill(place);
  await page.getByRole('button', { name: `This is ${learner}` }).click();
  await page.waitForURL(/#\/sheet\//);
  await page.locator('[aria-current="step"]').waitFor();
}

// at is the number of the step that is open.
export async function at(page) {
  return Number((await page.locator('[aria-current="step"] > .mark').textContent()).replace(/\D/g, ''));
}

// go opens a step of the list.
export async function go(page, step) {
  if (await at(page) === step) return;
  await page.locator(`#go-${step}`).click();
  await page.waitForURL(new RegExp(`/${step}$`));
}

// value types a reading on the number pad.
export async function value(page, name, text) {
  await page.locator('.measure').filter({ has: page.getByText(name, { exact: true }) }).locator('.reading').click();
  await page.getByRole('dialog').getByLabel(name, { exact: true }).fill(text);
  await page.getByRole('button', { name: 'Keep the value' }).click();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
}

// time has the clock of a step run for a moment.
export async function time(page, name, ms) {
  await page.getByRole('button', { name: `Start clock: ${name}` }).click();
  await page.waitForTimeout(ms);
  await page.getByRole('button', { name: `Stop clock: ${name}` }).click();
}

// mark gives a mark at the step that is open and waits until it is kept: the button is
// shown as pressed, or the next step has come.
export async function mark(page, word) {
  const step = await at(page);
  await page.getByRole('button', { name: word, exact: word !== 'Unsafe' }).click();
  await page.waitForFunction(({ step, word }) => {
    const now = document.querySelector('[aria-current="step"] > .mark');
    const pressed = document.querySelector('.give[aria-pressed="true"]');
    return !now || Number(now.textContent.replace(/\D/g, '')) !== step || pressed?.textContent.startsWith(word);
  }, { step, word });
}

// settled waits until another step than this one is open, or the end has come.
export const settled = (page, step) => page.waitForFunction((step) => location.hash.startsWith('#/finish/') || Number(location.hash.split('/').at(-1)) !== step, step);

// all reads the sheets that the device keeps, as they are.
export const all = (page) => page.evaluate(() => new Promise((done, failed) => {
  const asked = indexedDB.open('wellshown-bedside');
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const sheets = asked.result.transaction('sheets').objectStore('sheets').getAll();
    sheets.onerror = () => failed(sheets.error);
    sheets.onsuccess = () => {
      asked.result.close();
      done(sheets.result);
    };
  };
}));

// count tells how many things a store of the device holds.
export const count = (page, store) => page.evaluate((store) => new Promise((done, failed) => {
  const asked = indexedDB.open('wellshown-bedside');
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const number = asked.result.transaction(store).objectStore(store).count();
    number.onerror = () => failed(number.error);
    number.onsuccess = () => {
      asked.result.close();
      done(number.result);
    };
  };
}), store);

// kept is all in short: {id, state, turn, refusal, stopped, marks: {step: mark}}.
export async function kept(page) {
  return (await all(page)).map((s) => ({ id: s.id, state: s.state, turn: s.turn, refusal: s.refusal?.words ?? '', stopped: s.stopped,
    marks: Object.fromEntries(Object.entries(s.marks).map(([no, m]) => [no, m.not_applicable ? 'not applicable' : m.mark ?? ''])) }));
}

// finish ends a sheet on the last screen.
export async function finish(page, learner) {
  await page.getByRole('heading', { level: 1, name: /^Provisional: / }).waitFor();
  await page.getByRole('button', { name: `This is ${learner}: finish and keep` }).click();
  await page.waitForURL(/#\/after\//);
}

// sign signs one part of a sheet that the office has taken; the learner is handed the
// device, and gives it back.
export async function sign(page, part, name, secret) {
  if (part === 'learner') await page.getByRole('link', { name: `Hand over to ${name}` }).click();
  await page.getByLabel(new RegExp(`^(Password|PIN) of ${name}$`)).fill(secret);
  await page.getByRole('button', { name: `Sign as ${part}` }).click();
  if (part === 'learner') await page.getByRole('link', { name: 'Give the device back' }).click();
  await page.getByText(`${name} has signed.`).waitFor();
}

// stopForSafety ends a demonstration because equipment failed, and goes to its end.
export async function stopForSafety(page) {
  await page.getByRole('button', { name: 'Stop for safety' }).click();
  await page.getByRole('dialog').getByRole('button', { name: /^Stop/ }).click();
  await page.getByRole('button', { name: 'Say what happened' }).click();
  await page.getByRole('button', { name: 'Equipment failed' }).click();
  await page.getByRole('button', { name: 'Keep the words' }).click();
  await page.getByRole('button', { name: 'Finish it as it is' }).click();
}
