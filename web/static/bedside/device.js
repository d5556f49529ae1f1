// The key of this device: made here, never to leave, enrolled at the office while
// online. What it signs shows which device a sheet came from.

import { written } from "./base64url.js";
import { ask, why } from "./office.js";
import { get, put, remove } from "./store.js";

const curve = { name: "ECDSA", namedCurve: "P-256" };
const way = { name: "ECDSA", hash: "SHA-256" };

// of gives the device that somebody enrolled here: {id, pair, name, enrolled}; a tablet
// that two people share has a key of each.
export const of = (person) => get("key", person);
export const forget = (person) => remove("key", person);

// retire marks a device that the office knows no more: enrolling makes another key. The
// old one still signs what is finished meanwhile, which is then signed anew.
export async function retire(person) {
  const device = await of(person);
  if (device) await put("key", { ...device, enrolled: false, retired: true }, person);
}

// enrol makes a key, keeps it and tells the office of its public half. Asking again
// after the answer was lost sends the same one.
export async function enrol(person, name) {
  let device = await of(person);
  if (!device || device.retired) {
    device = { id: id(), name, pair: await crypto.subtle.generateKey(curve, false, ["sign", "verify"]), enrolled: false };
    await put("key", device, person);
  }
  const half = await crypto.subtle.exportKey("spki", device.pair.publicKey);
  const answer = await ask("POST", "/api/v1/bedside/devices", { id: device.id, name: device.name, public_key: written(half) });
  if (answer.status >= 300) throw new Error(why(answer));
  device = { ...device, enrolled: true };
  await put("key", device, person);
  return device;
}

// sign gives the signature of a text: r and s one after the other, as IEEE P1363 says.
export async function sign(device, text) {
  return written(await crypto.subtle.sign(way, device.pair.privateKey, new TextEncoder().encode(text)));
}

// id is a UUIDv7 (RFC 9562, section 5.7): the instant, then chance.
export function id(now = Date.now()) {
  const b = crypto.getRandomValues(new Uint8Array(16));
  for (let i = 5, rest = now; i >= 0; i--, rest = Math.floor(rest / 256)) b[i] = rest % 256;
  b[6] = 0x70 | (b[6] & 0x0f);
  b[8] = 0x80 | (b[8] & 0x3f);
  const hex = [...b].map((x) => x.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

// likely is a name to begin with: what sort of thing this is.
export function likely() {
  const touch = navigator.maxTouchPoints > 0;
  const small = Math.min(screen.width, screen.height) < 600;
  return touch ? (small ? "Phone" : "Tablet") : "Computer";
}
