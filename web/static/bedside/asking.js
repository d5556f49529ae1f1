// Asking for words: typed, dictated by the device's own keyboard, or tapped together
// from short phrases. What was typed is not lost by closing.

import { button, h, shape } from "./draw.js";
import { backPhrases } from "./words.js";

const typed = new Map(); // by sheet and heading: no word goes to another learner

// ask gives the words, or null where nothing is to change.
export function ask(heading, lead, label, stood, phrases, done, needed = false) {
  const key = `${location.hash.split("/")[2]} ${heading}`;
  const field = h("textarea", { id: "asked-words", rows: "3", maxlength: "2000" });
  field.value = typed.get(key) ?? stood;
  field.addEventListener("input", () => typed.set(key, field.value));
  const add = (words) => { field.value = [field.value.trim(), words].filter(Boolean).join(field.value.trim() ? "; " : "").slice(0, 2000); typed.set(key, field.value); };
  const fault = h("p", { role: "alert", class: "fault" });
  const box = h("dialog", { class: "asked", "aria-labelledby": "asked-heading" });
  let given = null;
  const keep = () => {
    if (needed && !field.value.trim()) {
      fault.replaceChildren(shape("fault"), " Say why first.");
      field.focus();
      return;
    }
    given = field.value.trim();
    typed.delete(key);
    box.close();
  };
  box.append(h("div", { class: "rest" }, h("h2", { id: "asked-heading" }, heading), lead ? h("p", {}, lead) : "", fault,
    h("div", { class: "stack" }, h("label", { for: "asked-words" }, label), field),
    h("div", { class: "phrases", role: "group", "aria-label": "Short phrases" }, phrases.map((p) => button(p, () => add(p), { class: "phrase" })))),
    h("div", { class: "acts wide" }, button(done, keep, { class: "act main" }), button("Leave it", () => box.close())));
  document.body.append(box);
  box.showModal();
  return new Promise((end) => box.addEventListener("close", () => { box.remove(); end(given); }));
}

// askBack asks why something that stood as unsafe is taken back: it stays in the
// record that it stood.
export const askBack = (heading) => ask(heading, "It stays in the record that it stood, and that it was taken back.", "Why", "", backPhrases, "Take it back", true);
