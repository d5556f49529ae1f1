// The sheet in hand. Each change is kept by the device first and shown after that; what
// could not be kept stays in hand, shown as such, until it can.

import { Elsewhere, Full, get, keepSheet } from "./store.js";

// Work holds a sheet: what is kept of it, what waits to be kept, and why it may only be
// read here.
export class Work {
  constructor(sheet) {
    this.kept = sheet;
    this.waiting = null;
    this.fault = "";
    this.lost = false; // another tab has it
    this.queue = Promise.resolve();
  }

  get sheet() { return this.waiting ?? this.kept; }

  // do makes a change and keeps it. It tells whether that was done; fault says why not.
  do(change) {
    const done = this.queue.then(() => this.keep(change(this.sheet)));
    this.queue = done.catch(() => false);
    return done;
  }

  // drop gives up what could not be kept.
  drop() { this.waiting = null; }

  async keep(next) {
    if (this.lost) return false;
    this.waiting = { ...next, turn: this.kept.turn + 1 };
    try {
      const { gone } = await keepSheet(this.waiting);
      this.fault = gone ? "The browser cleared what this device had kept. This sheet was still in hand and is kept again. Other sheets that were not sent are gone." : "";
    } catch (fault) {
      await this.refused(fault);
      return false;
    }
    this.kept = this.waiting;
    this.waiting = null;
    return true;
  }

  async refused(fault) {
    if (fault instanceof Elsewhere) {
      this.kept = await get("sheets", this.kept.id);
      this.waiting = null;
      this.fault = "This sheet was changed in another tab meanwhile. It is shown as it stands there; what you just did was not added.";
      return;
    }
    this.fault = fault instanceof Full
      ? "This device has no room left, so the last change is not kept. It is still on this screen. Mark on paper until there is room: take photos or other apps off, then try again."
      : "This device did not keep the last change. It is still on this screen: try again.";
  }

  // unkept reports whether what stands at a step is not kept yet.
  unkept(no) { return this.waiting !== null && JSON.stringify(this.waiting.marks[no]) !== JSON.stringify(this.kept.marks[no]); }
}

// A page that is reloaded asks before the old one has let go: that long it waits.
const patience = 1500; // ms

// hold takes a sheet for this tab alone. It gives null where another tab has it, unless
// it is taken from there; lost is called when another tab takes it from here.
export function hold(id, lost, take = false) {
  if (!navigator.locks) return Promise.resolve(() => {});
  return new Promise((done) => {
    let held = false;
    const how = take ? { steal: true } : { signal: AbortSignal.timeout(patience) };
    navigator.locks.request("sheet " + id, how, () => {
      held = true;
      return new Promise((release) => done(release));
    }).catch(() => (held ? lost() : done(null)));
  });
}
