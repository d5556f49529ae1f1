// The first screen: what is under way on this device, and today's people with what
// they are to show.

import { button, count, h, line, link, say, shape, timeIn } from "./draw.js";
import { markedCount, steps } from "./filling.js";
import { floors } from "./floor.js";
import { expired } from "./pack.js";
import { forget } from "./remember.js";
import { newVersion } from "./shell.js";
import { outcome } from "./standing.js";
import { state } from "./state.js";
import { today } from "./today.js";
import { top } from "./top.js";
import { about, endedAs } from "./words.js";

export async function people({ put }) {
  put(top(), h("h1", { tabindex: "-1" }, finding()), ...notices(), ...underWay(), ...floors(), ...today());
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
    state.rescued > 0 && fault("The browser had lost what it kept", `${count(state.rescued, "sheet", "sheets")} came back from a second copy. What was done last may be missing on a sheet that is open: look at each mark before you finish it. This device may have to be enrolled again first.`),
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
