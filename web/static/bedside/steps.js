// The list of steps, with the current one open in its place.

import { button, h, link, shape } from "./draw.js";
import * as filling from "./filling.js";
import { measures } from "./measures.js";
import { outsideOf } from "./ranges.js";
import { unitWords } from "./units.js";
import { kinds, marks, markWord, spoken, whyOpen } from "./words.js";

export function stepList(view) {
  const { sheet } = view;
  const open = new Map(filling.openOf(sheet).map((o) => [o.step, o]));
  return [h("p", { class: "skill narrow" }, sheet.skill.title), sheet.checklist.sections.map((section) => [h("h2", { class: "section" }, section.title),
    h("ol", { class: "lines steps" }, section.steps.map((s) => (s.no === view.at ? current(view, s) : other(view, s, open.get(s.no)))))]),
  h("div", { class: "acts ends" }, button("Finish", () => view.finish(), { class: "act main", id: "finish-below", disabled: view.shut }), link("Leave for now", "#/", { class: "act" }), button("Help with marking", () => view.help(), { id: "help" }),
    !filling.grave(sheet) && !sheet.rescued && button("Begun by mistake: throw it away…", () => view.throwAway(), { class: "act quiet", id: "throw-away", disabled: view.shut })),
  h("p", { class: "safety" }, "This page supports and never replaces the child’s orders, the maker’s instructions, local rules and licensed practice. In an emergency call the local emergency number.")];
}

// given says what stands at a step, in a few words.
export function given(m) {
  const values = Object.values(m.readings ?? {}).map((r) => [r.value, unitWords(r.unit)].filter(Boolean).join(" "));
  const mark = m.not_applicable ? "does not apply" : markWord[m.mark]?.toLowerCase();
  return { mark, values };
}

export const outside = (sheet, s) => outsideOf(sheet.rules, sheet.parameters, s.no, filling.markOf(sheet, s.no).readings ?? {}).length > 0;

function other(view, s, open) {
  const { mark, values } = given(filling.markOf(view.sheet, s.no));
  const text = spoken(s.text, view.sheet);
  const go = (e) => { e.preventDefault(); view.go(s.no); };
  const words = [mark && h("span", { class: "given" + (mark === "unsafe" ? " unsafe" : "") }, mark), mark && " · ", h("span", { class: open ? "todo" : null }, text), values.length > 0 && ` · ${values.join(", ")}`, outside(view.sheet, s) && [" ", h("span", { class: "lacks" }, shape("fault"), " out of range")],
    s.critical && [" ", h("span", { class: "critical small" }, "critical")], mark && open && [h("br"), h("span", { class: "lacks" }, shape("open"), " ", whyOpen(open, view.sheet))],
    view.work.unkept(s.no) && [h("br"), h("b", {}, "not kept yet")]];
  return h("li", { class: "line" }, h("div", { class: "mark num" }, h("span", { class: "vh" }, "Step "), String(s.no)),
    h("div", { class: "words" }, h("a", { href: `#/sheet/${view.sheet.id}/${s.no}`, class: "step-link", id: "go-" + s.no, onclick: go }, words)));
}

function current(view, s) {
  const { sheet } = view;
  const m = filling.markOf(sheet, s.no);
  return h("li", { class: "line now", "aria-current": "step" }, h("div", { class: "mark num" }, h("span", { class: "vh" }, "Step "), String(s.no)),
    h("div", { class: "words" },
      view.words && h("p", { class: "not-yet fault" }, shape("open"), " ", view.words),
      h("h1", { id: "step", tabindex: "-1" }, spoken(s.text, sheet)),
      s.critical && h("p", {}, h("span", { class: "critical" }, "Critical"), " ", s.because),
      kinds[s.kind] && s.measures.length === 0 && h("p", { class: "soft" }, kinds[s.kind]),
      measures(sheet, s, { value: (x) => view.value(x), start: (x, ms) => view.start(x, ms), stop: (x, t) => view.stopClock(x, t) }, view.shut),
      s.note && h("p", { class: "soft" }, spoken(s.note, sheet)),
      stands(view, s, m), bar(view, s, m),
      h("div", { class: "acts more" }, s.may_not_apply && button("Does not apply here…", () => view.apply(), { class: "act quiet", id: "not-apply", disabled: view.shut }),
        button(m.note ? "Change the note…" : "Add a note…", () => view.note(), { class: "act quiet", id: "note", disabled: view.shut }))));
}

function stands(view, s, m) {
  return [m.note && h("p", { class: "noted" }, "“", m.note, "”"), m.not_applicable && h("p", {}, h("b", {}, "Does not apply: "), m.reason), view.work.unkept(s.no) && h("p", {}, h("b", {}, shape("fault"), " Not kept yet."))];
}

// bar is the marks: all alike until one is chosen, and only unsafe set apart. One shows
// as chosen when the device has kept it.
function bar(view, s, m) {
  const chosen = view.work.unkept(s.no) ? view.work.kept.marks[s.no]?.mark : m.mark;
  return h("fieldset", { class: "marks" }, h("legend", { class: "vh" }, `Mark for step ${s.no}`), marks.map(([mark, word], i) => button(
    mark === "unsafe" ? [h("span", {}, word), h("small", {}, "Could it have hurt the child?")] : word, () => view.give(mark),
    { id: "give-" + mark.replace(" ", "-"), class: "give" + (mark === "unsafe" ? " unsafe" : ""), "aria-pressed": String(chosen === mark), disabled: view.shut, "data-key": String(i + 1) })));
}
