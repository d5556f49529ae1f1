// The text of a finished sheet: what the device signs and the office keeps, to the byte.

import { outcomeOf, steps } from "./filling.js";

// textOf writes a sheet in the order of the format, without spaces.
export function textOf(sheet) {
  const { outcome, score, reasons } = outcomeOf(sheet);
  return JSON.stringify({
    version: 1, id: sheet.id, agency: sheet.agency.code, learner: sheet.learner.id, skill: sheet.skill.code, revision: sheet.skill.revision.id,
    ...(sheet.client && { client: sheet.client.id }), place: sheet.place, real: sheet.real, formal: sheet.formal,
    performed_at: sheet.performed_at, finished_at: sheet.finished_at, pack: sheet.pack, parameters: sheet.parameters, stopped: sheet.stopped,
    ...(sheet.stopped && { stop_reason: sheet.stop_reason }),
    marks: steps(sheet).filter((s) => sheet.marks[s.no]).map((s) => markText(s.no, sheet.marks[s.no])),
    taken_back: sheet.taken_back, talked_over: said(sheet.talked_over), name_checked_at: sheet.name_checked_at,
    ...(sheet.looked_over_at && { looked_over_at: sheet.looked_over_at }), drawn: sheet.drawn,
    outcome: { outcome, score: score ?? null, reasons: reasons.map(reasonText) },
  });
}

const markText = (step, m) => ({
  step, ...(m.mark && { mark: m.mark }), ...(m.not_applicable && { not_applicable: true, reason: m.reason }),
  ...(m.readings && { readings: m.readings }), ...(m.note && { note: m.note }), marked_at: m.marked_at,
});

const reasonText = ({ rule, step, of }) => ({ rule, ...(step && { step }), ...(of && { of }) });
const said = ({ note, practise }) => ({ ...(note && { note }), ...(practise && { practise }) });
