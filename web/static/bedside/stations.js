// The skills days of today that the pack has, as far as this device knows better who was
// shown at the observer's own stations since. Nothing here touches the screen.

import { clientOf, expired, learnerOf, skillOf } from "./pack.js";
import { dayOf, news, outcome, standing } from "./standing.js";

// daysOf are the days of a pack that are today: a pack of yesterday holds on over
// midnight, its skills days do not.
export const daysOf = (pack, now = Date.now()) => (!pack || pack.may_not || expired(pack, now) ? [] : (pack.skills_days ?? []).filter((d) => d.on === dayOf(pack.zone, now)));

// stationOf finds a station of today and who comes to it; null where either is not there.
export function stationOf(pack, dayID, no, learnerID, now = Date.now()) {
  const day = daysOf(pack, now).find((d) => d.id === dayID);
  const station = day?.stations.find((s) => String(s.no) === String(no));
  const visit = station?.learners.find((v) => v.id === learnerID);
  return visit ? { day, station, visit } : null;
}

// cannot is why nothing that somebody shows at a station can count, each in a sentence.
const cannot = ({ station, visit }) => [...new Set([station.closed, ...visit.cannot].filter(Boolean))];

// mayBegin reports whether the pack has all that a sheet of a station needs.
const mayBegin = (pack, { station, visit }) =>
  Boolean(skillOf(pack, station.skill) && learnerOf(pack, visit.id) && (station.client ? clientOf(pack, station.client.id) : !station.specific));

// A skill that is held for everybody is the same with every child, as at the office.
const of = (pack, { day, station, visit }, sheet) => sheet.learner.id === visit.id && sheet.skill.code === station.skill &&
  (!station.specific || sheet.client?.id === station.client?.id) && dayOf(pack.zone, sheet.performed_at) === day.on;

// openAt is the sheet that is being marked of somebody at a station; null for none.
const openAt = (pack, at, sheets) => sheets.find((s) => s.state === "open" && of(pack, at, s)) ?? null;

// shownAt is what somebody has shown at a station today in a way that counts: {outcome,
// sheet} of this device, where the pack cannot know it, and {outcome, signed} of the pack.
function shownAt(pack, at, sheets) {
  const known = at.visit.shown.filter((s) => s.formal && !s.taken_back);
  const fresh = sheets.filter((s) => s.state !== "open" && s.formal && of(pack, at, s) && news(pack, s) && !at.visit.shown.some((k) => k.id === s.id));
  return [...known.map((s) => ({ outcome: s.outcome, signed: s.signed })), ...fresh.map((sheet) => ({ outcome: outcome(sheet), sheet }))];
}

// known is somebody at a station with all that the pack and this device know of them there.
export function known(pack, at, sheets) {
  const { station, visit } = at;
  return { ...at, open: openAt(pack, at, sheets), shown: shownAt(pack, at, sheets), cannot: cannot(at), may: mayBegin(pack, at),
    stand: standing(pack, visit, { skill: station.skill, client: station.specific ? station.client?.id : "", word: visit.word, through: visit.through }, sheets) };
}

// listsOf sorts who comes to a station: who is to come, in the order of the pack, whoever
// is being marked first; who was shown; who cannot show it so that it counts.
export function listsOf(pack, day, station, sheets) {
  const lists = { come: [], shown: [], vain: [] };
  for (const visit of station.learners) {
    const one = known(pack, { day, station, visit }, sheets);
    lists[one.open ? "come" : one.shown.length > 0 ? "shown" : one.cannot.length > 0 ? "vain" : "come"].push(one);
  }
  lists.come.sort((a, b) => Boolean(b.open) - Boolean(a.open));
  return lists;
}
