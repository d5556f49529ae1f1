// The top of the marking: what and who, the stop, and one line on what is kept and what
// is open. No score stands here: the learner reads along.

import { button, h, shape } from "./draw.js";
import { face, elapsed } from "./clock.js";
import * as filling from "./filling.js";
import { holdButton } from "./hold.js";
import { network } from "./top.js";
import { about } from "./words.js";

export function head(view) {
  const { sheet } = view;
  return h("header", { class: "mark-top" },
    h("div", { class: "mark-row first" },
      h("div", {}, h("p", { class: "skill" }, sheet.skill.title), h("p", { class: "whose" }, about(sheet).join(" · "))),
      !sheet.stopped && holdButton("Stop for safety", "hold a second", ["Stop for safety?", h("p", {}, "The child first. It ends the demonstration, whatever the marks."), [["yes", "Stop now", "alarm"], ["", "Go on marking"]]], () => view.stop(), { id: "stop", disabled: view.shut })),
    h("div", { class: "mark-row kept" }, h("p", { id: "status" }, ...status(view)),
      h("div", { class: "acts" }, !sheet.stopped && [button("Undo", () => view.undo(), { id: "undo", class: "act quiet", disabled: view.shut || sheet.undo.length === 0, "aria-label": undoes(sheet) }),
        button("Finish", () => view.finish(), { id: "finish", class: "act quiet", disabled: view.shut })])),
    clocks(view), view.notice());
}

function undoes(sheet) {
  const last = sheet.undo.at(-1);
  return last ? `Undo the last change, at step ${last.step}` : "Undo: nothing to undo";
}

// status is the network, what is open, and whether all is kept.
export function status(view) {
  const all = filling.steps(view.sheet).length;
  const open = new Set(filling.openOf(view.sheet).map((o) => o.step)).size;
  const net = network();
  if (view.work.waiting) return [shape("fault"), h("b", {}, " Not kept yet. ")];
  if (view.sheet.stopped) return [...net, " All kept."]; // what is open does not matter any more
  return [...net, ` ${open} of ${all} open, `, h("span", { class: "nowrap" }, "all kept.")];
}

// clocks are those that run at another step.
function clocks(view) {
  const runs = Object.entries(view.sheet.clocks).filter(([key]) => Number(key.split(" ")[0]) !== view.at);
  return runs.length === 0 ? "" : h("ul", { class: "running" }, runs.map(([key, since]) => {
    const no = Number(key.split(" ")[0]);
    return h("li", {}, button(["Clock of step ", no, " runs: ", h("span", { "data-since": since }, face(elapsed(since)))], () => view.go(no), { class: "act quiet", id: "clock-of-" + no }));
  }));
}
