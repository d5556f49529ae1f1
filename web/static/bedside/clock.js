// The stop-watch of a timed step. Only the instant of its start is kept, so that it
// runs on while the screen is locked, the page reloaded or the browser killed.

import { button, h } from "./draw.js";

// elapsed is how many seconds a clock has run.
export const elapsed = (since, now = Date.now()) => Math.max(0, (now - since) / 1000);

// seconds is a reading in tenths, rounded up: a limit is never kept by rounding.
export const seconds = (since, now) => (Math.ceil(elapsed(since, now) * 10) / 10).toFixed(1);

// reading is what a clock that is stopped gives: its seconds, or null where the device's
// own clock was set back behind the start, for then nobody knows how long it ran.
export const reading = (since, now = Date.now()) => (now < since ? null : seconds(since, now));

// face writes seconds as a watch shows them.
export function face(s) {
  const whole = Math.floor(s);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

// watch is the face and its button. What runs is told to whoever asks, not each second.
export function watch(id, label, since, onstart, onstop) {
  if (!since) return button("Start clock", () => onstart(Date.now()), { id, class: "act clock", "aria-label": `Start clock: ${label}` });
  return h("div", { class: "watch" }, h("span", { class: "face", role: "timer", "data-since": since, "aria-label": label }, face(elapsed(since))),
    button("Stop clock", () => onstop(reading(since)), { id, class: "act clock", "aria-label": `Stop clock: ${label}` }));
}

// tick moves every face on the screen on; it gives what ends that.
export function tick() {
  const move = () => document.querySelectorAll("[data-since]").forEach((e) => (e.textContent = face(elapsed(Number(e.dataset.since)))));
  const timer = setInterval(move, 200);
  return () => clearInterval(timer);
}
