// The top of every screen but the marking: where one is, whether the office answers,
// and how many sheets are not sent.

import { count, h, link, shape } from "./draw.js";
import { state } from "./state.js";

export function top() {
  return h("header", { class: "top" },
    state.person?.demo && h("p", { class: "demo" }, h("b", {}, "Demo."), " All people and records are invented."),
    h("div", { class: "top-row" }, link("At the bedside", "#/", { class: "wordmark", id: "to-people" }),
      h("nav", { "aria-label": "Bedside" }, link("This device", "#/device", { id: "to-device" }), link("Wellshown", "/", { id: "to-site" }))),
    net());
}

// net is one line, always there: the network, and what waits.
export function net() {
  const unsent = state.unsent().length;
  return h("div", { class: "net" }, h("p", {}, ...network()),
    h("p", {}, unsent ? link(`${count(unsent, "sheet", "sheets")} not sent`, "#/waiting", { id: "to-waiting" }) : "0 sheets not sent"));
}

export function network() {
  if (!state.online) return [shape("open"), " No network."];
  if (state.signedOut) return [shape("open"), " ", link("Sign in", "/sign-in?next=/bedside/", { id: "to-sign-in" }), " to send. Nothing is lost."];
  if (state.session) return [shape("met"), " Online."];
  return [shape("open"), " Looking for the office…"];
}
