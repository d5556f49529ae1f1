// A sheet that came back from its second copy may be older than what the observer saw as
// kept: a mark that was worse may be missing. It is not finished or thrown away before
// whoever observed has looked at each mark.

import { button, h, line, link, say, shape, timeIn } from "./draw.js";
import * as filling from "./filling.js";
import { get } from "./store.js";
import { state } from "./state.js";
import { given, outside } from "./steps.js";
import { notYours, theirs } from "./theirs.js";
import { top } from "./top.js";
import { about, spoken } from "./words.js";
import { hold, Work } from "./work.js";

export async function look({ put, words: [id], again }) {
  const sheet = await get("sheets", id);
  if (sheet?.state !== "open" || !sheet.rescued) {
    location.replace(sheet ? "#/sheet/" + id : "#/");
    return {};
  }
  if (theirs(sheet)) return notYours(put, sheet);
  const free = await hold(id, again);
  if (!free) {
    put(top(), h("h1", { tabindex: "-1" }, "This sheet is open in another tab"), h("p", { class: "lead" }, "Look at its marks there, or close that tab first."), link("Back to the people", "#/", { class: "act" }));
    return { told() {} };
  }
  const work = new Work(sheet);
  put(top(), ...screen(work));
  return { leave: async () => { await work.queue; free(); await state.read(); }, told: () => theirs(sheet) && again() };
}

function screen(work) {
  const { sheet } = work;
  const faults = h("div", { role: "alert" });
  const seen = async () => {
    const done = await work.do((s) => filling.lookedOver(s, new Date().toISOString()));
    faults.replaceChildren(...(work.fault ? [h("p", { class: "faults" }, shape("fault"), " ", work.fault)] : []));
    if (!done) return;
    say("Kept.");
    location.hash = (sheet.stopped || filling.openOf(sheet).length === 0 ? "#/finish/" : "#/sheet/") + sheet.id;
  };
  return [
    h("h1", { tabindex: "-1" }, "Look at each mark of this sheet"), h("p", { class: "lead" }, sheet.skill.title, " · ", about(sheet).join(" · ")),
    h("p", {}, "The browser had lost it, and it came back from a second copy. ", h("b", {}, "What you did last may be missing"), ": a mark, a value, a stop for safety, or that something unsafe was taken back. ", newest(sheet)),
    h("ol", { class: "lines" }, filling.steps(sheet).map((s) => step(sheet, s))),
    h("p", {}, h("b", {}, sheet.stopped ? "It was stopped for safety." : "It was not stopped for safety."), " If that is not so, go back to marking and put it right."),
    faults,
    h("div", { class: "acts wide" }, link("Go back to marking", "#/sheet/" + sheet.id, { class: "act main" }), button("Every mark here is as I saw it", seen, { id: "looked-over" })),
  ];
}

// newest tells the last mark that came back: what was done after it is what may be missing.
export function newest(sheet) {
  const [no, last] = Object.entries(sheet.marks).reduce((a, b) => (a && a[1].marked_at >= b[1].marked_at ? a : b), null) ?? [];
  return no ? `The newest that came back is that of step ${no}, of ${timeIn(sheet.zone, last.marked_at)}.` : "No mark came back.";
}

function step(sheet, s) {
  const m = filling.markOf(sheet, s.no);
  const { mark, values } = given(m);
  return line(String(s.no), [h("p", { class: "head" }, link(spoken(s.text, sheet), `#/sheet/${sheet.id}/${s.no}`)),
    h("p", {}, h("span", { class: "given" + (mark === "unsafe" ? " unsafe" : "") }, mark ?? "no mark"), values.length > 0 && ` · ${values.join(", ")}`,
      outside(sheet, s) && [" ", h("span", { class: "lacks" }, shape("fault"), " out of range")], m.not_applicable && m.reason && ` · ${m.reason}`, m.note && ` · “${m.note}”`)]);
}

// notice stands over a sheet that came back until it was looked over.
export const notice = (sheet) => sheet.rescued && sheet.state === "open" && h("section", { class: "faults mild" }, h("p", {}, h("b", {}, "This sheet came back from a second copy."), " What you did last may be missing. Put it right here, then look at each mark; before that it is neither finished nor thrown away."),
  link("Look at each mark", "#/look/" + sheet.id, { class: "act", id: "look" }));
