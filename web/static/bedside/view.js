// The screen of a sheet and what its controls do.

import { button, dialog, h, say } from "./draw.js";
import { throwAway } from "./discard.js";
import * as filling from "./filling.js";
import { head, status } from "./head.js";
import { ask, askBack } from "./asking.js";
import { pad } from "./pad.js";
import { notice } from "./rescued.js";
import { stepList } from "./steps.js";
import { outsideOf } from "./ranges.js";
import { state } from "./state.js";
import { stoppedScreen } from "./stopping.js";
import { kept } from "./wishes.js";
import { markMeans, markWord, notePhrases, spoken, whyOpen } from "./words.js";

const now = () => new Date().toISOString();
const shownFor = 350; // ms that a mark is shown as chosen before the next step comes

export class View {
  constructor(work, still, put, to, address) {
    Object.assign(this, { work, still, put, to, address, at: 1, words: "", line: Promise.resolve(), taps: 0 });
  }

  get sheet() { return this.work.sheet; }
  get step() { return filling.stepOf(this.sheet, this.at); }
  get shut() { return this.work.lost; }

  // draw shows the sheet as it is. jump brings the current step into sight.
  draw(jump = false) {
    if (!this.still()) return;
    const was = document.activeElement?.id;
    const body = this.sheet.stopped ? stoppedScreen(this) : stepList(this);
    if (!this.put(head(this), ...[body].flat(3))) return;
    document.body.classList.toggle("marking", !this.sheet.stopped);
    document.title = `${document.querySelector("main h1").textContent} · ${this.sheet.skill.title} · Wellshown`;
    this.tellAddress();
    document.documentElement.style.setProperty("--head", (document.getElementById("top").firstChild?.offsetHeight ?? 0) + "px");
    if (jump) document.querySelector(".line.now")?.scrollIntoView({ block: "start" });
    if (this.work.fault && getComputedStyle(document.querySelector(".mark-top")).display === "contents") scrollTo(0, 0); // it scrolls away there
    const to = jump ? document.querySelector("main h1") : document.getElementById(was);
    to?.focus({ preventScroll: true });
  }

  // turned brings the current step into sight again, where the screen was turned.
  turned() { if (!this.sheet.stopped) document.querySelector(".line.now")?.scrollIntoView({ block: "start" }); }

  // tellAddress keeps the step in the address, for a reload, unless somebody has gone
  // elsewhere meanwhile: their way is not to be written over.
  tellAddress() {
    if (location.hash !== this.address) return;
    history.replaceState(null, "", `#/sheet/${this.sheet.id}/${this.at}`);
    this.address = location.hash;
  }

  // net tells of the network anew, and of nothing else: whoever holds the stop, or comes to
  // it by keys, is not to have it taken from under them.
  net() { document.getElementById("status")?.replaceChildren(...status(this)); }

  notice() {
    if (this.shut) {
      return h("section", { class: "faults", role: "alert" }, h("p", {}, h("b", {}, "This sheet is open in another tab of this browser.")), h("p", {}, "Here it can only be read, so that no mark is given twice."),
        button("Mark here instead", () => this.to.takeOver(), { id: "take-over" }));
    }
    if (!this.work.fault) return notice(this.sheet);
    return h("section", { class: "faults", role: "alert" }, h("p", {}, h("b", {}, this.work.fault)),
      this.work.waiting && button("Try again", () => this.save((s) => s), { id: "retry", class: "act main" }));
  }

  // save makes a change, and shows it once the device has kept it.
  async save(change, words) {
    const done = await this.work.do(change);
    if (done) kept();
    this.draw();
    say(done ? words ?? "Kept." : this.work.fault);
    return done;
  }

  // inTurn does one thing after the other: none is lost because the device is still
  // keeping the one before.
  inTurn(act) {
    this.taps++;
    const done = this.line.then(act);
    this.line = done.catch(() => {});
    return done;
  }

  async give(mark) {
    if (this.shut || this.sheet.stopped) return;
    const no = this.at;
    document.getElementById("give-" + mark.replace(" ", "-"))?.classList.add("giving");
    if (await this.inTurn(() => this.giveAt(no, mark))) await this.onward(no);
  }

  async giveAt(no, mark) {
    if (this.shut || this.sheet.stopped) return false;
    const stands = filling.markOf(this.sheet, no);
    if (stands.mark === mark && !this.work.unkept(no)) return true; // tapped twice
    const reason = filling.takesBack(this.sheet, no, mark) ? await askBack(`Take “unsafe” at step ${no} back?`) : "";
    if (reason === null) {
      this.draw();
      return false;
    }
    return this.save((s) => filling.give(s, no, mark, now(), reason), `Step ${no}: ${markWord[mark]}, kept.`);
  }

  // onward goes to the next open step, once the mark was seen as chosen and unless
  // something else was done meanwhile.
  async onward(no) {
    const lacks = filling.openOf(this.sheet).find((o) => o.step === no);
    if (lacks) {
      say(`Step ${no} ${whyOpen(lacks, this.sheet)}.`);
      if (this.at === no) document.querySelector(".reading")?.focus();
      return;
    }
    const { taps } = this;
    await new Promise((done) => setTimeout(done, shownFor));
    if (this.at === no && this.taps === taps && this.still()) this.goOpen(no);
  }

  // goOpen goes to the next open step; with none left, to the end of it.
  goOpen(after = this.at) {
    const next = filling.nextOpen(this.sheet, after);
    if (next === 0) location.hash = "#/finish/" + this.sheet.id;
    else this.go(next);
  }

  go(no) {
    if (!filling.stepOf(this.sheet, no)) return;
    this.at = no;
    this.draw(true);
    say(`Step ${no}: ${spoken(this.step.text, this.sheet)}`);
  }

  // finish ends the marking, or jumps to what is still open.
  finish() {
    const open = filling.openOf(this.sheet);
    if (open.length === 0) return void (location.hash = "#/finish/" + this.sheet.id);
    this.go(open[0].step);
    this.tellAt(`Not yet: ${new Set(open.map((o) => o.step)).size} still open. Step ${open[0].step} ${whyOpen(open[0], this.sheet)}.`);
  }

  // tellAt says something at the current step until the screen is drawn again.
  tellAt(words) {
    this.words = words;
    this.draw();
    this.words = "";
    say(document.querySelector(".not-yet")?.textContent ?? words);
  }

  undo() { return this.inTurn(() => this.undoLast()); }

  async undoLast() {
    if (this.shut || this.sheet.undo.length === 0) return;
    const { step } = this.sheet.undo.at(-1);
    const reason = filling.undoTakesBack(this.sheet) ? await askBack(`Take “unsafe” at step ${step} back?`) : "";
    if (reason === null) return;
    if (await this.save((s) => filling.undo(s, now(), reason), `Undone at step ${step}.`)) { this.at = step; this.draw(true); }
  }

  async value(m) {
    const no = this.at;
    const given = await pad(this.sheet, no, m, filling.markOf(this.sheet, no).readings ?? {});
    if (given === undefined) return;
    if (await this.save((s) => filling.read(s, no, m.name, given, now()), given ? `${m.name}: ${given.value} ${given.unit}, kept.` : `${m.name} taken away.`)) await this.valued(no);
  }

  start(m, ms) { return this.save((s) => filling.startClock(s, this.at, m.name, ms), "The clock runs."); }

  async stopClock(m, seconds, no = this.at) {
    const given = seconds === null ? null : { value: seconds, unit: "s" };
    const words = given ? `${m.name}: ${seconds} seconds, kept.` : `${m.name}: the clock of this device was set back meanwhile, so nothing is kept. Time it again, or type it in.`;
    if (await this.save((s) => filling.stopClock(s, no, m.name, given, now()), words) && given) await this.valued(no);
    else if (!given) this.tellAt(words);
  }

  // valued goes on where the mark was there already and only the value lacked. A value
  // that is out of range changes what the mark is worth: it is shown first.
  async valued(no) {
    const { mark, readings = {} } = filling.markOf(this.sheet, no);
    const done = mark && !filling.openOf(this.sheet).some((o) => o.step === no);
    const [out] = outsideOf(this.sheet.rules, this.sheet.parameters, no, readings);
    if (out) say(`${out} is out of range: it counts as not met.`);
    else if (done) await this.onward(no);
  }

  async apply() {
    const no = this.at;
    const m = filling.markOf(this.sheet, no);
    const why = await ask(`Step ${no} does not apply`, ["Only when: ", spoken(this.step.may_not_apply, this.sheet)], "Why it does not apply", m.not_applicable ? m.reason : "", [spoken(this.step.may_not_apply, this.sheet)], "It does not apply", true);
    if (why === null) return;
    const reason = filling.takesBack(this.sheet, no, "") ? await askBack(`Take “unsafe” at step ${no} back?`) : "";
    if (reason === null) return;
    if (await this.save((s) => filling.notApplicable(s, no, why, now(), reason), `Step ${no} does not apply, kept.`)) await this.onward(no);
  }

  async note() {
    const no = this.at;
    const words = await ask(`Step ${no}: what you saw`, "", "Words of your own, typed or dictated", filling.markOf(this.sheet, no).note ?? "", notePhrases, "Keep the words");
    if (words !== null) await this.save((s) => filling.note(s, no, words, now()), "The words are kept.");
  }

  async stop() {
    if (this.shut) return;
    await this.save((s) => filling.stop(s, now()), "Stopped for safety. The child first.");
    scrollTo(0, 0); // what comes is short: its first words are not to stand under the head
    document.querySelector("main h1")?.focus({ preventScroll: true });
  }

  async help() {
    await dialog("How marking works", [h("dl", { class: "means" }, markMeans.map(([mark, means], i) => h("div", {}, h("dt", {}, `${i + 1} · ${mark}`), h("dd", {}, means)))),
      h("p", {}, "A mark is shown as chosen once this device has kept it. Steps may be marked in any order; tap one in the list."),
      h("p", {}, "Keys: 1 to 5 give the marks, U undoes, N goes to the next open step, P to the step before, ? opens this. They can be turned off under This device."),
      h("p", {}, "Hold “Stop for safety” for a second to end it when the child is at risk.")], [["", "Close", "main"]]);
  }

  async throwAway() {
    if (this.shut || !await throwAway(this.work.kept)) return;
    say("Thrown away.");
    location.hash = "#/";
  }

  async leave() { location.hash = "#/"; await state.read(); }
}
