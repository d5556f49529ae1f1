// A mother on her phone, in her language: from the invitation that she was handed, over
// the password and what is left, to the list for the meeting. The job says what the pages
// are called. Every page's words come back, and so does the PDF.

import { browser, faults, job, look, open } from './browser.mjs';

const pages = {};

// words are what a page says to whoever reads it, line by line, without what is marked as
// being in another language, and without what is not shown.
const words = (page, language) => page.evaluate((language) => {
  const lines = [];
  const walk = (e) => {
    for (const n of e.childNodes) {
      if (n.nodeType === Node.TEXT_NODE) continue;
      if (n.nodeType !== Node.ELEMENT_NODE || n.matches('script, style, svg, code')) continue;
      if (n.lang && n.lang !== language) continue;
      const own = [...n.childNodes].filter((c) => c.nodeType === Node.TEXT_NODE && c.textContent.trim());
      if (own.length) lines.push(n.textContent.replace(/\s+/g, ' ').trim());
      else walk(n);
    }
  };
  walk(document.body);
  return [document.title, ...lines];
}, language);

// meets holds a page to 320 px, to axe and to its language, and keeps what it says.
async function meets(page, name) {
  await page.evaluate(() => document.querySelectorAll('details').forEach((d) => { d.open = true; }));
  await page.setViewportSize({ width: 320, height: 740 });
  await look(page, `way-home-${name}`);
  const language = await page.evaluate(() => document.documentElement.lang);
  if (language !== job.language) faults.push(`${name} says that it is in ${language}`);
  pages[name] = await words(page, job.language);
}

async function choosePassword(page) {
  await page.goto(job.invitation);
  await meets(page, 'invitation');
  await page.locator('#field-new').fill(job.password);
  await page.locator('#field-again').fill(job.password);
  await page.locator('main form button.main').tap();
  await page.locator('#field-password').waitFor();
  await meets(page, 'sign-in');
  await page.locator('#field-email').fill(job.email);
  await page.locator('#field-password').fill(job.password);
  await page.locator('main form button.main').tap();
  await page.getByRole('heading', { level: 1, name: job.home }).waitFor();
}

try {
  const page = await open();
  await choosePassword(page);
  await meets(page, 'home');
  for (const [name, path] of Object.entries(job.paths)) {
    const answer = await page.goto(path);
    if (answer.status() !== 200) faults.push(`${name} answers ${answer.status()}`);
    await meets(page, name);
  }
  await page.goto('/home');
  // A browser without a window saves no PDF that it would show, so its address is asked for
  // with the same cookie.
  const file = await page.request.get(await page.locator('a[href*="readiness.pdf"]').first().getAttribute('href'));
  if (file.status() !== 200) faults.push(`the PDF answers ${file.status()}`);
  process.stdout.write(JSON.stringify({ pages, pdf: (await file.body()).toString('base64'), faults }));
} finally {
  await browser.close();
}
