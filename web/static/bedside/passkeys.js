// Signing with a passkey: what is signed stands on the screen, in the office's words,
// while the browser asks its owner whether it is them.

import { perform } from "./ceremony.js";
import { button, dayIn, h, say, shape } from "./draw.js";
import { says } from "./tongue.js";

// question puts what a signer's passkey is asked in place of what stands in box. given
// takes what it answered, back is for whoever signs with none after all.
export function question(box, asked, given, back) {
  const fault = h("p", { role: "alert", class: "fault" });
  let running = false;
  const run = async () => {
    if (running) return;
    running = true;
    fault.replaceChildren();
    try {
      await given(await answerOf(asked.options));
    } catch (cause) {
      if (!(cause instanceof Unused)) throw cause;
      fault.replaceChildren(shape("fault"), " ", says("The passkey was not used, and nothing was signed. This device may have none of %s, or could not tell that it was them. Try again, or go back and use the password.", asked.signer));
    } finally {
      running = false;
    }
  };
  const heading = h("h3", { tabindex: "-1" }, says("%s, sign with a passkey", asked.signer));
  box.replaceChildren(heading, h("p", { class: "statement", lang: asked.language }, asked.says),
    h("p", { class: "soft" }, [[asked.signer, asked.licence].filter(Boolean).join(", "), `${dayIn(asked.zone, asked.at)}, ${asked.zone}`].join(" · ")), fault,
    h("div", { class: "acts" }, button(says("Sign with my passkey"), run, { class: "act main" }), button(says("Go back without signing"), back)));
  heading.focus();
  say(heading.textContent);
  run(); // whoever came here has asked for it already
}

// Unused is thrown where the browser gives no answer; it tells nobody which of the many
// reasons it was (W3C Web Authentication Level 3, section 14.6.2).
class Unused extends Error {}

const answerOf = (options) => perform("get", options).catch(() => { throw new Unused(); });
