// What the learner is handed to sign: their own demonstration and nothing else. No name
// of anybody else is on the screen, and no way to one but to give the device back.

import { h, link, shape } from "./draw.js";
import { heading, reasons, talkedOver } from "./after.js";
import { inHand, learnerSigns, signatureOf } from "./signing.js";
import { get } from "./store.js";
import { state } from "./state.js";
import { network } from "./top.js";

export async function hand({ put, words: [id] }) {
  const sheet = await get("sheets", id);
  if (sheet?.state !== "sent" || !sheet.formal) {
    location.replace(sheet ? "#/after/" + id : "#/");
    return {};
  }
  put(head(), ...screen(sheet));
  const standing = () => state.session?.passkeys;
  let drawn = standing();
  return { told() { // what is being filled in stays
    if (standing() === drawn || inHand()) return document.querySelector(".top")?.replaceWith(head());
    drawn = standing();
    dispatchEvent(new HashChangeEvent("hashchange"));
  } };
}

// head is the top without its links; where signing in is asked for, that waits as well.
const head = () => h("header", { class: "top" }, state.person?.demo && h("p", { class: "demo" }, h("b", {}, "Demo."), " All people and records are invented."),
  h("div", { class: "net" }, h("p", {}, ...(state.signedOut ? [shape("open"), " Signed out: give the device back first."] : network()))));

function screen(sheet) {
  const name = sheet.learner.name;
  const back = (words, kind) => h("p", { class: "acts" }, link(words, "#/after/" + sheet.id, { class: "act " + kind, id: "give-back" }));
  const shown = [heading(sheet), h("p", { class: "who-child" }, "Result: ", h("b", {}, sheet.answer.demonstration.outcome)), ...reasons(sheet), talkedOver(sheet)];
  if (signatureOf(sheet, "learner")) return [h("h1", { tabindex: "-1" }, `Thank you, ${name}`), h("p", { class: "lead" }, shape("met"), ` You have signed. ${sheet.observer.name} signs as well; it counts only then.`), back("Give the device back", "main"), ...shown];
  return [h("h1", { tabindex: "-1" }, `${name}, read and sign`), ...shown,
    h("p", {}, "Your password is yours alone: type it yourself. Where something here is not as it was, do not sign; say so and give the device back."),
    learnerSigns(sheet), back("Give it back without signing", "")];
}
