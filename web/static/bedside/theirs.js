// A tablet that two people share keeps the sheets of both, and a key of each: nobody
// marks, finishes or signs what another one saw.

import { h, link } from "./draw.js";
import { state } from "./state.js";
import { top } from "./top.js";
import { about } from "./words.js";

// theirs reports whether a sheet is somebody else's than of whoever uses the device.
export const theirs = (sheet) => Boolean(state.person) && sheet.observer.id !== state.person.id;

// notYours says so in place of the sheet, until its owner has signed in.
export function notYours(put, sheet) {
  put(top(), h("h1", { tabindex: "-1" }, `This sheet is ${sheet.observer.name}’s`), h("p", { class: "lead" }, sheet.skill.title, " · ", about(sheet).join(" · "), ". All its marks are kept. They sign in on this device to go on with it."),
    link("Back to the people", "#/", { class: "act" }));
  return { told() { if (!theirs(sheet)) dispatchEvent(new HashChangeEvent("hashchange")); } };
}
