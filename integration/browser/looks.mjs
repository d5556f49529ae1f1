// What a page can be held to: at what size, in which colours, in what way it is changed
// before and put right after, and what is then checked.

import { axe, cut, keyboard, moving, spacing, squeezed, turned, wide } from './wcag.mjs';

export const phone = { width: 360, height: 640 };
const desk = { width: 1280, height: 800 };
export const looks = {
  'phone, light': { size: phone, checks: [axe, wide, cut, squeezed, moving] },
  'phone, dark': { size: phone, dark: true, checks: [axe] },
  'desk, light': { size: desk, checks: [axe, wide, cut, squeezed] },
  'desk, dark': { size: desk, dark: true, checks: [axe] },
  'tablet': { size: { width: 820, height: 1180 }, checks: [wide, cut, squeezed] },
  // SC 1.3.4, Orientation: the phone held the other way.
  'phone on its side': { size: { width: 640, height: 360 }, checks: [wide] },
  // SC 1.4.10, Reflow: 320 by 256 CSS pixels, which is 1280 by 1024 at 400 %.
  'reflow': { size: { width: 320, height: 256 }, checks: [wide, squeezed] },
  // SC 1.4.4, Resize Text: twice the size that the reader's browser has otherwise.
  'text at 200 %': { size: phone, change: (page, on) => enlarge(page, on), checks: [wide, cut] },
  'text at 200 %, desk': { size: desk, change: (page, on) => enlarge(page, on), checks: [wide, cut] },
  'text spacing': { size: phone, change: spacing, checks: [wide, cut] }, // SC 1.4.12, Text Spacing
  // No criterion of level A or AA: right to left, as for readers of Arabic or Hebrew.
  'right to left': { size: phone, change: turned, checks: [wide] },
  'right to left, reflow': { size: { width: 320, height: 640 }, change: turned, checks: [wide] },
  'menu open': { size: phone, change: (page, on) => menu(page, on), checks: [axe, wide] },
  'keys, phone': { size: phone, checks: [keyboard] },
  'keys, desk': { size: desk, checks: [keyboard] },
};

// menu opens the menu of a page that has one in a layer of its own.
const menu = (page, on) => page.evaluate((on) => document.querySelector('.menu[popover]')?.[on ? 'showPopover' : 'hidePopover'](), on);

async function enlarge(page, on) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Page.setFontSizes', { fontSizes: { standard: on ? 32 : 16, fixed: on ? 26 : 13 } });
  await cdp.detach();
}

// lookAt gives what is wrong with what a page shows now, in one look.
export async function lookAt(page, name) {
  const { size, dark, change, checks } = looks[name];
  const wrong = [];
  await page.setViewportSize(size);
  await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' });
  await change?.(page, true);
  for (const check of checks) wrong.push(...await check(page));
  await change?.(page, false);
  return wrong;
}
