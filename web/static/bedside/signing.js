// Signing what the office has taken: the learner first, here or on another device. Each
// signs with a password, PIN or passkey of their own.

import { known } from "./ceremony.js";
import { button, civil, dayIn, h, link, say, shape } from "./draw.js";
import { ask, Offline, why } from "./office.js";
import { question } from "./passkeys.js";
import { putSheet } from "./store.js";
import { state } from "./state.js";
import { says, tag, theirs } from "./tongue.js";
import { childName, meanings, quoted } from "./words.js";

// signing asks both for what counts.
export function signing(sheet) {
  if (!sheet.formal) return [h("h2", {}, "What happens next"), h("p", {}, "It was practice: it is written down, and no standing changes.")];
  const { learner, observer } = sheet;
  return [h("h2", {}, "Sign"), signatureOf(sheet, "learner") ?? handOver(sheet, learner.name), signatureOf(sheet, "observer") ?? place(sheet, "observer", observer.name), next(sheet, sheet.signed ?? [])];
}

// handOver leads to what the learner reads and signs, with nobody else's name on it.
const handOver = (sheet, name) => [h("h3", {}, `${name}, learner`), h("p", { class: "soft" }, "Hand over the device: they see what they sign, and nobody else’s name."),
  h("p", { class: "acts" }, link(`Hand over to ${name}`, "#/hand/" + sheet.id, { class: "act main", id: "hand-over" }))];

// learnerSigns is the learner's own form.
export const learnerSigns = (sheet) => place(sheet, "learner", sheet.learner.name);

// inHand tells whether somebody is about to sign: what they fill in is not to be drawn anew.
export const inHand = () => [...document.querySelectorAll(".sign")].some((e) => e.contains(document.activeElement) || !e.querySelector("input") || e.querySelector("input").value);

// signatureOf is one that was given, in full; null where it was not.
export function signatureOf(sheet, part) {
  const s = (sheet.signed ?? []).find((g) => g.part === part);
  return s ? signature(sheet, s) : null;
}

const signature = (sheet, s) => h("p", {}, shape("met"), ` ${s.person.name} has signed.`, h("br"),
  h("span", { class: "soft" }, `“${s.meaning}”`, s.licence ? ` ${s.licence}.` : "", ` ${dayIn(sheet.zone, s.signed_at)}, ${s.zone}.`));

function next(sheet, signed) {
  const c = sheet.certificate;
  if (c) return [h("h2", {}, "What happens next"), h("p", {}, shape("met"), " The certificate is issued", c.through ? [", and holds through ", h("b", {}, civil(c.through))] : "", ". ", link("See the certificate", "/certificates/" + c.id))];
  const competent = sheet.answer.demonstration.outcome === "competent";
  const words = signed.length < 2 ? `Whoever cannot sign here finds it waiting under their own name. ${competent ? "Until both have signed it makes nobody competent." : "It counts from the day it was performed, as soon as the observer has signed."}`
    : competent ? "Both have signed. It counts from today; what is still lacking for the certificate stands on the record."
      : "Both have signed. It counts from the day it was performed. Practise what is listed, then have it shown again.";
  return [h("h2", {}, "What happens next"), h("p", {}, words)];
}

// place is where one part is signed: the form, or in its stead what a passkey is asked.
function place(sheet, part, name) {
  const here = h("div", { class: "sign" });
  const back = (...fault) => here.replaceChildren(form(sheet, part, name, () => asked(), fault));
  const asked = async () => {
    const answer = await offline(ask("POST", `/api/v1/demonstrations/${sheet.answer.demonstration.id}/passkey-question`, { part }, tag()));
    if (!answer) return back(...noNetwork());
    if (answer.status >= 300) return back(...refused(answer));
    const given = async (passkey) => {
      const fault = await signs(sheet, part, { passkey });
      if (fault.length > 0) back(...fault);
    };
    question(here, answer.data, given, () => back());
  };
  back();
  return here;
}

// offered tells whether a passkey can be used: here, at the office and by this signer. Of
// a learner this device does not know whether they have one.
const offered = (part) => known() && state.online && (state.session?.passkeys === "own" || part === "learner" && state.session?.passkeys === "offered");

function form(sheet, part, name, withPasskey, wrong) {
  const pin = part === "observer" && state.session?.pin;
  const of = { learner: says("learner"), observer: "observer" }[part];
  const field = h("input", { id: "secret-" + part, type: "password", autocomplete: "off", inputmode: pin ? "numeric" : null });
  const fault = h("p", { role: "alert", class: "fault" }, wrong);
  const sign = async (e) => {
    e.preventDefault();
    fault.replaceChildren(...await signs(sheet, part, pin ? { pin: field.value } : { password: field.value }));
  };
  return h("form", { onsubmit: sign, "aria-labelledby": "sign-" + part }, h("h3", { id: "sign-" + part }, `${name}, ${of}`), statement(sheet, part), h("p", { class: "soft" }, `${name} · ${dayIn(sheet.zone, Date.now())}, ${sheet.zone}`), fault,
    h("div", { class: "stack" }, h("label", { for: field.id }, pin ? `PIN of ${name}` : says("Password of %s", name)), field),
    h("div", { class: "acts" }, h("button", { type: "submit", class: "act main" }, part === "learner" ? says("Sign as learner") : "Sign as observer"), offered(part) && button(says("Sign with a passkey"), withPasskey, { id: "passkey-" + part })));
}

// statement is what is signed and what that means. The text that is kept is English: who
// reads another language reads it in that first, and then as it is kept.
function statement(sheet, part) {
  if (part !== "learner" || tag() === "en") return h("p", { class: "statement" }, quoted(meanings[part]));
  const { demonstration: d } = sheet.answer;
  const [title, outcome, when] = [theirs(sheet.skill.title) ?? sheet.skill.title, says(d.outcome), dayIn(sheet.zone, d.performed_at)];
  const what = sheet.client ? says("%s, shown by %s for %s on %s: %s.", title, sheet.learner.name, childName(sheet.client), when, outcome) : says("%s, shown by %s on %s: %s.", title, sheet.learner.name, when, outcome);
  return [h("p", {}, what), h("p", { class: "statement" }, quoted(says(meanings[part]))),
    h("p", { class: "soft" }, says("These words are signed and kept, in English:"), " ", h("span", { lang: "en" }, `“${meanings[part]}”`))];
}

const noNetwork = () => [shape("fault"), " ", says("There is no network, so nothing was signed. It waits under your name.")];
const refused = (answer) => [shape("fault"), " ", answer.data?.detail ? why(answer) : says("The office answered %d.", answer.status)];

// offline gives null in place of an answer that did not come.
const offline = (answer) => answer.catch((fault) => {
  if (fault instanceof Offline) return null;
  throw fault;
});

// signs gives what was wrong; where nothing was, the screen is drawn anew.
async function signs(sheet, part, proof) {
  const answer = await offline(ask("POST", `/api/v1/demonstrations/${sheet.answer.demonstration.id}/signatures`, { part, ...proof }, tag()));
  if (!answer) return noNetwork();
  if (answer.status >= 300) return refused(answer);
  const next = { ...sheet, turn: sheet.turn + 1, signed: answer.data.signatures ?? [], certificate: answer.data.certificate ?? null };
  await putSheet(next);
  await state.read();
  say(part === "learner" ? says("Signed as learner.") : "Signed as observer.");
  dispatchEvent(new HashChangeEvent("hashchange"));
  return [];
}
