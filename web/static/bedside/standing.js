// Where somebody stands by the pack, as far as this device knows better: a pack is a day
// old at most, but a day may have ended since, and something gone wrong here.

import { outcomeOf } from "./filling.js";

// dayOf is the civil day of an instant, 2027-11-29, in a zone.
export const dayOf = (zone, ms) => new Intl.DateTimeFormat("en-CA", { timeZone: zone, year: "numeric", month: "2-digit", day: "2-digit" }).format(new Date(ms));

// standing is {word, through, since}: what ended before today has lapsed, and since is what
// was shown here that the pack does not know, where it was no pass; "" for nothing.
export function standing(pack, learner, s, sheets, now = Date.now()) {
  const held = s.word === "current" || s.word === "due";
  const over = held && s.through && s.through < dayOf(pack.zone, now);
  return { word: over ? "lapsed" : s.word, through: s.through, since: sheets.filter((sheet) => about(sheet, learner, s) && news(pack, sheet)).map(outcome).find((o) => o !== "competent") ?? "" };
}

// A skill that is held for everybody is also shown with one child.
const about = (sheet, learner, s) => sheet.formal && sheet.state !== "open" && sheet.learner.id === learner.id && sheet.skill.code === s.skill && (!s.client || sheet.client?.id === s.client);

// news reports whether the pack cannot know of a sheet: the office had not taken it yet
// when it made the pack, both by the office's own clock.
export const news = (pack, sheet) => sheet.state !== "sent" || Date.parse(sheet.answer?.received_at ?? sheet.finished_at) >= Date.parse(pack.made_at);

// outcome is the office's where it has answered.
export const outcome = (sheet) => sheet.answer?.demonstration.outcome ?? outcomeOf(sheet).outcome;

// unfinished says beside an outcome why it counts for nothing yet: a pass needs both
// signatures, and what is no pass the observer's alone.
export function unfinished({ formal, signed = [], answer }) {
  if (!formal) return ", practice only";
  if (answer.demonstration.outcome === "competent") return signed.length < 2 ? ", not signed by both yet" : "";
  return signed.some((s) => s.part === "observer") ? "" : ", not signed yet";
}
