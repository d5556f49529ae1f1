// A mother reads a lesson on her phone, keeps it, reads it again with the network off, and
// takes it away. The job says who she is.

import { browser, faults, job, look, open } from './browser.mjs';

async function signIn(page) {
  await page.goto('/sign-in');
  await page.locator('[name=email]').fill(job.email);
  await page.locator('[name=password]').fill(job.password);
  await page.keyboard.press('Enter');
  await page.waitForURL((url) => url.pathname !== '/sign-in');
}

// stored is every text that the browser keeps of the lessons.
const stored = (page) => page.evaluate(async () => {
  let all = '';
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const key of await cache.keys()) all += `${key.url}\n${await (await cache.match(key, { ignoreVary: true })).text()}\n`;
  }
  return all;
});

const page = await open({ viewport: { width: 320, height: 640 }, isMobile: true, hasTouch: true });
const come = { titles: [] };
await signIn(page);
await page.goto('/learn');
await look(page, 'learn');
await page.locator(`a[href="/learn/${job.code}"]`).click();
await page.locator('[data-act=keep]:visible').waitFor();
await look(page, 'lesson');
come.titles.push(await page.locator('h1').innerText());
await page.locator('[data-act=keep]:visible').click();
await page.locator('[data-act=remove]:visible').waitFor();
const kept = await stored(page);
come.names = job.names.filter((name) => kept.includes(name));
come.kept = kept.length;

await page.context().setOffline(true);
const before = faults.length;
for (const at of [`/learn/${job.code}`, `/learn/${job.code}/copy?in=es`]) {
  await page.goto(at);
  come.titles.push(await page.locator('h1').innerText());
  await look(page, 'copy with the network off');
}
come.drawn = await page.locator('.picture svg path').count();
await page.goto('/learn');
await page.locator('[data-kept] li a').waitFor();
come.titles.push(await page.locator('[data-kept] li a').innerText());
await look(page, 'list with the network off');
const other = await page.goto(`/learn/${job.other}`);
come.other = new URL(other.url()).pathname + ' ' + await page.locator('h1').innerText();
faults.splice(before, faults.length, ...faults.slice(before).filter((f) => !f.includes('ERR_INTERNET_DISCONNECTED')));

await page.context().setOffline(false);
await page.goto('/learn/kept');
await page.locator('[data-kept] button').click();
await page.locator('[data-none]:visible').waitFor();
come.left = await stored(page);
come.workers = await page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length);
await browser.close();
process.stdout.write(JSON.stringify({ ...come, faults }));
