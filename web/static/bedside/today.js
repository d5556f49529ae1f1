// Today's people with what each of them is to show, and all else that they could.

import { count, dayIn, h, line, link, shape } from "./draw.js";
import { folded } from "./folded.js";
import { clientOf, expired, skillOf } from "./pack.js";
import { standing } from "./standing.js";
import { state } from "./state.js";
import { childName, stands } from "./words.js";

let sought = "";

// A pack that has run out tells nobody's standing: it may have ended since.
export function today() {
  const { pack } = state;
  if (!pack || pack.may_not || expired(pack)) return [];
  const list = h("div", { id: "today" });
  const know = (l, s) => ({ ...s, ...standing(pack, l, s, state.sheets) });
  const learners = pack.learners.map((l) => ({ ...l, skills: l.skills.map((s) => know(l, s)), others: others(pack, l).map((s) => know(l, s)) }));
  const draw = () => list.replaceChildren(...learners.filter((l) => l.skills.length + l.others.length > 0 && matches(l, sought)).sort(lacking).flatMap((l) => learner(pack, l)));
  draw();
  return [
    h("h2", {}, state.open().length ? "Whom do you see?" : "Today’s people"),
    pack.learners.length > 8 && h("p", { class: "find" }, h("label", { for: "find" }, "Find somebody"), h("input", { id: "find", type: "search", value: sought, autocomplete: "off", oninput: (e) => { sought = e.target.value; draw(); } })),
    pack.learners.length === 0 && h("p", { class: "empty" }, "Nobody is to be seen in a skill that you may observe."),
    list, h("p", { class: "soft" }, `Pack of ${dayIn(pack.zone, pack.made_at)}, holds until ${dayIn(pack.zone, pack.expires_at)}.`),
  ].filter(Boolean);
}

const matches = (l, words) => l.name.toLocaleLowerCase().includes(words.trim().toLocaleLowerCase());

// others are the skills of the pack that are neither required of somebody nor begun: one
// that is held for each child by itself once for each child whose team they are on.
function others(pack, l) {
  const children = pack.teams.filter((t) => t.person === l.id && clientOf(pack, t.client)).map((t) => t.client);
  return pack.skills.flatMap((s) => (s.specific ? children : [""]).map((client) => ({ skill: s.code, client, word: "not started" })))
    .filter((o) => !l.skills.some((s) => s.skill === o.skill && (s.client ?? "") === o.client));
}

// What is held and needs nothing now is folded away, and whoever lacks nothing comes last.
const settled = (s) => !s.since && (s.word === "current" || s.word === "waived");
const lacking = (a, b) => b.skills.some((s) => !settled(s)) - a.skills.some((s) => !settled(s));

function learner(pack, l) {
  const due = [...l.skills.filter((s) => !settled(s)), ...l.others.filter((s) => s.since)]; // what went wrong here stands where it is seen
  const held = l.skills.filter(settled);
  const rest = l.others.filter((s) => !s.since);
  const list = (all) => h("ul", { class: "lines" }, all.map((s) => skill(pack, l, s)));
  return [h("h3", { class: "group" }, l.name, " ", h("span", { class: "for" }, l.kind)),
    due.length > 0 && list(due),
    held.length > 0 && folded("held-" + l.id, [count(held.length, "skill", "skills"), due.length ? " more" : "", " that nothing is due in", of(l)], () => list(held)),
    rest.length > 0 && folded("other-" + l.id, ["Another skill", of(l)], () => list(rest))].filter(Boolean);
}

const of = (l) => h("span", { class: "vh" }, `, ${l.name}`);

function skill(pack, l, s) {
  const list = skillOf(pack, s.skill);
  const client = s.client ? clientOf(pack, s.client) : null;
  if (!list) return null;
  const address = "#/begin/" + [l.id, s.skill, s.client ?? ""].map(encodeURIComponent).join("/");
  return line(shape(s.since ? "fault" : s.word), [h("p", { class: "head" }, list.title, client && h("span", { class: "for" }, ` for ${childName(client)}`)), s.since ? h("p", {}, h("b", {}, `Shown here since: ${s.since}. `), `The pack is older and says ${stands(s)}.`) : h("p", {}, stands(s))],
    link("Observe", address, { class: "act", id: `see-${l.id}-${s.skill}-${s.client ?? ""}`, "aria-label": `Observe ${list.title}, ${l.name}${client ? `, for ${childName(client)}` : ""}` }));
}
