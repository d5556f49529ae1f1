// What somebody does at the bedside, in a few words each: see a learner, go to a step,
// give a mark, mark a whole sheet, draw a signature.

export const says = (page, words) => page.locator('#top, #main').getByText(words).first().waitFor();

// begin goes from the people to the first step of a sheet.
export async function begin(page, see) {
  await page.locator(`[id="${see}"]`).click();
  await page.getByLabel('the child', { exact: true }).or(page.getByLabel('a formal demonstration')).first().waitFor();
  if (await page.getByLabel('the child', { exact: true }).count()) await choose(page, 'the child', true);
  await choose(page, 'a formal demonstration');
  await page.getByLabel('Place').fill('At home');
}

// A choice is as large as a finger and lies under its words.
const choose = (page, name, exact = false) => page.getByLabel(name, { exact }).first().check({ force: true });

export const go = async (page, no) => {
  if (await page.locator(`#go-${no}`).count()) await page.locator(`#go-${no}`).click();
  await page.locator(`.line.now:has-text("${no}") #step`).waitFor();
};

// give taps a mark; once it is kept and was shown, the next open step comes, or the end.
export async function give(page, mark) {
  const no = await page.locator('.line.now .mark').innerText();
  await page.locator(`#give-${mark.replace(' ', '-')}`).click();
  await page.waitForFunction((no) => document.querySelector('.line.now .mark')?.innerText !== no, no);
}

// mark marks all steps of a sheet, each independent with a value inside its range.
export async function mark(page, sheet) {
  for (const step of sheet.steps) {
    await go(page, step.number);
    for (const [i, value] of (step.values ?? []).entries()) {
      if (!value) continue;
      await page.locator(`#value-${i}`).click();
      await page.locator('#reading').fill(value);
      await page.getByRole('button', { name: 'Keep the value' }).click();
      await page.locator('dialog').waitFor({ state: 'detached' });
    }
    if (await page.locator('#give-independent[aria-pressed=false]').count()) await give(page, 'independent');
  }
  await page.locator('#finish').or(page.locator('#close-sheet')).first().waitFor();
  if (await page.locator('#finish').count()) await page.locator('#finish').click();
  await page.locator('#close-sheet').waitFor();
}

// draw draws a name in the field that a learner is handed.
export async function draw(page) {
  const field = page.locator('svg.drawing');
  await field.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await field.boundingBox();
  await page.mouse.move(x + width * 0.1, y + height * 0.7);
  await page.mouse.down();
  for (let i = 1; i <= 40; i++) await page.mouse.move(x + width * (0.1 + 0.02 * i), y + height * (0.55 + 0.25 * Math.sin(i / 2.2)));
  await page.mouse.up();
}
