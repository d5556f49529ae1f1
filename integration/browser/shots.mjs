// Takes a picture of every page of the job at each size, in light and in dark, for
// somebody to look at, and a sheet that shows them all.

import { browser, faults, job } from './browser.mjs';
import { drawn, emptied, sheet, sizes } from './pictures.mjs';
import { unfold } from './wcag.mjs';

async function take(page, { name, path }) {
  await page.goto(path);
  for (const size of sizes) {
    await page.setViewportSize(size);
    for (const colorScheme of ['light', 'dark']) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      await drawn(page);
      await page.screenshot({ path: `${job.out}/${name}-${size.width}x${size.height}-${colorScheme}.png`, fullPage: true });
    }
  }
  // What is folded away, once, on the phone.
  if (!await page.locator('details:not([open])').count()) return;
  await page.setViewportSize(sizes[0]);
  await page.emulateMedia({ colorScheme: 'light' });
  await unfold(page);
  await page.screenshot({ path: `${job.out}/${name}-unfolded.png`, fullPage: true });
}

try {
  emptied(job.out);
  for (const visitor of job.visitors) {
    const left = visitor.pages.slice();
    // Each in a window of its own: of two pages in one window only the front one is drawn for certain.
    await Promise.all([0, 1].map(async () => {
      const context = await browser.newContext({ baseURL: job.base });
      if (visitor.cookie) await context.addCookies([{ ...visitor.cookie, url: job.base }]);
      const page = await context.newPage();
      for (let next = left.shift(); next; next = left.shift()) await take(page, next);
      await context.close();
    }));
  }
  process.stdout.write(JSON.stringify({ pictures: sheet(job.out), faults }));
} finally {
  await browser.close();
}
