// What a page is held to, each check beside the success criterion of WCAG 2.2
// that asks for it. All of them work on a page that is shown at this moment.

import { axeSource } from './browser.mjs';

// Everything of levels A and AA that a program can tell; target-size (SC 2.5.8,
// Target Size (Minimum)) is off in axe-core unless it is asked for by name.
const asked = {
  runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] },
  rules: { 'target-size': { enabled: true } },
  resultTypes: ['violations'], preload: false,
};

// axe gives the violations that axe-core finds. Its rules name their criteria.
export async function axe(page) {
  if (!await page.evaluate(() => 'axe' in globalThis)) await page.evaluate(axeSource);
  const found = await page.evaluate((asked) => globalThis.axe.run(document, asked), asked);
  return found.violations.map((v) => `${v.id} (${v.tags.filter((t) => /^wcag\d{3,}$/.test(t)).join(' ')}): ${v.nodes.map((n) => n.html.slice(0, 200)).join(' | ')}`);
}

// unfold opens whatever a page folds away, so that all of it is looked at.
export const unfold = (page) => page.evaluate(() => document.querySelectorAll('details').forEach((d) => (d.open = true)));

// wide says by how much the page scrolls sideways: SC 1.4.10, Reflow, at 320 px;
// tables and grids, which need two dimensions, scroll in a box of their own.
export async function wide(page) {
  const [over, widest] = await page.evaluate(() => {
    const room = document.documentElement.clientWidth;
    const over = document.documentElement.scrollWidth - room;
    if (over <= 0) return [0, ''];
    const out = [...document.querySelectorAll('body *')].filter((e) => {
      const r = e.getBoundingClientRect();
      return r.width && (r.right > room + 0.5 || r.left < -0.5) && !e.closest('.scroll, .vh, .sprite');
    });
    return [over, out.slice(-1).map((e) => e.outerHTML.slice(0, 160)).join()];
  });
  return over > 0 ? [`${over} px too wide: ${widest}`] : [];
}

// cut finds text that its box hides: SC 1.4.4, Resize Text, and SC 1.4.12, Text
// Spacing, ask that no content is lost. What is for screen readers alone is meant to hide.
export async function cut(page) {
  return await page.evaluate(() => [...document.querySelectorAll('body *')].filter((e) => {
    if (!e.textContent.trim() || e.closest('.vh, svg, select, textarea') || !e.checkVisibility()) return false;
    const style = getComputedStyle(e);
    const hides = (way) => way === 'hidden' || way === 'clip';
    return (hides(style.overflowX) && e.scrollWidth > e.clientWidth + 1) || (hides(style.overflowY) && e.scrollHeight > e.clientHeight + 1);
  }).map((e) => `text is cut off: ${e.outerHTML.slice(0, 160)}`));
}

// squeezed finds text that stands in a column of a letter or two: nobody reads that,
// although nothing of it is cut off. No criterion says so in these words; SC 1.4.10,
// Reflow, is about reading without loss.
export async function squeezed(page) {
  return await page.evaluate(() => [...document.querySelectorAll('main *')].filter((e) => {
    const own = [...e.childNodes].filter((n) => n.nodeType === Node.TEXT_NODE && n.data.trim().length > 12);
    if (!own.length || e.closest('.vh, svg, option, .grid') || !e.checkVisibility()) return false;
    const { width, height } = e.getBoundingClientRect();
    return width < 48 && height > 4 * width;
  }).map((e) => `text is squeezed: ${e.outerHTML.slice(0, 160)}`));
}

// moving finds what moves although the person asked for less: the media feature
// prefers-reduced-motion; SC 2.3.3, Animation from Interactions, of level AAA, is met by it.
export async function moving(page) {
  return await page.evaluate(() => [...document.querySelectorAll('*')].filter((e) => {
    const style = getComputedStyle(e);
    const lasts = (times) => times.split(',').some((t) => parseFloat(t) > 0);
    return lasts(style.transitionDuration) || (style.animationName !== 'none' && lasts(style.animationDuration)) || style.scrollBehavior === 'smooth';
  }).map((e) => `moves: ${e.outerHTML.slice(0, 120)}`));
}

// spacing sets what SC 1.4.12, Text Spacing, names, or takes it away again.
export const spacing = (page, on) => page.evaluate((on) => {
  const sheet = new CSSStyleSheet();
  if (on) sheet.replaceSync('* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important } p { margin-bottom: 2em !important }');
  document.adoptedStyleSheets = [sheet];
}, on);

// turned has the page read from right to left.
export const turned = (page, on) => page.evaluate((on) => { document.documentElement.dir = on ? 'rtl' : ''; }, on);

// keyboard goes through a page by the Tab key: each stop comes after the one
// before it in the document (SC 2.4.3, Focus Order), nothing that can be worked
// is passed by and the way leads out again (SC 2.1.1, Keyboard; SC 2.1.2, No
// Keyboard Trap), the stop shows (SC 2.4.7, Focus Visible), and nothing else
// lies wholly over it (SC 2.4.11, Focus Not Obscured (Minimum)).
export async function keyboard(page) {
  const wrong = [];
  const stops = await page.evaluate(fromTheTop);
  for (let n = 0; n < stops; n++) {
    await step(page);
    wrong.push(...await page.evaluate(stop, n));
  }
  if (wrong.length) return wrong;
  await step(page);
  // After the last stop a browser without bars of its own begins again.
  const out = await page.evaluate(() => document.activeElement === document.body || document.activeElement.outerHTML === globalThis.wayOfTheKeys[0].outerHTML);
  if (!out) wrong.push('the Tab key does not lead out of the page');
  return wrong;
}

// A field for a day or a time has stops inside, which are the browser's own.
async function step(page) {
  const inside = 'input:is([type=date], [type=time], [type=datetime-local]):focus';
  const before = await page.evaluateHandle((inside) => document.querySelector(inside), inside);
  do await page.keyboard.press('Tab'); while (await before.evaluate((e) => e !== null && document.activeElement === e));
}

// fromTheTop lists the stops a page should have, and has the next Tab begin above them.
function fromTheTop() {
  const all = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex]')]
    .filter((e) => e.tabIndex >= 0 && !e.disabled && e.type !== 'hidden' && e.checkVisibility({ visibilityProperty: true }));
  const radios = (e) => all.filter((o) => o.type === 'radio' && o.name === e.name && o.form === e.form);
  // A group of radio buttons is one stop: the one that is chosen, else its first.
  globalThis.wayOfTheKeys = all.filter((e) => e.type !== 'radio' || e === (radios(e).find((o) => o.checked) ?? radios(e)[0]));
  document.body.tabIndex = -1;
  document.body.focus();
  document.body.removeAttribute('tabindex');
  scrollTo(0, 0);
  return globalThis.wayOfTheKeys.length;
}

// stop looks at where the focus is.
async function stop(n) {
  const now = document.activeElement;
  const due = globalThis.wayOfTheKeys[n];
  const said = now.outerHTML.slice(0, 120);
  // A page that is drawn anew meanwhile has another element of the same words and address there.
  if (now !== due && now.outerHTML !== due.outerHTML) return [`the Tab key comes to ${said}, not to ${due.outerHTML.slice(0, 120)}`];
  const style = getComputedStyle(now);
  const wrong = [];
  if (style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2) wrong.push(`the focus does not show: ${said}`);
  const seen = () => {
    const on = document.activeElement;
    if (on !== now && on.outerHTML !== now.outerHTML) return false; // it was lost
    const r = on.getBoundingClientRect();
    return [[0.5, 0.5], [0.1, 0.2], [0.9, 0.2], [0.1, 0.8], [0.9, 0.8]]
      .map(([x, y]) => document.elementFromPoint(r.left + r.width * x, r.top + r.height * y))
      .some((e) => e && (on.contains(e) || e.contains(on)));
  };
  // What is drawn anew each moment, a clock that runs, may be in the middle of it: what a person sees comes a frame later.
  if (!seen()) await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
  if (!seen()) wrong.push(`something lies over the focus, or it is out of sight: ${said}`);
  return wrong;
}
