// After a sheet is finished: where it is, what the office made of it, both signatures,
// and what happens next.

import { button, count, h, line, link, shape } from "./draw.js";
import { inHand, signing } from "./signing.js";
import { get } from "./store.js";
import { unfinished } from "./standing.js";
import { state } from "./state.js";
import { top } from "./top.js";
import { says, tag } from "./tongue.js";
import { about, own, reasonSaid, typed } from "./words.js";

export async function after({ put, words: [id] }) {
  const sheet = await get("sheets", id);
  if (!sheet) {
    put(top(), h("h1", { tabindex: "-1" }, "This sheet is not on this device any more"), h("p", { class: "lead" }, "The office has it, or it was thrown away."), link("Back to the people", "#/", { class: "act" }));
    return {};
  }
  if (sheet.state === "open") {
    location.replace("#/sheet/" + id);
    return {};
  }
  put(top(), ...(sheet.state === "sent" ? taken(sheet) : sheet.state === "refused" ? refused(sheet) : waits(sheet)));
  const standing = () => [state.sheets.find((s) => s.id === id)?.state, state.session?.pin, state.session?.passkeys].join(" ");
  let drawn = standing();
  return { told: async () => { // forms that are being filled in stay
    const now = standing();
    if (now === drawn || inHand()) return document.querySelector(".top")?.replaceWith(top());
    drawn = now;
    dispatchEvent(new HashChangeEvent("hashchange"));
  } };
}

export const heading = (sheet) => h("p", { class: "lead" }, own(sheet.skill.title), " · ", about(sheet).join(" · "));

function waits(sheet) {
  return [h("h1", { tabindex: "-1" }, "Kept on this device, not sent yet"), heading(sheet),
    h("p", {}, state.online && !state.signedOut ? "It is sent as soon as the office answers." : state.signedOut ? "Sign in to send it. Nothing is lost." : "There is no network. It is sent by itself as soon as there is."),
    h("h2", {}, "What happens next"),
    h("ol", { class: "lines" }, ["The office takes it and scores it again; its answer stands.",
      sheet.formal ? "You and the learner sign with password, PIN or passkey: here, or each on an own device. Until then it makes nobody competent." : "It is practice: nothing to sign for, and no standing changes.",
      sheet.formal && "What went wrong counts from the day it was performed, as soon as you have signed. A pass counts when both have signed."].filter(Boolean).map((w, i) => line(String(i + 1), h("p", { class: "head" }, w)))),
    h("div", { class: "acts" }, button("Send it now", () => state.meet(), { id: "send", class: "act main" }), link("Back to the people", "#/", { class: "act" }))];
}

function refused(sheet) {
  return [h("h1", { tabindex: "-1" }, "The office did not take it"), heading(sheet), h("p", {}, shape("fault"), " ", sheet.refusal.words), h("p", { class: "acts" }, link("See what can be done", "#/waiting", { class: "act main" }))];
}

// reasons are the office's own for its outcome.
export function reasons(sheet) {
  const all = sheet.answer.demonstration.reasons;
  if (!all?.length) return happened(sheet);
  const words = (r) => (tag() === "en" && (r.words ?? r.says)) || reasonSaid(sheet, r);
  return [...happened(sheet), h("h2", {}, says("Why")), h("ul", { class: "lines" }, all.map((r) => line(r.step ? String(r.step) : shape("open"), h("p", { class: "head" }, words(r)))))];
}

// happened is why a demonstration was stopped.
export const happened = (sheet) => (sheet.stopped ? [h("h2", {}, says("What happened")), h("p", {}, typed(sheet.stop_reason, sheet))] : []);

// talkedOver is what the learner signs to have talked over.
export function talkedOver(sheet) {
  const { note, practise } = sheet.talked_over;
  const said = [[says("Said and heard"), note], [says("To practise next"), practise]].filter(([, words]) => words);
  return said.length > 0 && [h("h2", {}, says("Talked over")), h("dl", { class: "facts" }, said.map(([what, words]) => h("div", {}, h("dt", {}, what), h("dd", {}, typed(words, sheet)))))];
}

function taken(sheet) {
  const { demonstration: d, differs, device_outcome: was, clock_gap_s: gap } = sheet.answer;
  const outcome = d.outcome ?? "";
  return [
    h("h1", { tabindex: "-1" }, `The office has it: ${outcome}${unfinished(sheet)}`), heading(sheet),
    differs && h("section", { class: "faults" }, h("p", {}, shape("open"), ` This device had made ${was} of it. The office’s answer stands; both are kept and shown on the record.`)),
    Math.abs(gap ?? 0) > 300 && h("section", { class: "faults mild" }, h("p", {}, shape("open"), ` The clock of this device is ${count(Math.round(Math.abs(gap) / 60), "minute", "minutes")} ${gap > 0 ? "slow" : "fast"}. The record shows both instants. Set the clock.`)),
    ...reasons(sheet), talkedOver(sheet), ...signing(sheet),
    h("p", { class: "acts" }, link("See the record", "/demonstrations/" + d.id, { class: "act" }), link("Back to the people", "#/", { class: "act", id: "back" })),
  ].flat(2).filter(Boolean);
}
