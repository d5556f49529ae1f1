// What the office does not have yet: what waits, and what it refused, with the reason
// and what can be done about it.

import { button, dayIn, dialog, h, line, link, say, shape } from "./draw.js";
import { throwAway } from "./discard.js";
import { mayGo, passes } from "./filling.js";
import { signAgain } from "./outbox.js";
import { putSheet } from "./store.js";
import { state } from "./state.js";
import { textOf } from "./text.js";
import { theirs } from "./theirs.js";
import { top } from "./top.js";
import { about } from "./words.js";

export async function waiting({ put }) {
  const all = state.unsent();
  put(top(), h("h1", { tabindex: "-1" }, heading(all)),
    all.length > 0 && h("p", { class: "lead" }, "They stay on this device until the office has taken them, also when you sign out."),
    h("ul", { class: "lines" }, all.map(one)),
    h("div", { class: "acts" }, all.some((s) => s.state === "finished") && button("Send now", () => state.meet(), { id: "send", class: "act main" }), link("Back to the people", "#/", { class: "act" })));
}

function heading(all) {
  const refused = all.filter((s) => s.state === "refused").length;
  if (all.length === 0) return "Every finished sheet is with the office";
  return refused ? `${refused} of ${all.length} not taken: something is to be done` : `${all.length} ${all.length === 1 ? "sheet waits" : "sheets wait"} to be sent`;
}

function one(sheet) {
  const other = theirs(sheet);
  return line(shape(sheet.state === "refused" ? "fault" : "sent"), [
    h("p", { class: "head" }, sheet.skill.title), h("p", {}, about(sheet).join(" · ")), h("p", {}, `Finished ${dayIn(sheet.zone, sheet.finished_at)}.`),
    other && h("p", {}, `It is ${sheet.observer.name}’s: they sign in on this device to send it.`),
    sheet.state === "refused" ? [h("p", {}, h("b", {}, "Not taken: "), sheet.refusal.words), h("p", {}, remedy(sheet))] : null,
  ], sheet.state === "refused" && !other ? acts(sheet) : null);
}

// remedy says what helps, by what the office answered.
function remedy(sheet) {
  const { status } = sheet.refusal;
  if (status === 403) return "If the device was revoked, enrol it again under This device, then sign this sheet anew.";
  if (status === 409) return "The office has another text of this sheet. See the record there; keep a copy of this one for the administrator.";
  if (!passes(sheet)) return "It is no pass, so it is not sent as practice and it is not thrown away. Have what is said above put right, then send it again; until then the agency can withdraw the competency.";
  return "Where what must come first is missing, it can be sent as practice: it is written down, and changes no standing. Else have it put right, then send it again.";
}

// What went wrong is never turned into practice: it counts, and must not look as if it did not.
function acts(sheet) {
  const own = state.device;
  const send = async (made, words) => {
    await putSheet(made);
    await state.read();
    say(words);
    await state.send();
    state.tell();
  };
  const again = () => ({ ...sheet, turn: sheet.turn + 1, state: "finished", refusal: null });
  const named = (words) => ({ "aria-label": `${words}: ${sheet.skill.title}, ${sheet.learner.name}` });
  return [
    button("Send it again", () => send(again(), "Sending."), named("Send it again")),
    own?.enrolled && own.id !== sheet.device && button("Sign it with this device’s new key", async () => send(await signAgain(sheet, own, sheet.text), "Signed anew. Sending."), named("Sign it anew")),
    sheet.formal && own?.enrolled && passes(sheet) && button("Send it as practice", () => asPractice(sheet, own, send), named("Send it as practice")),
    button("Save a copy", () => copy(sheet), named("Save a copy")),
    mayGo(sheet) && button("Throw it away…", () => throwAway(sheet), { class: "act quiet", ...named("Throw it away") }),
  ].filter(Boolean);
}

async function asPractice(sheet, own, send) {
  const sure = await dialog("Send it as practice?", h("p", {}, "It is written down as practice. It counts for nothing, and that cannot be turned back."), [["yes", "Send as practice", "main"], ["", "Leave it"]]);
  if (sure !== "yes") return;
  const changed = { ...sheet, formal: false };
  await send(await signAgain(changed, own, textOf(changed)), "Sending as practice.");
}

// copy saves what this device has signed as a file.
function copy(sheet) {
  const address = URL.createObjectURL(new Blob([JSON.stringify({ sheet: sheet.text, signature: sheet.signature, device: sheet.device })], { type: "application/json" }));
  const a = h("a", { href: address, download: `sheet-${sheet.id}.json` });
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}
