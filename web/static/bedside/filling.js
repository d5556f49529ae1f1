// One sheet being filled in: what may happen to it, each as a new sheet made from the
// old one. Nothing here touches the screen, the clock or the database.

import { openSteps, score } from "./outcome.js";
import { taken } from "./tongue.js";

// begin makes a sheet. It carries all that its marking needs, so that it goes on
// without the pack it was begun from.
export function begin(id, pack, { learner, skill, client, place, real, formal }, now) {
  const ordered = client ?? { parameters: {}, words: {} };
  return {
    id, version: 1, turn: 0, state: "open", agency: pack.agency, zone: pack.zone, observer: pack.observer, pack: pack.id,
    learner: { id: learner.id, name: learner.name, kind: learner.kind },
    skill: { code: skill.code, title: skill.title, revision: skill.revision }, checklist: skill.checklist, rules: skill.rules,
    client: client && { id: client.id, code: client.code, first_name: client.first_name },
    parameters: ordered.parameters ?? {}, words: ordered.words ?? {},
    place, real, formal, name_checked_at: now, performed_at: now, finished_at: null, stopped: false, stop_reason: "",
    marks: {}, taken_back: [], talked_over: { note: "", practise: "" }, drawn: {}, clocks: {}, undo: [],
    tongue: taken(pack, learner, skill),
  };
}

export const steps = (sheet) => sheet.checklist.sections.flatMap((s) => s.steps);
export const stepOf = (sheet, no) => steps(sheet).find((s) => s.no === no);
export const markOf = (sheet, no) => sheet.marks[no] ?? {};
const turned = (sheet, change) => ({ ...sheet, ...change, turn: sheet.turn + 1 });

// changed puts down something at a step and remembers what stood there. What stood as
// unsafe and no longer does is kept as taken back.
function changed(sheet, no, entry, now, reason = "") {
  const before = sheet.marks[no] ?? null;
  const marks = { ...sheet.marks };
  if (entry) marks[no] = entry;
  else delete marks[no];
  const back = before?.mark === "unsafe" && entry?.mark !== "unsafe" ? [...sheet.taken_back, takenBack(now, no, reason)] : sheet.taken_back;
  return turned(sheet, { marks, taken_back: back, undo: [...sheet.undo, { step: no, before }] });
}

const takenBack = (at, step, reason) => ({ at, ...(step && { step }), ...(reason && { reason }) });

// takesBack reports whether a new entry at a step would take an unsafe mark back.
export const takesBack = (sheet, no, mark) => markOf(sheet, no).mark === "unsafe" && mark !== "unsafe";

export function give(sheet, no, mark, now, reason) {
  const { readings, note } = markOf(sheet, no);
  return changed(sheet, no, { mark, ...(readings && { readings }), ...(note && { note }), marked_at: now }, now, reason);
}

export function notApplicable(sheet, no, why, now, reason) {
  const { note } = markOf(sheet, no);
  return changed(sheet, no, { not_applicable: true, reason: why, ...(note && { note }), marked_at: now }, now, reason);
}

// read puts a reading down, or takes it away with null.
export function read(sheet, no, name, reading, now) {
  const { not_applicable, reason, ...entry } = markOf(sheet, no);
  const readings = { ...entry.readings };
  if (reading) readings[name] = reading;
  else delete readings[name];
  const { readings: _, ...rest } = entry;
  const some = Object.keys(readings).length > 0;
  return changed(sheet, no, some || rest.mark || rest.note ? { ...rest, ...(some && { readings }), marked_at: now } : null, now);
}

export function note(sheet, no, words, now) {
  const { note: _, ...entry } = markOf(sheet, no);
  const changedEntry = { marked_at: now, ...entry, ...(words && { note: words }) };
  return changed(sheet, no, words || entry.mark || entry.not_applicable || entry.readings ? changedEntry : null, now);
}

// undo takes the last change of a step back.
export function undo(sheet, now, reason) {
  const last = sheet.undo.at(-1);
  const next = changed(sheet, last.step, last.before, now, reason);
  return { ...next, undo: sheet.undo.slice(0, -1) };
}

// undoTakesBack reports whether undoing would take an unsafe mark back.
export function undoTakesBack(sheet) {
  const last = sheet.undo.at(-1);
  return last !== undefined && takesBack(sheet, last.step, last.before?.mark);
}

export const stop = (sheet, now) => turned(sheet, { stopped: true, stopped_at: now });
export const stopWords = (sheet, words) => turned(sheet, { stop_reason: words });
export const resume = (sheet, now, reason) => turned(sheet, { stopped: false, stop_reason: "", taken_back: [...sheet.taken_back, takenBack(now, 0, reason)] });

// startClock keeps the instant at which a clock began: it runs on whatever happens to
// the page or the screen.
export const startClock = (sheet, no, name, ms) => turned(sheet, { clocks: { ...sheet.clocks, [`${no} ${name}`]: ms } });
export function stopClock(sheet, no, name, reading, now) {
  const clocks = { ...sheet.clocks };
  delete clocks[`${no} ${name}`];
  const next = { ...sheet, clocks };
  return reading ? read(next, no, name, reading, now) : turned(next, {});
}

export const talked = (sheet, change) => turned(sheet, { talked_over: { ...sheet.talked_over, ...change } });
export const drew = (sheet, strokes) => turned(sheet, { drawn: strokes.length ? { learner: strokes } : {} });

// lookedOver is a sheet that came back from its second copy, once whoever observed has
// looked at each of its marks.
export const lookedOver = (sheet, now) => turned(sheet, { rescued: false, looked_over_at: now });

// judged is the sheet as the rules read it.
const judged = (sheet) => ({ stopped: sheet.stopped, marks: marks(sheet) });
const marks = (sheet) => steps(sheet).filter((s) => sheet.marks[s.no]).map((s) => ({ step: s.no, ...sheet.marks[s.no] }));

export const openOf = (sheet) => openSteps(sheet.rules, sheet.parameters, { ...judged(sheet), stopped: false });
export const outcomeOf = (sheet) => score(sheet.rules, sheet.parameters, judged(sheet));
export const markedCount = (sheet) => steps(sheet).length - new Set(openOf(sheet).map((o) => o.step)).size;

// nextOpen is the first open step after one, from the beginning again where none is.
export function nextOpen(sheet, after = 0) {
  const open = openOf(sheet).map((o) => o.step);
  return open.find((no) => no > after) ?? open[0] ?? 0;
}

// passes reports whether the rules make a pass of a sheet.
export const passes = (sheet) => outcomeOf(sheet).outcome === "competent";

// mayGo reports whether a finished sheet may be thrown away: practice and a pass, for the
// rest counts against the learner and must not be lost.
export const mayGo = (sheet) => !grave(sheet) && (!sheet.formal || passes(sheet));

// grave reports whether something on a sheet was unsafe or ended for safety, also where
// that was taken back: it has happened, so the sheet goes to the office as it is.
export const grave = (sheet) => sheet.stopped || sheet.taken_back.length > 0 || Object.values(sheet.marks).some((m) => m.mark === "unsafe");
