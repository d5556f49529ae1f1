// After a sheet is finished: where it is, what the office made of it, both signatures,
// and what happens next.

import { button, civil, count, dayIn, h, line, link, say, shape } from "./draw.js";
import { ask, Offline, why } from "./office.js";
import { get, putSheet } from "./store.js";
import { state } from "./state.js";
import { top } from "./top.js";
import { about, meanings } from "./words.js";

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
  let drawn = sheet.state;
  return { told: async () => { // forms that are being filled in stay
    const now = state.sheets.find((s) => s.id === id)?.state;
    if (now === drawn) return document.querySelector(".top")?.replaceWith(top());
    drawn = now;
    dispatchEvent(new HashChangeEvent("hashchange"));
  } };
}

const heading = (sheet) => h("p", { class: "lead" }, sheet.skill.title, " · ", about(sheet).join(" · "));

function waits(sheet) {
  return [h("h1", { tabindex: "-1" }, "Kept on this device, not sent yet"), heading(sheet),
    h("p", {}, state.online && !state.signedOut ? "It is sent as soon as the office answers." : state.signedOut ? "Sign in to send it. Nothing is lost." : "There is no network. It is sent by itself as soon as there is."),
    h("h2", {}, "What happens next"),
    h("ol", { class: "lines" }, ["The office takes it and scores it again; its answer stands.",
      sheet.formal ? "You and the learner sign with password or PIN: here, or each on an own device. Until then it makes nobody competent." : "It is practice: nothing to sign for, and no standing changes.",
      sheet.formal && "What went wrong counts from the day it was performed, as soon as you have signed. A pass counts when both have signed."].filter(Boolean).map((w, i) => line(String(i + 1), h("p", { class: "head" }, w)))),
    h("div", { class: "acts" }, button("Send it now", () => state.meet(), { id: "send", class: "act main" }), link("Back to the people", "#/", { class: "act" }))];
}

function refused(sheet) {
  return [h("h1", { tabindex: "-1" }, "The office did not take it"), heading(sheet), h("p", {}, shape("fault"), " ", sheet.refusal.words), h("p", { class: "acts" }, link("See what can be done", "#/waiting", { class: "act main" }))];
}

function taken(sheet) {
  const { demonstration: d, differs, device_outcome: was, clock_gap_s: gap } = sheet.answer;
  const outcome = d.outcome ?? "";
  return [
    h("h1", { tabindex: "-1" }, `The office has it: ${outcome}`), heading(sheet),
    differs && h("section", { class: "faults" }, h("p", {}, shape("open"), ` This device had made ${was} of it. The office’s answer stands; both are kept and shown on the record.`)),
    Math.abs(gap ?? 0) > 300 && h("section", { class: "faults mild" }, h("p", {}, shape("open"), ` The clock of this device is ${count(Math.round(Math.abs(gap) / 60), "minute", "minutes")} ${gap > 0 ? "slow" : "fast"}. The record shows both instants. Set the clock.`)),
    d.reasons?.length > 0 && [h("h2", {}, "Why"), h("ul", { class: "lines" }, d.reasons.map((r) => line(r.step ? String(r.step) : shape("open"), h("p", { class: "head" }, r.words ?? r.says ?? r.rule))))],
    ...signing(sheet),
    h("p", { class: "acts" }, link("See the record", "/demonstrations/" + d.id, { class: "act" }), link("Back to the people", "#/", { class: "act", id: "back" })),
  ].flat(2).filter(Boolean);
}

// signing asks both for what counts: the learner first, on this device or another.
function signing(sheet) {
  const signed = sheet.signed ?? [];
  if (!sheet.formal) return [h("h2", {}, "What happens next"), h("p", {}, "It was practice: it is written down, and no standing changes.")];
  const parts = [["learner", sheet.learner.name], ["observer", sheet.observer.name]];
  return [h("h2", {}, "Sign"), ...parts.map(([part, name]) => signature(sheet, signed.find((s) => s.part === part)) ?? form(sheet, part, name)), next(sheet, signed)];
}

// signature is one that was given, in full.
const signature = (sheet, s) => s && h("p", {}, shape("met"), ` ${s.person.name} has signed.`, h("br"),
  h("span", { class: "soft" }, `“${s.meaning}”`, s.licence ? ` ${s.licence}.` : "", ` ${dayIn(sheet.zone, s.signed_at)}, ${s.zone}.`));

function next(sheet, signed) {
  const c = sheet.certificate;
  if (c) return [h("h2", {}, "What happens next"), h("p", {}, shape("met"), " The certificate is issued", c.through ? [", and holds through ", h("b", {}, civil(c.through))] : "", ". ", link("See the certificate", "/certificates/" + c.id))];
  const words = signed.length < 2 ? "Whoever cannot sign here, or signs with a passkey, finds it waiting under their own name. Until both have signed it makes nobody competent."
    : sheet.answer.demonstration.outcome === "competent" ? "Both have signed. It counts from today; what is still lacking for the certificate stands on the record."
      : "Both have signed. It counts from the day it was performed. Practise what is listed, then have it shown again.";
  return [h("h2", {}, "What happens next"), h("p", {}, words)];
}

function form(sheet, part, name) {
  const pin = part === "observer" && state.session?.pin;
  const field = h("input", { id: "secret-" + part, type: "password", autocomplete: "off", inputmode: pin ? "numeric" : null });
  const fault = h("p", { role: "alert", class: "fault" });
  const sign = async (e) => {
    e.preventDefault();
    fault.replaceChildren(...await signs(sheet, part, pin ? { pin: field.value } : { password: field.value }));
  };
  return h("form", { onsubmit: sign, class: "sign", "aria-labelledby": "sign-" + part }, h("h3", { id: "sign-" + part }, `${name}, ${part}`), h("p", { class: "statement" }, `“${meanings[part]}”`), h("p", { class: "soft" }, `${name} · ${dayIn(sheet.zone, Date.now())}, ${sheet.zone}`), fault,
    h("div", { class: "stack" }, h("label", { for: field.id }, `${pin ? "PIN" : "Password"} of ${name}`), field), h("button", { type: "submit", class: "act main" }, `Sign as ${part}`));
}

// signs gives what was wrong; where nothing was, the screen is drawn anew.
async function signs(sheet, part, proof) {
  let answer;
  try {
    answer = await ask("POST", `/api/v1/demonstrations/${sheet.answer.demonstration.id}/signatures`, { part, ...proof });
  } catch (fault) {
    if (!(fault instanceof Offline)) throw fault;
    return [shape("fault"), " There is no network, so nothing was signed. It waits under your name."];
  }
  if (answer.status >= 300) return [shape("fault"), " ", why(answer)];
  const next = { ...sheet, turn: sheet.turn + 1, signed: answer.data.signatures ?? [], certificate: answer.data.certificate ?? null };
  await putSheet(next);
  await state.read();
  say(`Signed as ${part}.`);
  dispatchEvent(new HashChangeEvent("hashchange"));
  return [];
}
