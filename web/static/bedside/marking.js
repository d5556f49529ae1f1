// Marking one sheet: the current step large, the rest in reach, the marks under the
// thumb. The screen shows what the device has kept.

import { tick } from "./clock.js";
import { h, link } from "./draw.js";
import * as filling from "./filling.js";
import { listenToKeys } from "./keys.js";
import { get } from "./store.js";
import { state } from "./state.js";
import { notYours, theirs } from "./theirs.js";
import { top } from "./top.js";
import { View } from "./view.js";
import { hold, Work } from "./work.js";

export async function marking({ put, words, still, again, address }) {
  const [id, at] = words;
  const sheet = await get("sheets", id);
  if (!sheet) return notHere(put);
  if (sheet.state !== "open") {
    location.replace("#/after/" + id);
    return {};
  }
  if (theirs(sheet)) return notYours(put, sheet);
  const work = new Work(sheet);
  let free = () => {};
  const view = new View(work, () => still(), put, { takeOver: () => take(true), again }, address);
  const lost = () => { work.lost = true; if (still()) view.draw(); };
  const take = async (by) => {
    const got = await hold(id, lost, by);
    if (got) free = got;
    work.lost = !got;
    if (!by) return;
    const now = await get("sheets", id);
    if (now?.state !== "open") return again(); // it was finished or thrown away there
    work.kept = now;
    view.draw();
  };
  await take(false);
  view.at = filling.stepOf(sheet, Number(at)) ? Number(at) : filling.nextOpen(sheet) || 1;
  view.draw(true);
  const ends = [tick(), listenToKeys(view), whenTurned(() => view.turned())];
  return {
    leave: async () => { await work.queue; ends.forEach((end) => end()); free(); await state.read(); },
    told: () => (theirs(sheet) ? again() : view.net()), // somebody else may have signed in meanwhile
  };
}

// whenTurned acts when the screen has another width; a keyboard that opens has not.
function whenTurned(act) {
  let wide = innerWidth;
  const turned = () => { if (innerWidth !== wide) act(); wide = innerWidth; };
  addEventListener("resize", turned);
  return () => removeEventListener("resize", turned);
}

function notHere(put) {
  put(top(), h("h1", { tabindex: "-1" }, "This sheet is not on this device"), h("p", { class: "lead" }, "It was sent and put away, was thrown away, or the browser cleared what was kept here."), link("Back to the people", "#/", { class: "act" }));
  return {};
}

