// The outbox: finished sheets wait until the office has taken them. Nothing leaves it
// but by the office's acceptance; what is refused stays, with the reason.

import * as device from "./device.js";
import { ask, Offline, session, why } from "./office.js";
import { all, Full, putSheet } from "./store.js";

const later = new Set([408, 425, 429]);

// drain sends what waits, one tab at a time. Sending a sheet again is harmless: the
// office knows it by its id.
export function drain(state) {
  const by = state.session; // while it is sent, the page may lose the network and know of none
  const locks = globalThis.navigator?.locks;
  if (!locks) return sendAll(state, by);
  return locks.request("outbox", { ifAvailable: true }, (lock) => lock && sendAll(state, by));
}

async function sendAll(state, by) {
  const mine = (s) => s.state === "finished" && s.observer.id === by.person.id;
  const waits = (await all("sheets")).filter(mine).sort((a, b) => a.finished_at.localeCompare(b.finished_at));
  let full = null; // what the office answers cannot be kept: it is asked again later
  for (const sheet of waits) {
    try {
      if (!(await sendOne(state, by, sheet))) break;
    } catch (fault) {
      if (!(fault instanceof Full)) throw fault;
      full = fault;
    }
  }
  if (full) throw full;
}

// sendOne reports whether the next one may be tried.
async function sendOne(state, by, sheet) {
  let answer;
  try {
    answer = await ask("PUT", "/api/v1/bedside/sheets/" + sheet.id, { device: sheet.device, sheet: sheet.text, signature: sheet.signature, sent_at: new Date().toISOString() });
  } catch (fault) {
    if (!(fault instanceof Offline)) throw fault;
    state.online = false;
    return false;
  }
  if (answer.status === 401) state.signedOut = true;
  if (answer.status === 401 || later.has(answer.status)) return false;
  if (answer.status === 403 && !(await goesOn(by))) return false;
  if (answer.status >= 500) return true; // what breaks over one sheet keeps no other one back
  const taken = answer.status < 300;
  if (taken && !answer.data?.demonstration) return false; // no answer of the office
  await putSheet({ ...sheet, turn: sheet.turn + 1, ...(taken ? { state: "sent", answer: answer.data } : { state: "refused", refusal: { status: answer.status, words: why(answer) } }) });
  state.others();
  return true;
}

// goesOn reports whether who sends is still signed in as they were. Where somebody signed
// in anew in another tab, the office refuses what this page sends, and not the sheet.
async function goesOn({ person, csrf }) {
  const now = await session().catch(() => null);
  return now?.status === 200 && now.data.person.id === person.id && now.data.csrf === csrf;
}

// signAgain signs a refused sheet with the key that this device has now; change, if
// any, was made to it before.
export async function signAgain(sheet, own, text) {
  return { ...sheet, turn: sheet.turn + 1, state: "finished", refusal: null, text, device: own.id, signature: await device.sign(own, text) };
}
