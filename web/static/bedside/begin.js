// Before each sheet: is this the right person, and the right child? Said large, and
// answered with a tap that names them.

import { button, choices, h, link, say, shape } from "./draw.js";
import { id } from "./device.js";
import { begin as make } from "./filling.js";
import { clientOf, expired, learnerOf, skillOf } from "./pack.js";
import { state } from "./state.js";
import { get, put as keep } from "./store.js";
import { Work } from "./work.js";
import { top } from "./top.js";
import { childName, places } from "./words.js";

export async function begin({ put, words }) {
  const [learnerID, code, clientID] = words;
  const { pack } = state;
  const learner = pack && learnerOf(pack, learnerID);
  const skill = pack && skillOf(pack, code);
  if (!learner || !skill || expired(pack)) {
    put(top(), h("h1", { tabindex: "-1" }, "This cannot be begun"), h("p", { class: "lead" }, pack && expired(pack) ? "The pack has run out. It is renewed by itself as soon as the office answers." : "The pack on this device has no such person or skill."), link("Back to the people", "#/", { class: "act" }));
    return {};
  }
  const children = clientID ? [clientOf(pack, clientID)] : pack.clients.filter((c) => pack.teams.some((t) => t.client === c.id && t.person === learner.id));
  const form = { learner, skill, client: clientID || skill.specific ? children[0] ?? null : null, place: (await get("settings", "place")) ?? "", real: skill.manikin_only ? false : null, formal: null };
  put(top(), ...screen(form, children, clientID));
  return { told() {} }; // what was chosen stays
}

function screen(form, children, fixed) {
  const faults = h("div", { role: "alert" });
  const child = h("p", { class: "who-child" });
  const go = button("", () => start(form, faults), { class: "act main", id: "this-is" });
  const name = () => {
    child.replaceChildren(...(form.client ? ["for ", h("b", {}, childName(form.client))] : [h("span", { class: "soft" }, "not for one child alone")]));
    go.textContent = `This is ${form.learner.name}`;
  };
  name();
  return [
    h("p", { class: "soft check" }, form.skill.title),
    h("h1", { tabindex: "-1", class: "who-learner" }, form.learner.name), h("p", { class: "soft" }, form.learner.kind), child,
    h("p", { class: "lead" }, "Look at the person and at the child’s name band. Read both names aloud."),
    !fixed && !form.skill.specific && children.length > 0 && choices("For which child", "client", [...children.map((c) => [c.id, childName(c)]), ["", "No one child"]], "", (v) => { form.client = children.find((c) => c.id === v) ?? null; name(); }),
    form.skill.manikin_only ? h("p", {}, "On a manikin, test lung or spare only: an emergency is never provoked in a child.")
      : choices("Shown on", "real", [["real", "the child"], ["simulation", "a manikin, test lung or spare"]], null, (v) => (form.real = v === "real")),
    choices("It is", "formal", [["formal", "a formal demonstration", "it counts, either way"], ["practice", "practice", "it earns nothing and costs nothing"]], null, (v) => (form.formal = v === "formal")),
    h("div", { class: "stack" }, h("label", { for: "place" }, "Place"),
      h("input", { id: "place", list: "places", value: form.place, autocomplete: "off", maxlength: "200", oninput: (e) => (form.place = e.target.value) }), h("datalist", { id: "places" }, places.map((p) => h("option", { value: p })))),
    faults,
    h("div", { class: "acts wide" }, go, link("This is somebody else", "#/", { class: "act", id: "not-this" })),
  ].filter(Boolean);
}

async function start(form, faults) {
  const lacks = [form.real === null && "say whether it is shown on the child", form.formal === null && "say whether it is formal or practice", !form.place.trim() && "write down the place"].filter(Boolean);
  if (lacks.length) {
    faults.replaceChildren(h("section", { class: "faults" }, h("p", {}, shape("fault"), ` Before it can begin: ${lacks.join("; ")}.`)));
    return;
  }
  const work = new Work(make(id(), state.pack, { ...form, place: form.place.trim() }, new Date().toISOString()));
  if (!(await work.do((sheet) => sheet))) {
    faults.replaceChildren(h("section", { class: "faults" }, h("p", {}, shape("fault"), " ", work.fault)));
    return;
  }
  await keep("settings", form.place.trim(), "place").catch(() => {});
  await state.read();
  say(`Begun: ${form.skill.title}, ${form.learner.name}. Kept.`);
  location.hash = "#/sheet/" + work.kept.id;
}
