// What the learner is handed: their own demonstration and nothing else, in the language
// that they read. No name of anybody else is on the screen, and no way to one but to give
// the device back.

import { happened, heading, reasons, talkedOver } from "./after.js";
import { h, line, link, say, shape } from "./draw.js";
import { drawing } from "./drawing.js";
import * as filling from "./filling.js";
import { mayFinish } from "./finish.js";
import { inHand, learnerSigns, signatureOf } from "./signing.js";
import { get } from "./store.js";
import { state } from "./state.js";
import { theirs } from "./theirs.js";
import { says, speak, tongueOf } from "./tongue.js";
import { handedTop } from "./top.js";
import { reasonSaid } from "./words.js";
import { hold, Work } from "./work.js";

const back = (words, to, kind) => h("p", { class: "acts" }, link(words, to, { class: "act " + kind, id: "give-back" }));
const retop = () => document.querySelector(".top")?.replaceWith(handedTop());

// draws is handed over before a sheet is finished, also without a network: how it went, and
// a field to draw a name in.
export async function draws({ put, words: [id], again }) {
  const sheet = await get("sheets", id);
  const free = sheet?.state === "open" && !sheet.rescued && !theirs(sheet) && mayFinish(sheet) && (await hold(id, again));
  if (!free) {
    location.replace("#/finish/" + id);
    return {};
  }
  const work = new Work(sheet);
  speak(tongueOf(sheet, state.pack));
  put(handedTop(), ...before(work));
  return { leave: async () => { await work.queue; free(); await state.read(); }, told: () => (theirs(sheet) ? again() : retop()) };
}

function before(work) {
  const { sheet } = work;
  const { outcome, reasons: all } = filling.outcomeOf(sheet);
  const fault = h("p", { role: "alert", class: "fault" });
  const drew = async (strokes) => {
    const done = await work.do((s) => filling.drew(s, strokes));
    fault.replaceChildren(...(done ? [] : [shape("fault"), " ", says("The device did not keep your drawing. Give it back and say so.")]));
    if (done) say(says("Kept."));
  };
  return [h("h1", { tabindex: "-1" }, says("%s, see how it went", sheet.learner.name)), heading(sheet),
    h("p", { class: "who-child" }, says("Result for now:"), " ", h("b", {}, says(outcome))), h("p", {}, says("The office works it out again, and its answer stands.")),
    ...happened(sheet), ...why(sheet, outcome, all), talkedOver(sheet), h("h2", {}, says("Draw your name")),
    h("p", {}, sheet.formal ? says("Drawing here shows that it was talked over. It is not the signature that counts: for that one you are asked later, with your own password or passkey.") : says("Nothing is signed in practice. Drawing here shows that it was talked over.")),
    fault, ...drawing(sheet.drawn.learner ?? [], sheet.learner.name, drew), back(says("Give the device back"), "#/finish/" + sheet.id, "main")];
}

function why(sheet, outcome, all) {
  if (all.length === 0) return sheet.stopped ? [] : [h("p", { class: "outcome" }, shape("met"), says("Every rule of the checklist is met."))];
  return [h("h2", {}, outcome === "competent" ? says("Worth talking over") : says("Why")), h("ul", { class: "lines" }, all.map((r) => line(r.step ? String(r.step) : shape("open"), h("p", { class: "head" }, reasonSaid(sheet, r)))))];
}

// hand is what is signed, as the office has it.
export async function hand({ put, words: [id] }) {
  const sheet = await get("sheets", id);
  if (sheet?.state !== "sent" || !sheet.formal) {
    location.replace(sheet ? "#/after/" + id : "#/");
    return {};
  }
  speak(tongueOf(sheet, state.pack));
  put(handedTop(), ...screen(sheet));
  const standing = () => state.session?.passkeys;
  let drawn = standing();
  return { told() { // what is being filled in stays
    if (standing() === drawn || inHand()) return retop();
    drawn = standing();
    dispatchEvent(new HashChangeEvent("hashchange"));
  } };
}

function screen(sheet) {
  const name = sheet.learner.name;
  const to = "#/after/" + sheet.id;
  const shown = [heading(sheet), h("p", { class: "who-child" }, says("Result:"), " ", h("b", {}, says(sheet.answer.demonstration.outcome))), ...reasons(sheet), talkedOver(sheet)];
  if (signatureOf(sheet, "learner")) return [h("h1", { tabindex: "-1" }, says("Thank you, %s", name)), h("p", { class: "lead" }, shape("met"), " ", says("You have signed. %s signs as well; it counts only then.", sheet.observer.name)), back(says("Give the device back"), to, "main"), ...shown];
  return [h("h1", { tabindex: "-1" }, says("%s, read and sign", name)), ...shown,
    h("p", {}, says("Your password is yours alone: type it yourself. Where something here is not as it was, do not sign; say so and give the device back.")),
    learnerSigns(sheet), back(says("Give it back without signing"), to, "")];
}
