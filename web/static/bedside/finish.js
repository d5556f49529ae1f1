// The end of a sheet: the name once more, what the rules make of it, what was talked
// over, the learner's drawn signature; then it is signed by the device and waits.

import { happened } from "./after.js";
import * as device from "./device.js";
import { button, count, h, line, link, say, shape } from "./draw.js";
import * as filling from "./filling.js";
import { get } from "./store.js";
import { state } from "./state.js";
import { textOf } from "./text.js";
import { notYours, theirs } from "./theirs.js";
import { top } from "./top.js";
import { about, childName, markWord, reasonSaid, spoken, talkPhrases, whyOpen } from "./words.js";
import { hold, Work } from "./work.js";

export async function finish({ put, words: [id], again }) {
  const sheet = await get("sheets", id);
  if (!sheet || sheet.state !== "open") {
    location.replace(sheet ? "#/after/" + id : "#/");
    return {};
  }
  if (theirs(sheet)) return notYours(put, sheet);
  if (sheet.rescued && mayFinish(sheet)) { // older than what was seen, maybe: it is looked over first
    location.replace("#/look/" + id);
    return {};
  }
  const free = await hold(id, again);
  const work = new Work(sheet);
  if (!free) {
    put(top(), h("h1", { tabindex: "-1" }, "This sheet is open in another tab"), h("p", { class: "lead" }, "Finish it there, or close that tab first."), link("Back to the people", "#/", { class: "act" }));
    return { told() {} };
  }
  put(top(), ...(mayFinish(sheet) ? screen(work) : notYet(sheet)));
  return { leave: async () => { await work.queue; free(); await state.read(); }, told: () => theirs(sheet) && again() };
}

export const mayFinish = (sheet) => (sheet.stopped ? sheet.stop_reason.trim() !== "" : filling.openOf(sheet).length === 0);

function notYet(sheet) {
  const open = filling.openOf(sheet);
  if (sheet.stopped) return [h("h1", { tabindex: "-1" }, "Say what happened first"), h("p", { class: "acts" }, link("Say what happened", "#/sheet/" + sheet.id, { class: "act main" }))];
  return [h("h1", { tabindex: "-1" }, count(open.length, "step is still open", "steps are still open")),
    h("ol", { class: "lines" }, open.map((o) => line(String(o.step), [h("p", { class: "head" }, link(spoken(filling.stepOf(sheet, o.step).text, sheet), `#/sheet/${sheet.id}/${o.step}`)), h("p", {}, whyOpen(o, sheet))]))),
    h("p", { class: "acts wide" }, link("Go on marking", `#/sheet/${sheet.id}/${open[0].step}`, { class: "act main" }))];
}

function screen(work) {
  const sheet = work.sheet;
  const result = filling.outcomeOf(sheet);
  const faults = h("div", { role: "alert" });
  const save = async (change) => {
    const done = await work.do(change);
    faults.replaceChildren(...(work.fault ? [h("p", { class: "faults" }, shape("fault"), " ", work.fault)] : []));
    if (done) say("Kept.");
  };
  return [
    h("h1", { tabindex: "-1" }, `Provisional: ${result.outcome}${sheet.formal ? "" : ", practice only"}`),
    h("p", { class: "lead" }, sheet.skill.title, " · ", about(sheet).join(" · "), ". The office scores it again, and its answer stands."),
    ...happened(sheet), ...reasons(sheet, result), h("h2", {}, "Talk it over"), ...talk(sheet, save),
    h("h2", {}, `${sheet.learner.name} draws a name`),
    h("p", {}, "Hand over the device: they read how it went and draw their name. It shows that it was talked over; it is not the signature that counts. That one takes their own password, PIN or passkey, and is asked for as soon as the office has the sheet", state.online && state.session ? ", in a moment." : ": there is no network now, so it waits."),
    h("p", { class: "acts" }, link(`Hand over to ${sheet.learner.name}`, "#/draw/" + sheet.id, { class: "act", id: "hand-to-draw" }), sheet.drawn.learner && h("span", {}, shape("met"), " Drawn.")),
    h("h2", {}, "Finish it"),
    h("p", { class: "who-child" }, h("b", {}, sheet.learner.name), sheet.client && [" for ", h("b", {}, childName(sheet.client))]),
    h("p", {}, "Once finished, no mark can be changed. This device signs it with its own key and keeps it until the office has it."),
    faults,
    h("div", { class: "acts wide" }, button(`This is ${sheet.learner.name}: finish and keep`, () => close(work, faults), { class: "act main", id: "close-sheet" }), link("Go on marking", "#/sheet/" + sheet.id, { class: "act" })),
  ].filter(Boolean);
}

function reasons(sheet, result) {
  if (result.reasons.length === 0) return sheet.stopped ? [] : [h("p", { class: "outcome" }, shape("met"), "Every rule of the checklist is met.")];
  return [h("h2", {}, result.outcome === "competent" ? "Worth talking over" : "Why"), h("ul", { class: "lines" }, result.reasons.map((r) => line(r.step ? String(r.step) : shape("open"),
    h("p", { class: "head" }, reasonSaid(sheet, r)))))];
}

// talk asks for what was said and what to practise; what was weak can be tapped in.
function talk(sheet, save) {
  const weak = filling.steps(sheet).filter((s) => sheet.marks[s.no]?.mark && sheet.marks[s.no].mark !== "independent");
  return [box("note", "What you said and heard", sheet.talked_over.note, talkPhrases.map((p) => [p, p]), (v) => save((s) => filling.talked(s, { note: v }))),
    box("practise", "What to practise next", sheet.talked_over.practise, weak.map((s) => [`Step ${s.no}, ${markWord[sheet.marks[s.no].mark].toLowerCase()}`, `Step ${s.no}: ${spoken(s.text, sheet)}`]), (v) => save((s) => filling.talked(s, { practise: v })))];
}

function box(id, label, stood, phrases, changed) {
  const field = h("textarea", { id, rows: "2", maxlength: "2000", onchange: () => changed(field.value.trim()) });
  field.value = stood;
  const add = (words) => { field.value = [field.value.trim(), words].filter(Boolean).join("; ").slice(0, 2000); changed(field.value); };
  return h("div", { class: "stack" }, h("label", { for: id }, label), field,
    phrases.length > 0 && h("div", { class: "phrases", role: "group", "aria-label": `Short phrases: ${label}` }, phrases.map(([shown, words]) => button(shown, () => add(words), { class: "phrase" }))));
}

// close makes the text, has the device sign it and keeps both; only then is it finished.
async function close(work, faults) {
  const button = document.getElementById("close-sheet");
  button.disabled = true;
  try {
    const own = await device.of(work.sheet.observer.id);
    if (!own) throw new Error("This device has no key of yours any more. Enrol it again under This device; the sheet stays as it is.");
    const finished = { ...work.sheet, finished_at: new Date().toISOString() };
    const text = textOf(finished);
    const signature = await device.sign(own, text);
    if (!await work.do(() => ({ ...finished, state: "finished", text, signature, device: own.id }))) throw new Error(work.fault);
    say("Finished and kept.");
    location.hash = "#/after/" + work.kept.id;
    state.read().then(() => state.send());
  } catch (fault) {
    work.drop(); // not finished: what is talked over may still change
    faults.replaceChildren(h("p", { class: "faults" }, shape("fault"), " ", fault.message));
    button.disabled = false;
  }
}
