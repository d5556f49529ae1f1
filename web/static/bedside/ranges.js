// A child's own ranges in words, for the page that asks for a reading: the twin of
// Accepted.InWords in assessment/words.go.

import { accepted, canJudge, holds } from "./accepted.js";
import { compare, inward, write } from "./number.js";
import { known, quantities, readRules } from "./rules.js";
import { unitWords } from "./units.js";

// rangeFor says what a measure of a step accepts, given the step's readings so far:
// {unit, words, missing, outside}. words is "" where the range is not known yet, and
// missing then names what the child's record lacks, if that is why; outside is true
// where the measure has a reading that lies outside.
export function rangeFor(rules, parameters, no, name, readings) {
  const read = readRules(rules);
  const values = quantities(readings);
  const m = read.step.get(no).measures.find((x) => x.name === name);
  if (!canJudge(m, values)) return { unit: m.unit, words: "", missing: "", outside: false };
  const range = accepted(m, known(read, parameters), values);
  if (range.missing) return { unit: range.unit, words: "", missing: range.missing, outside: false };
  const given = values.get(name);
  return { unit: range.unit, words: inWords(range), missing: "", outside: Boolean(given) && !holds(range, given) };
}

// outsideOf names the readings of a step that lie outside their ranges.
export const outsideOf = (rules, parameters, no, readings) =>
  Object.keys(readings).filter((name) => rangeFor(rules, parameters, no, name, readings).outside);

// inWords: an end that has no short decimal is rounded inward, so that nothing
// shown as accepted is refused.
export function inWords(range) {
  const one = range.low && range.high && compare(range.low, range.high) === 0;
  const end = (n, side) => n && write(one ? n : inward(n, side));
  const words = [ends(end(range.low, 1), end(range.high, -1), range.exclusive), unitWords(range.unit)].join(" ").trimEnd();
  if (!range.low && !range.high) return "recorded, not judged";
  return range.magnitude ? `${words}, with or without a minus sign` : words;
}

function ends(low, high, exclusive) {
  if (low === high && !exclusive) return `exactly ${low}`;
  if (low === null) return `${exclusive ? "below" : "at most"} ${high}`;
  if (high === null) return `${exclusive ? "above" : "at least"} ${low}`;
  return exclusive ? `above ${low} and below ${high}` : `${low} to ${high}`;
}
