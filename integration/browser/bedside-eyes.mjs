// Looking at a state of the bedside in more ways than at any page: at every size, by
// light and in the dark, with large and with spaced text, from right to left, by keys.

import { faults, job } from './browser.mjs';
import { axe, cut, keyboard, moving, spacing, turned, wide } from './wcag.mjs';

const phone = { width: 360, height: 640 };
// SC 1.3.4, Orientation: the phone on its side; SC 1.4.10, Reflow: 320 by 256.
const sizes = [{ width: 820, height: 1180 }, { width: 1280, height: 800 }, { width: 640, height: 360 }, { width: 320, height: 256 }, phone];

// held looks at what is shown now and leaves the page as it found it.
export async function held(page, name) {
  const tell = (found, how) => faults.push(...found.map((f) => `${name}, ${how}: ${f}`));
  for (const size of sizes) {
    await page.setViewportSize(size);
    await picture(page, `${name}-${size.width}x${size.height}`);
    tell([...await wide(page), ...await cut(page)], `${size.width} × ${size.height}`);
  }
  tell([...await axe(page), ...await moving(page), ...await small(page)], 'light');
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, `${name}-dark`);
  tell(await axe(page), 'dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await enlarge(page, 32); // SC 1.4.4, Resize Text
  await picture(page, `${name}-200`);
  tell([...await wide(page), ...await cut(page)], 'text at 200 %');
  await enlarge(page, 16);
  await spacing(page, true);
  tell([...await wide(page), ...await cut(page)], 'spaced');
  await spacing(page, false);
  await turned(page, true);
  tell(await wide(page), 'right to left');
  await turned(page, false);
  if (!await page.locator('dialog[open]').count()) tell(await keyboard(page), 'by keys');
}

async function picture(page, name) {
  if (job.shots) await page.screenshot({ path: `${job.shots}/bedside-${name.replaceAll(' ', '-')}.png` });
}

async function enlarge(page, standard) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Page.setFontSizes', { fontSizes: { standard, fixed: 13 } });
  await cdp.detach();
}

// small finds what a gloved thumb would miss: what is pressed while marking has 56 px,
// all else 48. SC 2.5.5, Target Size (Enhanced), of level AAA, asks for 44.
const small = (page) => page.evaluate(() => [...document.querySelectorAll('button, a.act, .choice, .tick')]
  .filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < (e.matches('.give, .stop, .key, .clock, .reading') ? 56 : 48) - 0.5)
  .map((e) => `hard to hit: ${e.outerHTML.slice(0, 120)}`));
