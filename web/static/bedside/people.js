// The first screen: what is under way on this device, and today's people with what
// they are to show.

import { button, civil, count, dayIn, h, line, link, say, shape, timeIn } from "./draw.js";
import { markedCount, steps } from "./filling.js";
import { clientOf, expired, skillOf } from "./pack.js";
import { forget } from "./remember.js";
import { newVersion } from "./shell.js";
import { outcome, standing } from "./standing.js";
import { state } from "./state.js";
import { top } from "./top.js";
import { about, childName } from "./words.js";

let sought = "";

export async function people({ put }) {
  put(top(), h("h1", { tabindex: "-1" }, finding()), ...notices(), ...underWay(), ...today());
}

// finding is the answer first, as a sentence.
function finding() {
  const open = state.open().length;
  if (open) return `${count(open, "sheet is", "sheets are")} open`;
  if (!state.person) return state.signedOut ? "Sign in to load today’s people" : "Load today’s people once, with the network on";
  if (!state.device?.enrolled) return "Enrol this device first";
  if (!state.pack) return "There is no pack on this device";
  if (expired(state.pack)) return "The pack has run out";
  return state.pack.may_not ? "You may not observe today" : "Whom do you see?";
}

function notices() {
  const { pack } = state;
  return [
    !state.open().length && newVersion(),
    state.noRoom && fault("Nothing can be kept here", state.noRoom),
    state.gone.length > 0 && goneNotice(),
    state.rescued > 0 && fault("The browser had lost what it kept", `${count(state.rescued, "sheet", "sheets")} came back from a second copy, with every mark. This device may have to be enrolled again before you finish one.`),
    state.refused && fault("The pack was put away", state.refused + " What was not sent yet stays on this device."),
    state.signedOut && fault("You are signed out", "What is on this device goes on; nothing is lost. To send it and to get a new pack, sign in.", link("Sign in", "/sign-in?next=/bedside/", { class: "act", id: "sign-in" })),
    !state.signedOut && state.session && !state.device?.enrolled && h("p", { class: "acts" }, link("Enrol this device", "#/device", { class: "act main", id: "enrol" })),
    pack && expired(pack) && fault("No new sheet can be begun", "A pack holds for a day, so that nobody is marked by an old checklist. Sheets that were begun go on. It is renewed by itself as soon as the office answers."),
    pack?.may_not && fault("You may not observe today", pack.may_not),
  ].filter(Boolean);
}

const fault = (heading, words, ...more) => h("section", { class: "faults mild" }, h("h2", {}, shape("fault"), " ", heading), h("p", {}, words), more.length > 0 && h("p", {}, more));

function goneNotice() {
  return h("section", { class: "faults" }, h("h2", {}, shape("fault"), " The browser cleared what was kept here"),
    h("p", {}, "These sheets were not sent and are gone:"),
    h("ul", {}, state.gone.map((g) => h("li", {}, `${g.title}, begun ${new Date(g.at).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" })}, ${count(g.marks, "mark", "marks")}`))),
    h("p", {}, "Mark them again while you remember, or type them in from paper. Installing this page makes clearing less likely."),
    button("I have read it", () => { state.gone.forEach((g) => forget(g.id)); state.gone = []; state.tell(); say("Put away."); }, { id: "gone-read" }));
}

function underWay() {
  const open = state.open().sort((a, b) => b.performed_at.localeCompare(a.performed_at));
  const waits = state.unsent();
  const sent = state.sheets.filter((s) => s.state === "sent");
  return [
    open.length > 0 && h("ul", { class: "lines" }, open.map((s) => line(shape("open"), [h("p", { class: "head" }, s.skill.title), h("p", {}, about(s).join(" · ")),
      h("p", {}, `Begun ${timeIn(s.zone, s.performed_at)}. ${markedCount(s)} of ${count(steps(s).length, "mark", "marks")}, all kept.`)],
    link("Go on marking", "#/sheet/" + s.id, { class: "act main", id: "open-" + s.id, "aria-label": `Go on marking ${s.skill.title}, ${s.learner.name}` })))),
    waits.length > 0 && h("p", { class: "acts" }, link(`${count(waits.length, "sheet is", "sheets are")} not sent yet`, "#/waiting", { class: "act", id: "waits" })),
    sent.length > 0 && [h("h2", {}, "Taken by the office today"), h("ul", { class: "lines" }, sent.map((s) => line(shape(endedAs[outcome(s)] ?? "open"),
      [h("p", { class: "head" }, s.skill.title), h("p", {}, [...about(s), outcome(s)].join(" · "))], link("What happens next", "#/after/" + s.id, { class: "act", id: "sent-" + s.id, "aria-label": `What happens next: ${s.skill.title}, ${s.learner.name}` }))))],
  ].flat().filter(Boolean);
}

const endedAs = { competent: "met", "stopped for safety": "stopped" };

// A pack that has run out tells nobody's standing: it may have ended since.
function today() {
  const { pack } = state;
  if (!pack || pack.may_not || expired(pack)) return [];
  const list = h("div", { id: "today" });
  const learners = pack.learners.map((l) => ({ ...l, skills: l.skills.map((s) => ({ ...s, ...standing(pack, l, s, state.sheets) })) }));
  const draw = () => list.replaceChildren(...learners.filter((l) => l.skills.length > 0 && matches(l, sought)).sort(lacking).flatMap((l) => learner(pack, l)));
  draw();
  return [
    h("h2", {}, state.open().length ? "Whom do you see?" : "Today’s people"),
    pack.learners.length > 8 && h("p", { class: "find" }, h("label", { for: "find" }, "Find somebody"), h("input", { id: "find", type: "search", value: sought, autocomplete: "off", oninput: (e) => { sought = e.target.value; draw(); } })),
    pack.learners.length === 0 && h("p", { class: "empty" }, "Nobody is to be seen in a skill that you may observe."),
    list, h("p", { class: "soft" }, `Pack of ${dayIn(pack.zone, pack.made_at)}, holds until ${dayIn(pack.zone, pack.expires_at)}.`),
  ].filter(Boolean);
}

const matches = (l, words) => l.name.toLocaleLowerCase().includes(words.trim().toLocaleLowerCase());

// What is held and needs nothing now is folded away, and whoever lacks nothing comes last.
const settled = (s) => !s.since && (s.word === "current" || s.word === "waived");
const lacking = (a, b) => b.skills.some((s) => !settled(s)) - a.skills.some((s) => !settled(s));

function learner(pack, l) {
  const due = l.skills.filter((s) => !settled(s));
  const held = l.skills.filter(settled);
  return [h("h3", { class: "group" }, l.name, " ", h("span", { class: "for" }, l.kind)),
    due.length > 0 && h("ul", { class: "lines" }, due.map((s) => skill(pack, l, s))),
    held.length > 0 && h("details", {}, h("summary", {}, count(held.length, "skill", "skills"), due.length ? " more" : "", " that nothing is due in"), h("ul", { class: "lines" }, held.map((s) => skill(pack, l, s))))].filter(Boolean);
}

// A day is told only where it says something: what was withdrawn holds through no day.
const until = { current: "holds through", due: "holds through", lapsed: "held through" };

function skill(pack, l, s) {
  const list = skillOf(pack, s.skill);
  const client = s.client ? clientOf(pack, s.client) : null;
  if (!list) return null;
  const address = "#/begin/" + [l.id, s.skill, s.client ?? ""].map(encodeURIComponent).join("/");
  const words = [s.word, s.through && until[s.word] && `${until[s.word]} ${civil(s.through)}`].filter(Boolean).join(", ");
  return line(shape(s.since ? "fault" : s.word), [h("p", { class: "head" }, list.title, client && h("span", { class: "for" }, ` for ${childName(client)}`)), s.since ? h("p", {}, h("b", {}, `Shown here since: ${s.since}. `), `The pack is older and says ${words}.`) : h("p", {}, words)],
    link("Observe", address, { class: "act", id: `see-${l.id}-${s.skill}-${s.client ?? ""}`, "aria-label": `Observe ${list.title}, ${l.name}${client ? `, for ${childName(client)}` : ""}` }));
}
