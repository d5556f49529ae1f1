// What the rules make of a sheet, the twin of assessment/outcome.go: the device shows
// at once what the office will say. The office scores again, and its answer stands.
//
//   rules       as api/wire_rules.go writes them
//   parameters  {name: {value, unit}}, the child's
//   sheet       {stopped, marks: [{step, mark?, not_applicable?, reason?, readings?}]}

import { outOfRange } from "./accepted.js";
import { atLeast } from "./marks.js";
import { compare, fraction, over, percent, plus, times, zero } from "./number.js";
import { known, readRules } from "./rules.js";
import { gapOf, readEntries } from "./sheet.js";
import { filled } from "./tongue.js";

// score gives {open: [{step, why, of}]} where the sheet cannot be recorded yet, else
// {outcome, score, reasons: [{rule, step, of}], effective: {step: mark}}; score is a
// fraction such as "7/8", or null where no step applies. It throws where the sheet
// does not fit its rules.
export function score(rules, parameters, sheet) {
  const stopped = sheet.stopped ?? false;
  if (typeof stopped !== "boolean") throw new Error("stopped is neither true nor false");
  const { sums, open } = judged(readRules(rules), parameters, sheet);
  return open.length > 0 && !stopped ? { open } : close(sums, stopped);
}

// openSteps lists what is open, also on a sheet that was stopped.
export const openSteps = (rules, parameters, sheet) => judged(readRules(rules), parameters, sheet).open;

function judged(rules, parameters, sheet) {
  const entryOf = readEntries(rules, sheet);
  const values = known(rules, parameters);
  const sums = { rules, earned: zero, total: zero, cued: 0, reasons: [], effective: {} };
  const open = rules.steps.flatMap((step) => judge(sums, step, entryOf(step.no), values));
  return { sums, open };
}

// judge adds a step to the sums, or gives what keeps it open.
function judge(sums, step, entry, values) {
  const gap = gapOf(step, entry);
  if (gap) return [gap];
  if (entry.notApplicable) return [];
  const { out, gaps } = outOfRange(step, entry, values);
  if (gaps.length > 0) return gaps;
  const effective = out.length > 0 && atLeast(entry.mark, "not met") ? "not met" : entry.mark;
  // What the observer marked is what counts against the cue limit: a value out of
  // range does not undo the cue.
  if (entry.mark === "cued") sums.cued++;
  note(sums, step, effective, out);
  return [];
}

function note(sums, step, effective, out) {
  sums.total = plus(sums.total, step.weight);
  sums.earned = plus(sums.earned, times(step.weight, sums.rules.credits.get(effective)));
  sums.effective[step.no] = effective;
  if (effective === "unsafe") because(sums, "unsafe", step.no);
  if (step.critical && !atLeast(effective, step.least)) because(sums, "critical", step.no);
  for (const name of out) because(sums, "value", step.no, name);
}

const because = (sums, rule, step = 0, of = "") => sums.reasons.push({ rule, step, of });

// close adds the rules for the whole sheet and draws the outcome. Values out of range
// are reasons worth knowing even where the sheet passes with them.
function close(sums, stopped) {
  const { cueLimit, passMark } = sums.rules;
  if (cueLimit !== null && sums.cued > cueLimit) because(sums, "cues");
  let share = null;
  if (compare(sums.total, zero) > 0) {
    share = over(sums.earned, sums.total);
    if (compare(share, passMark) < 0) because(sums, "score");
  } else {
    because(sums, "nothing shown");
  }
  const failed = sums.reasons.some((r) => r.rule !== "value");
  const outcome = stopped ? "stopped for safety" : failed ? "not yet competent" : "competent";
  return { outcome, score: share && fraction(share), reasons: sums.reasons, effective: sums.effective };
}

// reason says what failed, for the person who reads it: a text and what goes into it, of
// which words are the checklist's.
export function reason(rules, { rule, step, of }) {
  const text = rules.steps.find((s) => s.no === step)?.text ?? "";
  switch (rule) {
    case "unsafe":
      return ["Step %d was unsafe: %s", step, text];
    case "critical":
      return ["Critical step %d was not shown well enough: %s", step, text];
    case "value":
      return ["Step %d: %s is outside its accepted range.", step, of];
    case "cues":
      return ["More steps were cued than the %d allowed.", rules.cue_limit];
    case "score":
      return ["The score is below the pass mark of %s %%.", Number(percent(readRules(rules).passMark))];
  }
  return ["No step was shown in full."];
}

export function reasonInWords(rules, why) {
  const [format, ...args] = reason(rules, why);
  return filled(format, args);
}
