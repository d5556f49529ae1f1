// When it was stopped for safety: the child first; the words can wait.

import { button, h, link, shape } from "./draw.js";
import * as filling from "./filling.js";
import { ask } from "./asking.js";
import { stopPhrases, backPhrases } from "./words.js";

export function stoppedScreen(view) {
  const { sheet } = view;
  const said = sheet.stop_reason;
  return [
    h("h1", { tabindex: "-1" }, "Stopped for safety"),
    h("p", { class: "lead" }, h("b", {}, "The child first."), " Take over now, follow the child’s orders and emergency plan, and in an emergency call the local emergency number. This page waits; it is kept."),
    h("h2", {}, "What happened"),
    h("p", {}, said || "Nothing is written down yet. It is needed before this can be finished."),
    h("div", { class: "acts wide" }, button(said ? "Change the words" : "Say what happened", () => words(view), { id: "what-happened", class: said ? "act" : "act main", disabled: view.shut }),
      said && button("Finish it as it is", () => (location.hash = "#/finish/" + sheet.id), { id: "finish", class: "act main", disabled: view.shut })),
    h("p", {}, shape("stopped"), " The outcome is stopped for safety, whatever the marks. ", sheet.formal ? "Once the office has it, nothing turns it back into a pass." : "This is practice, so no standing changes."),
    h("div", { class: "acts" }, link("Leave for now", "#/", { class: "act" }), button("It was not stopped after all…", () => goOn(view), { id: "resume", class: "act quiet", disabled: view.shut })),
  ];
}

async function words(view) {
  const said = await ask("What happened", "What you saw and what you did.", "Words of your own, typed or dictated", view.sheet.stop_reason, stopPhrases, "Keep the words", true);
  if (said !== null) await view.save((s) => filling.stopWords(s, said), "The words are kept.");
}

async function goOn(view) {
  const why = await ask("Take the stop back?", "It stays in the record that it was stopped, and that this was taken back.", "Why", "", backPhrases, "Take it back", true);
  if (why !== null && await view.save((s) => filling.resume(s, new Date().toISOString(), why), "The stop is taken back.")) view.draw(true);
}
