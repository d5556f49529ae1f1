// Reading what the office sends (api/wire_rules.go) and what stands on a sheet,
// once and in full, before anything is judged. Whatever does not fit is thrown.

import { isMark, marks } from "./marks.js";
import { parse } from "./number.js";

export const quantity = ({ value, unit = "" }) => ({ value: parse(value), unit: text(unit, "a unit") });

// quantities reads values by name, each with its unit.
export const quantities = (by = {}) => new Map(Object.entries(by ?? {}).map(([name, q]) => [name, quantity(q)]));

export function text(word, what) {
  if (typeof word !== "string") throw new Error(`${what} is not text`);
  return word;
}

function natural(n, what) {
  if (!Number.isSafeInteger(n) || n < 0) throw new Error(`${what} is not a whole number of 0 or more`);
  return n;
}

// readRules turns the texts of the rules into numbers.
export function readRules(rules) {
  const steps = rules.steps.map(readStep);
  return {
    credits: new Map(marks.map((m) => [m, parse(rules.credits[m])])),
    passMark: parse(rules.pass_mark),
    cueLimit: rules.cue_limit === null ? null : natural(rules.cue_limit, "the cue limit"),
    defaults: new Map(rules.parameters.filter((p) => p.default).map((p) => [p.name, quantity(p.default)])),
    steps,
    step: new Map(steps.map((s) => [s.no, s])),
  };
}

function readStep(s) {
  if (s.critical && !isMark(s.least)) throw new Error(`step ${s.no}: "${s.least}" is not the least mark of a critical step`);
  return {
    no: natural(s.no, "a step's number"),
    text: s.text,
    critical: Boolean(s.critical),
    least: s.least,
    weight: parse(`${natural(s.weight, "a weight")}`),
    mayNotApply: s.may_not_apply ?? "",
    measures: s.measures.map(readMeasure),
  };
}

const readMeasure = (m) => ({
  name: m.name,
  unit: m.unit ?? "",
  low: readBound(m.low),
  high: readBound(m.high),
  exclusive: Boolean(m.exclusive),
  magnitude: Boolean(m.magnitude),
  either: m.either ?? "",
});

function readBound(b) {
  if (!b) return null;
  return {
    value: parse(b.value ?? "0"),
    parameter: b.parameter ?? "",
    measure: b.measure ?? "",
    times: b.times === undefined ? null : parse(b.times),
    plus: b.plus ?? "",
    minus: b.minus ?? "",
  };
}

// known are a child's values, with the checklist's defaults for what their record
// lacks.
export const known = (read, parameters) => new Map([...read.defaults, ...quantities(parameters)]);
