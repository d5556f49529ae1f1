// The top of every screen but the marking: where one is, whether the office answers,
// and how many sheets are not sent.

import { count, h, link, shape } from "./draw.js";
import { state } from "./state.js";
import { says } from "./tongue.js";

export function top() {
  return h("header", { class: "top" },
    demo(), h("div", { class: "top-row" }, link("At the bedside", "#/", { class: "wordmark", id: "to-people" }),
      h("nav", { "aria-label": "Bedside" }, link("This device", "#/device", { id: "to-device" }), link("Wellshown", "/", { id: "to-site" }))),
    net());
}

const demo = () => state.person?.demo && h("p", { class: "demo" }, h("b", {}, says("Demo.")), " ", says("All people and records are invented."));

// handedTop is that of what a learner is handed, without a link: where signing in is asked
// for, that waits as well.
export const handedTop = () => h("header", { class: "top" }, demo(),
  h("div", { class: "net" }, h("p", {}, ...(state.signedOut ? [shape("open"), " ", says("Signed out: give the device back first.")] : network()))));

// net is one line, always there: the network, and what waits.
export function net() {
  const unsent = state.unsent().length;
  return h("div", { class: "net" }, h("p", {}, ...network()),
    h("p", {}, unsent ? link(`${count(unsent, "sheet", "sheets")} not sent`, "#/waiting", { id: "to-waiting" }) : "0 sheets not sent"));
}

export function network() {
  if (!state.online) return [shape("open"), " ", says("No network.")];
  if (state.signedOut) return [shape("open"), " ", link("Sign in", "/sign-in?next=/bedside/", { id: "to-sign-in" }), " to send. Nothing is lost."];
  if (state.session) return [shape("met"), " ", says("Online.")];
  return [shape("open"), " ", says("Looking for the office…")];
}
