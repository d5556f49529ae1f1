// This device: its key and name, what somebody wishes of it, signing out.

import * as device from "./device.js";
import { button, count, dialog, h, link, say, shape } from "./draw.js";
import { ask, Offline, why } from "./office.js";
import { wipe } from "./pack.js";
import { state } from "./state.js";
import { top } from "./top.js";
import { wish, wishes } from "./wishes.js";

export async function settings({ put }) {
  const draw = () => put(top(), h("h1", { tabindex: "-1" }, state.device?.enrolled ? "This device is enrolled" : "This device is not enrolled yet"), ...key(), ...help(), ...leaving());
  draw();
  let was = state.device?.enrolled;
  return { told() {
    if (was === state.device?.enrolled && state.session) return document.querySelector(".top")?.replaceWith(top());
    was = state.device?.enrolled;
    draw();
  } };
}

function key() {
  if (!crypto.subtle) return [h("p", { class: "faults" }, "This page was not opened over a safe connection, so no key can be made. Open it by its https address.")];
  if (!state.session) return [h("p", { class: "lead" }, state.signedOut ? [link("Sign in", "/sign-in?next=/bedside/"), " first."] : "The network is off. A device is enrolled while it is on."), mine()];
  const fault = h("p", { role: "alert", class: "fault" });
  if (state.device?.enrolled) {
    return [mine(), fault, h("p", { class: "acts" }, button("Revoke this device…", () => revoke(fault), { id: "revoke" }))];
  }
  const name = h("input", { id: "name", value: state.device?.name ?? device.likely(), maxlength: "60", autocomplete: "off" });
  const enrol = async (e) => {
    e.preventDefault();
    try {
      state.device = await device.enrol(state.session.person.id, name.value.trim() || device.likely());
      say("Enrolled.");
      state.fetched = 0;
      await state.meet();
      location.hash = "#/";
    } catch (cause) {
      fault.replaceChildren(shape("fault"), " ", cause instanceof Offline ? "The network went away. Try again." : cause.message);
    }
  };
  return [h("p", { class: "lead" }, "A key is made that never leaves this device. It signs what you finish here, so that the office knows which device it came from. You, or the agency, can revoke it."),
    h("form", { onsubmit: enrol }, h("div", { class: "stack" }, h("label", { for: "name" }, "Name of this device"), name), fault, h("button", { type: "submit", class: "act main" }, "Enrol this device"))];
}

const mine = () => h("dl", { class: "facts" }, [["Name", state.device?.name], ["Person", state.person?.name], ["Agency", state.pack?.agency.name]].filter(([, v]) => v).map(([k, v]) => h("div", {}, h("dt", {}, k), h("dd", {}, v))));

async function revoke(fault) {
  const sure = await dialog("Revoke this device?", h("p", {}, "The day’s people are wiped from it, and what it has not sent yet must be signed anew after enrolling again. Nothing unsent is lost."), [["yes", "Revoke it", "alarm"], ["", "Leave it"]]);
  if (sure !== "yes") return;
  try {
    const answer = await ask("DELETE", "/api/v1/bedside/devices/" + state.device.id);
    if (answer.status >= 300 && answer.status !== 404) return fault.replaceChildren(shape("fault"), " ", why(answer));
    await device.forget(state.person.id);
    await wipe();
    say("Revoked.");
    await state.meet();
  } catch (cause) {
    if (!(cause instanceof Offline)) throw cause;
    fault.replaceChildren(shape("fault"), " There is no network: it was not revoked.");
  }
}

function help() {
  const tick = (name, words, more) => h("label", { class: "tick" }, h("input", { type: "checkbox", checked: wishes[name], onchange: (e) => wish(name, e.target.checked) }), h("span", {}, words, h("small", { class: "soft" }, " ", more)));
  return [h("h2", {}, "Signs that a mark is kept"), tick("sound", "A short sound", "besides what is shown"), navigator.vibrate ? tick("shake", "A short shake", "besides what is shown") : "",
    h("h2", {}, "Keys"), tick("keys", "Keys 1 to 5 give marks", "also U, N, P and ? while marking"),
    h("h2", {}, "With the network off"), h("p", {}, "Put this page on the home screen (in the browser’s menu: install, or add to home screen). It opens without network then, and the browser is less likely to clear what it keeps.")];
}

// leaving signs out as every page does: the office ends the session, and the page that
// follows wipes the pack.
function leaving() {
  if (!state.session) return [];
  const unsent = state.unsent().length + state.open().length;
  return [h("h2", {}, "Sign out"), h("p", {}, "The day’s people are wiped from this device.", unsent ? ` ${count(unsent, "sheet", "sheets")} that the office does not have stay here, for you to go on with.` : ""),
    h("form", { method: "post", action: "/sign-out" }, h("input", { type: "hidden", name: "csrf", value: state.session.csrf }), h("button", { type: "submit", class: "act" }, "Sign out"))];
}
