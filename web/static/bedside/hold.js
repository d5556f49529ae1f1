// A button that acts only when it is held for a second: never by accident. Whoever
// cannot hold, or uses a keyboard, a switch or a screen reader, presses and confirms.

import { dialog, h, say } from "./draw.js";

const long = 1000; // ms

// Letting go is heard by the window: the screen may be drawn anew meanwhile, and a button
// that is not on it any more hears nothing.
const released = ["pointerup", "pointercancel"];

// holdButton makes one; act is done once it was held, or pressed and confirmed.
export function holdButton(words, hint, confirm, act, attributes = {}) {
  let timer = 0;
  let held = false;
  const made = h("button", { type: "button", class: "act stop", ...attributes }, h("span", { class: "fill" }), h("span", {}, words, h("small", {}, hint)));
  const begin = (e) => {
    if (e.button !== 0 || made.disabled) return;
    held = false;
    made.classList.add("held");
    timer = setTimeout(() => { held = true; end(); act(); }, long);
    for (const name of released) addEventListener(name, end);
  };
  const end = () => {
    clearTimeout(timer);
    made.classList.remove("held");
    for (const name of released) removeEventListener(name, end);
  };
  made.addEventListener("pointerdown", begin);
  made.addEventListener("pointerleave", end);
  made.addEventListener("contextmenu", (e) => e.preventDefault());
  made.addEventListener("click", async () => {
    if (held) return void (held = false);
    say(hint);
    if (await dialog(...confirm) === "yes") act();
  });
  return made;
}
