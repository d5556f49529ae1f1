// What a timed or measured step asks for, each value with the child's own range.

import { button, h, shape } from "./draw.js";
import { markOf } from "./filling.js";
import { watch } from "./clock.js";
import { saysOf } from "./ordered.js";
import { rangeFor } from "./ranges.js";
import { unitWords } from "./units.js";

const timed = (step, unit) => step.kind === "timed" && (unit === "s" || unit === "min");

// measures draws them; on says what to do: value, start, stop.
export function measures(sheet, step, on, shut) {
  const readings = markOf(sheet, step.no).readings ?? {};
  let before = "";
  return step.measures.length === 0 ? null : h("div", { class: "measures" }, step.measures.map((m, i) => {
    const either = m.either && (m.either === before ? "or" : "One of these:");
    before = m.either ?? "";
    return [either && h("p", { class: "either" }, either), measure(sheet, step, m, i, readings, on, shut)];
  }));
}

function measure(sheet, step, m, i, readings, on, shut) {
  const { unit, words, missing, outside } = rangeFor(sheet.rules, sheet.parameters, step.no, m.name, readings);
  const read = readings[m.name];
  const since = sheet.clocks[`${step.no} ${m.name}`];
  const shown = read ? [read.value, unitWords(read.unit)].filter(Boolean).join(" ") : "Type it in";
  const clock = timed(step, unit) && !shut && watch(`clock-${i}`, m.name, since, (ms) => on.start(m, ms), (s) => on.stop(m, s));
  return h("div", { class: "measure" },
    h("p", { class: "name" }, m.name),
    h("p", { class: "accepts" }, missing ? `Not known: ${saysOf(sheet.checklist, missing)}` : words === "recorded, not judged" ? "To be written down; no limit." : [h("b", {}, words || "Depends on another value of this step"), sheet.client ? ` for ${sheet.client.first_name}` : ""],
      outside && h("b", { class: "out" }, " ", shape("fault"), " Out of range: it counts as not met.")),
    h("div", { class: "box" }, clock, !since && button(shown, () => on.value(m), { id: `value-${i}`, class: "act reading", disabled: shut, "aria-label": `${m.name}: ${shown}` })));
}
