// A range as it applies to one child, the twin of assessment/accepted.go. A range is
// {low, high, unit, exclusive, magnitude}; an end that is null is open.

import { abs, compare, minus, plus, times, zero } from "./number.js";
import { convert, unitName } from "./units.js";

const bounds = (m) => [m.low, m.high].filter((b) => b !== null);

// accepted works out a measure's range from the child's values and the step's other
// readings. missing names a value that the child's record lacks: the range is then
// unknown.
export function accepted(m, known, values) {
  const unit = unitFor(m, known);
  const range = { low: null, high: null, unit, exclusive: m.exclusive, magnitude: m.magnitude, missing: "" };
  for (const side of ["low", "high"]) {
    const end = at(m[side], unit, known, values);
    if (end?.missing) return { ...range, missing: end.missing };
    range[side] = end;
  }
  // Where a reading is compared without sign, so is the range: a lower limit
  // recorded as −80 mmHg would else let every reading pass.
  if (m.magnitude) {
    range.low &&= abs(range.low);
    range.high &&= abs(range.high);
  }
  return range;
}

// unitFor is the unit of the range: the written one, else that of the first
// parameter it names.
function unitFor(m, known) {
  if (m.unit) return m.unit;
  const named = bounds(m).find((b) => known.has(b.parameter));
  return named ? known.get(named.parameter).unit : "";
}

// at is the bound's value in unit, null for no bound, or {missing}.
function at(b, unit, known, values) {
  if (b === null) return null;
  let n = base(b, unit, known, values);
  if (n.missing) return n;
  if (b.times) n = times(n, b.times);
  const more = inUnit(known, b.plus, unit);
  if (more.missing) return more;
  const less = inUnit(known, b.minus, unit);
  if (less.missing) return less;
  return minus(plus(n, more), less);
}

// inUnit is a child's value in unit, 0 for no name.
function inUnit(known, name, unit) {
  if (!name) return zero;
  if (!known.has(name)) return { missing: name };
  return convert(known.get(name), unit).value;
}

function base(b, unit, known, values) {
  if (b.parameter) return inUnit(known, b.parameter, unit);
  if (!b.measure) return b.value;
  if (!values.has(b.measure)) throw new Error(`the range needs the value "${b.measure}" of the same step`);
  return convert(values.get(b.measure), unit).value;
}

// holds reports whether a reading lies in the range. The range is turned into the
// unit of the reading, never the reading into the unit of the range.
export function holds(range, read) {
  const v = range.magnitude ? abs(read.value) : read.value;
  convert({ value: zero, unit: range.unit }, read.unit);
  return past(range, range.low, v, read.unit, 1) && past(range, range.high, v, read.unit, -1);
}

// past reports whether v lies on the good side of an end: above it for side 1,
// below it for side -1.
function past(range, end, v, unit, side) {
  if (end === null) return true;
  const c = compare(v, convert({ value: end, unit: range.unit }, unit).value) * side;
  return c > 0 || (c === 0 && !range.exclusive);
}

// canJudge reports whether the other readings that a range refers to are there.
export const canJudge = (m, values) => bounds(m).every((b) => !b.measure || values.has(b.measure));

// outOfRange names each reading of an entry that lies outside its range, and what
// the child's record lacks to tell. Every judged range must be known before a step
// can be judged at all, save those of an alternative that was not chosen.
export function outOfRange(step, entry, known) {
  const out = [];
  const gaps = [];
  for (const m of step.measures) {
    const read = entry.values.get(m.name);
    if ((!read && m.either) || !canJudge(m, entry.values)) continue;
    const range = accepted(m, known, entry.values);
    if (range.missing) {
      gaps.push({ step: step.no, why: "parameter", of: range.missing });
    } else if (read && !holdsAt(step, m, range, read)) {
      out.push(m.name);
    }
  }
  return { out, gaps };
}

function holdsAt(step, m, range, read) {
  try {
    return holds(range, read);
  } catch (cause) {
    throw new Error(
      `step ${step.no}, ${m.name}: the value is in ${unitName(read.unit)} and the range in ${unitName(range.unit)}`,
      { cause },
    );
  }
}
