// Before each sheet: is this the right person, and the right child? Said large, and
// answered with a tap that names them. At a station of a skills day what the station
// fixes is chosen already; who stands there never is.

import { button, choices, h, link, say, shape } from "./draw.js";
import { id } from "./device.js";
import { begin as make } from "./filling.js";
import { why } from "./floor.js";
import { lacking } from "./ordered.js";
import { clientOf, expired, learnerOf, skillOf } from "./pack.js";
import { known, stationOf } from "./stations.js";
import { state } from "./state.js";
import { get, put as keep } from "./store.js";
import { theirs } from "./theirs.js";
import { Work } from "./work.js";
import { top } from "./top.js";
import { childName, places } from "./words.js";

export async function begin({ put, words: [learnerID, code, clientID] }) {
  const { pack } = state;
  const learner = pack && learnerOf(pack, learnerID);
  const skill = pack && skillOf(pack, code);
  if (!learner || !skill || expired(pack)) return not(put, pack);
  const children = clientID ? [clientOf(pack, clientID)] : pack.clients.filter((c) => pack.teams.some((t) => t.client === c.id && t.person === learner.id));
  const client = clientID || skill.specific ? children[0] ?? null : null;
  if (!client && (clientID || skill.specific)) return not(put, pack);
  const form = { pack, learner, skill, client, children, place: (await get("settings", "place")) ?? "", real: skill.manikin_only ? false : null, formal: null };
  put(top(), ...screen(form, clientID ? [] : children));
  return { told() {} }; // what was chosen stays
}

// station is the name check at a station of today's skills day.
export async function station({ put, words: [dayID, no, learnerID] }) {
  const { pack } = state;
  const found = stationOf(pack, dayID, no, learnerID);
  const at = found && known(pack, found, state.sheets);
  if (!at?.may) return not(put, pack, "There is no such station today on this device, or nobody of this name comes to it.");
  const { open, cannot: vain, station: here } = at;
  const skill = skillOf(pack, here.skill);
  const form = { pack, at, children: [], learner: learnerOf(pack, learnerID), skill, client: here.client ? clientOf(pack, here.client.id) : null, place: at.day.place, real: skill.manikin_only ? false : null, formal: vain.length ? false : null };
  put(top(), ...(open && !theirs(open) ? begun(form, open) : screen(form, [], vain)));
  return { told() {} };
}

function not(put, pack, words = "The pack on this device has no such person, child or skill.") {
  put(top(), h("h1", { tabindex: "-1" }, "This cannot be begun"), h("p", { class: "lead" }, pack && expired(pack) ? "The pack has run out. It is renewed by itself as soon as the office answers." : words), link("Back to the people", "#/", { class: "act" }));
  return {};
}

const shows = ({ at, skill }) => (at ? `Station ${at.station.no} of ${at.day.name}: ${skill.title}` : skill.title);

// begun is what stands in place of the check where a sheet is open already.
const begun = (form, open) => [h("p", { class: "soft check" }, shows(form)), h("h1", { tabindex: "-1", class: "who-learner" }, form.learner.name),
  h("p", { class: "lead" }, "You have begun already: a sheet of this person in this skill is open."),
  h("div", { class: "acts wide" }, link(`This is ${form.learner.name}: go on`, "#/sheet/" + open.id, { class: "act main", id: "go-on" }), link("This is somebody else", "#/", { class: "act", id: "not-this" }))];

function screen(form, children, vain = []) {
  const faults = h("div", { role: "alert" });
  const byChild = lacking(form.skill, null).length > 0; // nothing can be judged without a child's values
  const child = h("p", { class: "who-child" });
  const go = button("", () => start(form, faults), { class: "act main", id: "this-is" });
  const name = () => {
    child.replaceChildren(...(form.client ? [form.at ? "by the values of " : "for ", h("b", {}, childName(form.client))] : [h("span", { class: "soft" }, byChild ? "by the values of a child" : "not for one child alone")]));
    go.textContent = `This is ${form.learner.name}`;
  };
  name();
  return [
    h("p", { class: "soft check" }, shows(form)),
    h("h1", { tabindex: "-1", class: "who-learner" }, form.learner.name), h("p", { class: "soft" }, form.learner.kind), child,
    h("p", { class: "lead" }, form.at ? "Ask them to say their name. Read it here, and read what they are to show." : "Look at the person and at the child’s name band. Read both names aloud."),
    form.at && h("p", { class: "lead" }, h("b", {}, "Asked for: "), why(form.at)),
    ...others(form),
    ...(vain.length ? [] : unchecked(form)),
    !form.skill.specific && children.length > 0 && choices("For which child", "client", [...children.map((c) => [c.id, childName(c)]), ...(byChild ? [] : [["", "No one child"]])], byChild ? null : "", (v) => { form.client = children.find((c) => c.id === v) ?? null; name(); }),
    form.skill.manikin_only ? h("p", {}, "On a manikin, test lung or spare only: an emergency is never provoked in a child.")
      : choices("Shown on", "real", [["real", "the child"], ["simulation", "a manikin, test lung or spare"]], null, (v) => (form.real = v === "real")),
    vain.length > 0 ? inVain(vain)
      : choices("It is", "formal", [["formal", "a formal demonstration", "it counts, either way"], ["practice", "practice", "it earns nothing and costs nothing"]], null, (v) => (form.formal = v === "formal")),
    h("div", { class: "stack" }, h("label", { for: "place" }, "Place"),
      h("input", { id: "place", list: "places", value: form.place, autocomplete: "off", maxlength: "200", oninput: (e) => (form.place = e.target.value) }), h("datalist", { id: "places" }, places.map((p) => h("option", { value: p })))),
    faults,
    h("div", { class: "acts wide" }, go, link("This is somebody else", "#/", { class: "act", id: "not-this" })),
  ].filter(Boolean);
}

const inVain = (reasons) => h("section", { class: "faults mild" }, h("p", {}, shape("stopped"), h("b", {}, " It cannot count:")), h("ul", {}, reasons.map((r) => h("li", {}, r))),
  h("p", {}, "What begins here is practice; it earns nothing and costs nothing."));

// unchecked warns, by the pack, that a knowledge check comes first. It can still be begun: what goes
// wrong counts whatever was checked, and the check may have been passed since.
function unchecked({ learner, skill }) {
  const lacks = (learner.checks ?? []).filter((c) => c.skill === skill.code); // packs of before have none
  return lacks.map((c) => h("section", { class: "faults mild" }, h("p", {}, shape("open"), ` ${c.why}`), h("p", {}, "By the pack, the office takes no formal pass of it before that. It can be practice.")));
}

// others warns of what is open of somebody else: on a day with many people it is easy to
// mark one person's sheet for another.
function others({ at, learner }) {
  const names = at ? [...new Set(state.open().filter((s) => !theirs(s) && s.learner.id !== learner.id).map((s) => s.learner.name))] : [];
  return names.length ? [h("section", { class: "faults mild" }, h("p", {}, shape("open"), ` You have sheets of others open: ${names.join(", ")}. What you begin here is of ${learner.name} alone.`))] : [];
}

// seen is what was checked, as a pack has it.
const seen = (pack, { at, learner, skill, client }) => {
  const now = at && stationOf(pack, at.day.id, at.station.no, at.visit.id);
  return JSON.stringify([learnerOf(pack, learner.id)?.name, skillOf(pack, skill.code)?.revision, client && clientOf(pack, client.id),
    now && [now.day.place, now.station.skill, now.station.client, known(pack, now, []).cannot]]);
};

// goneBy is why what was checked cannot begin any more: the pack may have been renewed or
// have run out, or the day ended, while it stood on the screen. "" for nothing.
function goneBy(form) {
  if (expired(state.pack)) return "The pack has run out meanwhile. It is renewed by itself as soon as the office answers.";
  if (seen(state.pack, form) !== seen(form.pack, form) || (form.at && !stationOf(state.pack, form.at.day.id, form.at.station.no, form.at.visit.id))) return "What you checked is not what stands in the pack now. Go back to the people, and check once more.";
  return "";
}

// unordered is what is to be done where a checklist judges by values that nobody ordered:
// the sheet could never be finished. "" for nothing.
function unordered({ skill, client, children }) {
  const values = lacking(skill, client);
  if (values.length === 0) return "";
  if (client) return `have the office enter for ${childName(client)}, then take the day’s people along anew: ${values.join("; ")}`;
  return children.length ? `choose the child by whose values it is judged (${values.join("; ")})` : `it is judged by a child’s values (${values.join("; ")}), and here is none; have the coordinator put one to it`;
}

async function start(form, faults) {
  const gone = goneBy(form);
  if (gone) {
    faults.replaceChildren(h("section", { class: "faults" }, h("p", {}, shape("fault"), " ", gone)));
    return;
  }
  const lacks = [form.real === null && "say whether it is shown on the child", form.formal === null && "say whether it is formal or practice", !form.place.trim() && "write down the place", unordered(form)].filter(Boolean);
  if (lacks.length) {
    faults.replaceChildren(h("section", { class: "faults" }, h("p", {}, shape("fault"), ` Before it can begin: ${lacks.join("; ")}.`)));
    return;
  }
  if (form.begun) return; // a tap that came twice
  form.begun = true;
  const work = new Work(make(id(), state.pack, { ...form, place: form.place.trim() }, new Date().toISOString()));
  if (!(await work.do((sheet) => sheet))) {
    form.begun = false;
    faults.replaceChildren(h("section", { class: "faults" }, h("p", {}, shape("fault"), " ", work.fault)));
    return;
  }
  if (!form.at) await keep("settings", form.place.trim(), "place").catch(() => {});
  await state.read();
  say(`Begun: ${form.skill.title}, ${form.learner.name}. Kept.`);
  location.hash = "#/sheet/" + work.kept.id;
}
