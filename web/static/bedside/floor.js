// The observer's own stations at today's skills days: who is to come, who has shown it,
// and for whom nothing counts there.

import { h, line, link, shape, timeIn } from "./draw.js";
import { folded } from "./folded.js";
import { daysOf, listsOf } from "./stations.js";
import { state } from "./state.js";
import { theirs } from "./theirs.js";
import { childName, endedAs, stands } from "./words.js";

export function floors() {
  const { pack } = state;
  return daysOf(pack).flatMap((day) => [
    h("h2", { id: "day-" + day.id }, day.name),
    h("p", { class: "soft" }, `${day.place}. Your ${day.stations.length === 1 ? "station" : "stations"}, with who was where at ${timeIn(pack.zone, pack.made_at)}.`),
    ...day.stations.flatMap((s) => station(pack, day, s))]);
}

function station(pack, day, s) {
  const lists = listsOf(pack, day, s, state.sheets);
  const id = `${day.id}-${s.no}`;
  const lines = (all, draw) => h("ul", { class: "lines" }, all.map(draw));
  return [
    h("h3", { class: "group", id: "station-" + id }, `Station ${s.no}: ${s.title}`, s.client && h("span", { class: "for" }, ` by the values of ${childName(s.client)}`)),
    s.closed && h("section", { class: "faults mild" }, h("p", {}, shape("stopped"), h("b", {}, " Nothing shown here can count. "), s.closed)),
    lists.come.length > 0 ? lines(lists.come, comes) : h("p", { class: "empty" }, nobody(lists)),
    lists.shown.length > 0 && folded("shown-" + id, `Shown here: ${lists.shown.length}`, () => lines(lists.shown, showed)),
    lists.vain.length > 0 && folded("vain-" + id, `Due, and cannot count here: ${lists.vain.length}`, () => lines(lists.vain, vain)),
  ].filter(Boolean);
}

const nobody = ({ shown, vain }) => (shown.length ? "Nobody is left to come." : vain.length ? "Nobody is to come who can show it so that it counts." : "Nobody who comes today is asked to show this.");

const head = ({ visit }, ...more) => h("p", { class: "head" }, visit.name, " ", h("span", { class: "for" }, [visit.kind, ...more].filter(Boolean).join(" · ")));

// where is where somebody was when the pack was made, as far as it says who comes next.
function where({ visit, station }) {
  if (visit.at === station.no) return "at this station";
  if (visit.at) return `at station ${visit.at}`;
  return visit.next === station.no ? "comes here next" : "";
}

// why is what asks for it, and what must come before it.
export const why = ({ visit, stand }) => [
  stand.since ? [h("b", {}, `Shown since: ${stand.since}. `), `The pack is older and says ${stands(stand)}.`] : first(stands(stand)) + ".",
  visit.leads && " It comes before another that is due.",
  visit.first.length > 0 && ` After ${visit.first.length > 1 ? "stations" : "station"} ${listed(visit.first)}, once signed: the office takes no pass of it before.`,
].flat().filter(Boolean);

const first = (words) => words[0].toUpperCase() + words.slice(1);
const listed = (all) => (all.length < 2 ? String(all[0] ?? "") : `${all.slice(0, -1).join(", ")} and ${all.at(-1)}`);

const beginAt = ({ day, station, visit }) => "#/station/" + [day.id, station.no, visit.id].map(encodeURIComponent).join("/");
const named = ({ station, visit }) => `${visit.name}, station ${station.no}`;
const idOf = ({ day, station, visit }) => `${day.id}-${station.no}-${visit.id}`;

const begins = (at, text) => at.may && link(text, beginAt(at), { class: "act", id: "begin-" + idOf(at), "aria-label": `${text}: ${named(at)}` });

function comes(at) {
  const { open, stand, visit } = at;
  if (open && !theirs(open)) return line(shape("open"), [head(at, "being marked here"), h("p", {}, why(at))], link("Go on marking", "#/sheet/" + open.id, { class: "act main", id: "go-on-" + idOf(at), "aria-label": `Go on marking: ${named(at)}` }));
  if (open) return line(shape("open"), [head(at, `being marked by ${open.observer.name}`), h("p", {}, why(at))]);
  return line(shape(stand.since ? "fault" : stand.word), [head(at, where(at)), h("p", {}, why(at)), visit.marked_by && h("p", {}, `${visit.marked_by} had a sheet of it open at the office.`)].filter(Boolean), begins(at, "Begin"));
}

function showed(at) {
  const last = at.shown.at(-1);
  const passed = at.shown.some((s) => s.outcome === "competent");
  const acts = [last.sheet && link("What happens next", last.sheet.state === "refused" ? "#/waiting" : "#/after/" + last.sheet.id, { class: "act", id: "next-" + idOf(at), "aria-label": `What happens next: ${named(at)}` }),
    !passed && at.cannot.length === 0 && begins(at, "Begin once more")].filter(Boolean);
  return line(shape(last.sheet?.state === "refused" ? "fault" : endedAs[last.outcome] ?? "open"), [head(at), at.shown.map((s) => h("p", {}, `${s.outcome}, ${reached(s)}`))], acts.length > 0 && acts);
}

const onDevice = { finished: "kept here, not sent yet", refused: "not taken by the office" };

// reached is how far what was shown has come.
const reached = ({ sheet, signed }) => (sheet && onDevice[sheet.state]) ?? (signed || sheet?.signed?.length === 2 ? "signed" : "waits for a signature");

const vain = (at) => line(shape("stopped"), [head(at, where(at)), h("p", {}, why(at)), at.cannot.filter((w) => w !== at.station.closed).map((w) => h("p", {}, w))], begins(at, "Practise"));
