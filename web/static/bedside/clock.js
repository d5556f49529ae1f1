// The stop-watch of a timed step. Only the instant of its start is kept, so that it
// runs on while the screen is locked, the page reloaded or the browser killed.

import { button, h } from "./draw.js";

// steady has, for each clock that was started while this page lives, what the browser's
// own steady clock said then, and whether the page was in sight ever since: while it is
// not, the device may sleep, and the steady clock with it.
const steady = new Map();
globalThis.document?.addEventListener("visibilitychange", () => steady.forEach((s) => (s.inSight = false)));

function start() {
  const since = Date.now();
  steady.set(since, { from: performance.now(), inSight: document.visibilityState === "visible" });
  return since;
}

function lived(since) {
  const s = steady.get(since);
  return s && { ms: performance.now() - s.from, inSight: s.inSight };
}

const slack = 1000; // ms by which the device's clock is set in passing, by a network

// ran is for how many ms a clock ran, or null where nobody knows: the device's own clock
// can be set while it runs, by the steady one or by its start it was set back.
export function ran(since, now, steady) {
  if (steady?.inSight) return steady.ms;
  return now < since || (steady && steady.ms - (now - since) > slack) ? null : now - since;
}

const ranTillNow = (since) => ran(since, Date.now(), lived(since));

// elapsed is how many seconds a clock has run.
export const elapsed = (since) => (ranTillNow(since) ?? 0) / 1000;

// seconds writes ms as a reading in tenths, rounded up: a limit is never kept by rounding.
export const seconds = (ms) => ms === null ? null : (Math.ceil(ms / 100) / 10).toFixed(1);

// face writes seconds as a watch shows them.
export function face(s) {
  const whole = Math.floor(s);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

// watch is the face and its button. What runs is told to whoever asks, not each second.
export function watch(id, label, since, onstart, onstop) {
  if (!since) return button("Start clock", () => onstart(start()), { id, class: "act clock", "aria-label": `Start clock: ${label}` });
  return h("div", { class: "watch" }, h("span", { class: "face", role: "timer", "data-since": since, "aria-label": label }, face(elapsed(since))),
    button("Stop clock", () => onstop(seconds(ranTillNow(since))), { id, class: "act clock", "aria-label": `Stop clock: ${label}` }));
}

// tick moves every face on the screen on; it gives what ends that.
export function tick() {
  const move = () => document.querySelectorAll("[data-since]").forEach((e) => (e.textContent = face(elapsed(Number(e.dataset.since)))));
  const timer = setInterval(move, 200);
  return () => clearInterval(timer);
}
