// Scores sheets with the program that devices run, without a browser: one task a
// line of JSON on standard input, one answer a line on standard output. What does
// not fit is answered by {refused}.

import { createInterface } from 'node:readline';
import './oldest-node.mjs';
import * as number from '../../web/static/bedside/number.js';
import { openSteps, reasonInWords, score } from '../../web/static/bedside/outcome.js';
import { rangeFor } from '../../web/static/bedside/ranges.js';
import { says } from '../../web/static/bedside/says.js';
import { convert } from '../../web/static/bedside/units.js';

// Rules that are left out are those of the line before.
let rules = null;

function scored({ parameters, sheet }) {
  const came = score(rules, parameters, sheet);
  const words = (came.reasons ?? []).map((r) => reasonInWords(rules, r));
  return { ...came, words, stillOpen: openSteps(rules, parameters, sheet), ranges: ranges(parameters, sheet) };
}

const ranges = (parameters, sheet) => sheet.marks.flatMap(({ step, readings }) => Object.keys(readings ?? {}).sort()
  .map((name) => ({ step, name, ...rangeOrRefused(parameters, step, name, readings) })));

function rangeOrRefused(parameters, step, name, readings) {
  try {
    return rangeFor(rules, parameters, step, name, readings);
  } catch (fault) {
    return refused(fault);
  }
}

// A fault of the language's own is no refusal: it is a mistake in the program.
const refused = (fault) => (fault.constructor === Error ? { refused: fault.message } : { broken: fault.stack });

function numbered(text) {
  const n = number.parse(text);
  return { text: number.write(n), fraction: number.fraction(n), percent: number.percent(n) };
}

// Every character of Unicode that says something, as pairs of first and last.
function saying() {
  const runs = [];
  for (let c = 0, on = false; c <= 0x110000; c++) {
    const is = c < 0x110000 && says(String.fromCodePoint(c));
    if (is && !on) runs.push([c, c]);
    if (is) runs.at(-1)[1] = c;
    on = is;
  }
  return { saying: runs };
}

function answer(task) {
  if (task.rules) rules = task.rules;
  if (task.number !== undefined) return numbered(task.number);
  if (task.into !== undefined) {
    const { value, unit } = task.quantity;
    return { fraction: number.fraction(convert({ value: number.parse(value), unit }, task.into).value) };
  }
  return task.saying ? saying() : scored(task);
}

for await (const line of createInterface({ input: process.stdin })) {
  let came;
  try {
    came = answer(JSON.parse(line));
  } catch (fault) {
    came = refused(fault);
  }
  process.stdout.write(`${JSON.stringify(came)}\n`);
}
