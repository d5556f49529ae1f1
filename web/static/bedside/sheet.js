// What stands on a sheet and what keeps it from being recorded, the twin of
// assessment/sheet.go.

import { atLeast, isMark } from "./marks.js";
import { quantities, text } from "./rules.js";
import { says } from "./says.js";

const untouched = Object.freeze({ mark: "", notApplicable: false, reason: "", values: new Map() });

// readEntries indexes a sheet by step and refuses what the checklist does not hold.
export function readEntries(rules, sheet) {
  const by = new Map();
  for (const m of sheet.marks) {
    const step = rules.step.get(m.step);
    if (!step) throw new Error(`the checklist has no step ${m.step}`);
    if (by.has(m.step)) throw new Error(`step ${m.step} is on the sheet twice`);
    by.set(m.step, readEntry(step, m));
  }
  return (no) => by.get(no) ?? untouched;
}

function readEntry(step, m) {
  const entry = {
    mark: text(m.mark ?? "", "a mark"),
    notApplicable: m.not_applicable ?? false,
    reason: text(m.reason ?? "", "a reason"),
    values: quantities(m.readings),
  };
  if (typeof entry.notApplicable !== "boolean") throw new Error(`step ${step.no}: not_applicable is neither true nor false`);
  if (entry.mark && !isMark(entry.mark)) throw new Error(`step ${step.no}: "${entry.mark}" is not a mark`);
  if (entry.notApplicable && (entry.mark || entry.values.size)) {
    throw new Error(`step ${step.no} is marked and also not applicable: choose one`);
  }
  for (const name of entry.values.keys()) {
    if (!step.measures.some((x) => x.name === name)) throw new Error(`step ${step.no} has no value named "${name}"`);
  }
  return entry;
}

// gapOf is what keeps a step open, its ranges aside; null for nothing.
export function gapOf(step, entry) {
  const gap = (why, of = "") => ({ step: step.no, why, of });
  if (entry.notApplicable) {
    if (!step.mayNotApply) return gap("not allowed");
    return says(entry.reason) ? null : gap("reason");
  }
  if (!entry.mark) return gap("mark");
  const lacks = missing(step, entry);
  return lacks !== null && atLeast(entry.mark, "assisted") ? gap("value", lacks) : null;
}

// missing names the first reading that a step marked as done still lacks.
function missing(step, entry) {
  const given = new Set(step.measures.filter((m) => m.either && entry.values.has(m.name)).map((m) => m.either));
  return step.measures.find((m) => !entry.values.has(m.name) && !given.has(m.either))?.name ?? null;
}
