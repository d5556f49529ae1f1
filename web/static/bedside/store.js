// What the device keeps, in IndexedDB. A promise is kept only when the transaction has
// completed with durability "strict": what it says was kept outlives a kill.

import { copied, copy, copyOf, drop } from "./copies.js";

const name = "wellshown-bedside";
const unhurried = 5000; // ms that a second copy is waited for where nobody is marking
let opened = null;

// Full is thrown where the device has no room left, Elsewhere where another tab
// changed the sheet meanwhile.
export class Full extends Error {}
export class Elsewhere extends Error {}

function open() {
  opened ??= new Promise((done, failed) => {
    const asked = indexedDB.open(name, 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("pack");
      asked.result.createObjectStore("sheets", { keyPath: "id" });
      asked.result.createObjectStore("key");
      asked.result.createObjectStore("settings");
    };
    asked.onsuccess = () => {
      const db = asked.result;
      db.onclose = () => (opened = null); // the browser cleared it
      db.onversionchange = () => { db.close(); opened = null; };
      done(db);
    };
    asked.onerror = () => { opened = null; failed(asked.error); };
    asked.onblocked = () => { opened = null; failed(new Error("another tab holds an older database")); };
  });
  return opened;
}

// inOne does something with a store in one transaction, and gives its result once that
// is on the disk. A connection that was lost is opened again, once.
async function inOne(store, mode, act, again = true) {
  const db = await open();
  let t;
  try {
    t = db.transaction(store, mode, { durability: "strict" });
  } catch (fault) {
    opened = null;
    if (!again) throw fault;
    return inOne(store, mode, act, false);
  }
  return new Promise((done, failed) => {
    const came = {};
    t.oncomplete = () => done(came.value);
    t.onabort = () => failed(told(came.fault ?? t.error ?? new Error("the database gave up")));
    try {
      act(t.objectStore(store), came, t);
    } catch (fault) {
      came.fault = fault;
      t.abort();
    }
  });
}

const told = (fault) => (fault.name === "QuotaExceededError" ? new Full() : fault);

const ask = (store, mode, question) => inOne(store, mode, (s, came) => {
  question(s).onsuccess = (e) => (came.value = e.target.result);
});

export const get = (store, key) => ask(store, "readonly", (s) => s.get(key));
export const all = (store) => ask(store, "readonly", (s) => s.getAll());
export const put = (store, value, key) => ask(store, "readwrite", (s) => s.put(value, key));
export const remove = (store, key) => ask(store, "readwrite", (s) => s.delete(key));
export const clear = (store) => ask(store, "readwrite", (s) => s.clear());

// keepSheet keeps a sheet as it has become, if what is kept is what it was made from and
// is open: no tab ever writes over what another one kept or finished. It tells whether it
// was gone, which happens where somebody cleared the browser's storage.
export function keepSheet(sheet) {
  return inTurn(sheet.id, async () => {
    const came = await inOne("sheets", "readwrite", (s, came, t) => {
      s.get(sheet.id).onsuccess = (e) => {
        const there = e.target.result;
        try {
          const older = there?.rescued && !sheet.rescued && there.turn < sheet.turn; // the copy came back of what is in hand
          if (there && !older && (there.turn !== sheet.turn - 1 || there.state !== "open")) throw new Elsewhere();
          came.value = { gone: !there && sheet.turn > 1 };
          s.put(sheet);
        } catch (fault) {
          came.fault = fault;
          t.abort();
        }
      };
    });
    await beside(copy(sheet));
    return came;
  });
}

// putSheet keeps a sheet whatever stands there. The office's own needs no second copy.
export function putSheet(sheet) {
  return inTurn(sheet.id, async () => {
    await put("sheets", sheet);
    await beside(sheet.state === "sent" ? drop(sheet.id) : copy(sheet));
  });
}

// removeSheet takes a sheet away, the copy first: else it would come back. Where a turn is
// given, it does so only if the sheet is still as it was then; it tells whether it did.
export function removeSheet(id, turn) {
  return inTurn(id, async () => {
    const there = turn !== undefined && await get("sheets", id);
    if (there && there.turn !== turn) return false;
    await beside(drop(id), unhurried);
    await remove("sheets", id);
    return true;
  });
}

// rescue puts back what the database lost and its second copy still has; it tells how
// many sheets came back.
export async function rescue() {
  let back = 0;
  for (const id of await beside(copied(), unhurried) ?? []) back += await inTurn(id, () => rescueOne(id));
  return back;
}

// rescueOne reports whether a sheet came back. The copy may be older than what the page
// showed as kept, so an open one is to be looked over (rescued.js); one that is finished
// was signed as it is. The copy of one that was sent is what a
// killed browser did not put away: it is put away now.
async function rescueOne(id) {
  const there = await get("sheets", id);
  if (there?.state === "sent") await beside(drop(id), unhurried);
  const sheet = !there && await beside(copyOf(id), unhurried);
  if (!sheet) return false;
  await put("sheets", sheet.state === "open" ? { ...sheet, rescued: true } : sheet);
  return true;
}

// inTurn changes a sheet and its second copy together, one tab after the other: an older
// copy never comes after a newer one, nor one of a sheet that was taken away.
const inTurn = (id, work) => (globalThis.navigator?.locks ? navigator.locks.request("copy " + id, work) : work());

// beside does something with the second copies. Where that fails, or takes so long that
// it would hold somebody up who marks, the database has it.
const beside = (work, patience = 150) => {
  let timer;
  const enough = new Promise((done) => (timer = setTimeout(done, patience)));
  return Promise.race([work.catch(() => undefined), enough]).finally(() => clearTimeout(timer));
};
