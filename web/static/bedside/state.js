// What the whole page knows: who is signed in, the device, the pack, the sheets, and
// whether the office answers.

import * as device from "./device.js";
import { ask, Offline, session } from "./office.js";
import { drain } from "./outbox.js";
import { fetchPack, kept, wipe } from "./pack.js";
import { forget, missing, remember } from "./remember.js";
import { all, Full, get, put, remove, rescue } from "./store.js";
import { readWishes } from "./wishes.js";

const channel = new BroadcastChannel("wellshown-bedside");

const fresh = 5 * 60 * 1000; // ms that a pack is not asked for again
const soon = 2000; // ms, doubled each time up to late
const late = 60000;
const renew = 15 * 60 * 1000; // ms after which a page that stays open asks for the pack anew
let wait = soon;
let later = 0;
let meeting = null;

export const state = {
  person: null, // who is signed in, as far as the device knows
  session: null, // as the office says, null while it does not answer
  signedOut: false,
  online: navigator.onLine,
  device: null,
  pack: null,
  sheets: [],
  gone: [],
  rescued: 0, // sheets that came back from their second copy
  fetched: 0,
  refused: "", // why there is no pack
  noRoom: "",
  told: "", // what the office knows of what waits here
  changed: () => {},

  async start(changed) {
    this.changed = changed;
    try {
      this.rescued = await rescue();
      await this.read();
      await readWishes();
    } catch (fault) {
      console.error(fault);
      this.noRoom = "This browser does not let the page keep anything, so nothing can be marked here. Leave private browsing, or use another browser.";
      return;
    }
    navigator.storage?.persist?.();
    addEventListener("online", () => this.afresh());
    addEventListener("offline", () => { this.online = false; this.tell(); });
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && this.meet());
    channel.onmessage = () => this.read().then(() => this.tell());
    this.meet();
  },

  // read takes up what the device keeps.
  async read() {
    this.pack = (await kept()) ?? null;
    this.sheets = await all("sheets");
    this.person = (await get("settings", "person")) ?? null;
    this.device = this.person && ((await device.of(this.person.id)) ?? null);
    this.gone = missing(this.sheets);
    remember(this.sheets);
  },

  // meet asks the office who is signed in, gets the pack anew and sends what waits; who
  // asks while it does so waits for the same answer.
  meet() {
    meeting ??= this.meetOnce().finally(() => (meeting = null));
    return meeting;
  },

  // afresh meets anew where the network has come back: one that is under way may have
  // begun without it, and what waits is not to wait a minute for the next.
  async afresh() {
    wait = soon;
    await meeting?.catch(() => {}); // who asked for that one is told of its fault
    return this.meet();
  },

  async meetOnce() {
    try {
      const answer = await session();
      this.online = true;
      this.signedOut = answer.status === 401;
      this.session = answer.status === 200 ? answer.data : null;
      if (answer.status === 403) this.refused = answer.data.detail;
      if (this.session) await this.welcome();
    } catch (fault) {
      if (!(fault instanceof Offline)) throw fault;
      this.online = false;
      this.session = null;
    }
    this.tryLater();
    this.tell();
  },

  // tryLater asks again by itself: a browser that says it is online may not be yet.
  tryLater() {
    clearTimeout(later);
    const waits = this.sheets.some((s) => s.state === "finished");
    wait = this.online && !waits ? soon : Math.min(2 * wait, late);
    const hurry = !this.online || (waits && !this.signedOut);
    if (hurry || this.session) later = setTimeout(() => this.meet(), hurry ? wait : renew);
  },

  // welcome keeps what the office says of the day, and sends what waits, which makes room.
  async welcome() {
    this.noRoom = "";
    await this.withRoom(() => this.keepDay());
    await this.empty();
  },

  async keepDay() {
    const person = { ...this.session.person, demo: this.session.demo };
    if (this.person?.id !== person.id) { // somebody else's day is not theirs to see
      await wipe();
      await remove("settings", "person");
      this.person = person; // also where it cannot be kept
    }
    await put("settings", person, "person");
    await this.read();
    await this.askForGone();
    if (this.device?.enrolled && Date.now() - this.fetched > fresh) {
      const { refused, pack } = await fetchPack(this.device);
      if (refused || pack) this.fetched = Date.now();
      this.refused = refused ?? "";
      if (pack) this.pack = pack;
      if (refused) await device.retire(person.id);
    }
  },

  // withRoom does something for which there may be no room on the device; what it had
  // kept stays as it was.
  async withRoom(act) {
    try {
      await act();
    } catch (fault) {
      if (!(fault instanceof Full)) throw fault;
      this.noRoom = "This device has no room left. What it had kept is still here. Take photos or other apps off, and mark on paper until there is room.";
    }
  },

  // askForGone takes what the office has after all off the list of what is gone: that it
  // was sent may be the last thing that a killed browser did not write down.
  async askForGone() {
    for (const { id } of this.gone) {
      const { status } = await ask("GET", "/api/v1/demonstrations/" + id);
      if (status === 200) forget(id);
    }
    this.gone = missing(this.sheets);
  },

  // empty empties the outbox as far as the office takes it.
  async empty() {
    if (!this.session) return;
    await this.withRoom(() => drain(this));
    await this.read();
    await this.tellHolding();
  },

  // tellHolding says what waits here and is not at the office, where that has changed.
  async tellHolding() {
    if (!this.device?.enrolled || !this.session) return;
    const mine = (state) => this.sheets.filter((s) => s.state === state && s.observer.id === this.person.id).length;
    const holds = { finished: mine("finished"), refused: mine("refused"), open: mine("open") };
    const words = this.device.id + JSON.stringify(holds);
    if (words === this.told) return;
    const { status } = await ask("PUT", `/api/v1/bedside/devices/${this.device.id}/holding`, holds).catch(() => ({}));
    if (status === 204) this.told = words;
  },

  // send does so at once, and again by itself where something still waits. Who did
  // something is not put off as long as a page that asks by itself: of a network that
  // came back no event may tell.
  async send() {
    wait = soon;
    if (!this.session) return this.meet();
    await this.empty();
    this.tryLater();
    this.tell();
  },

  tell() { this.changed("told"); },
  others() { channel.postMessage("changed"); },
  unsent() { return this.sheets.filter((s) => s.state === "finished" || s.state === "refused"); },
  open() { return this.sheets.filter((s) => s.state === "open"); },
};
