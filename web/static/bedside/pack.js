// The day's pack: today's people and their skills, the checklists in force, the
// children's values. It runs out; signing out or revoking the device wipes it.

import { ask, why } from "./office.js";
import { all, clear, get, put, removeSheet } from "./store.js";

export const kept = () => get("pack", "today");

// fetchPack gets today's pack and keeps it. {refused} says why there is none: the device
// was revoked or its owner may observe no more, and what was kept of it is wiped.
export async function fetchPack(device) {
  const answer = await ask("GET", "/api/v1/bedside/pack?device=" + encodeURIComponent(device.id));
  if (answer.status === 200) {
    await put("pack", answer.data, "today");
    return { pack: answer.data };
  }
  if (answer.status === 403 || answer.status === 404) {
    await wipe();
    return { refused: why(answer) };
  }
  return {};
}

// wipe puts away what the office can give again; sheets that it does not have stay.
export async function wipe() {
  await clear("pack");
  for (const sheet of await all("sheets")) if (sheet.state === "sent") await removeSheet(sheet.id);
}

export const expired = (pack, now = Date.now()) => !pack || now >= Date.parse(pack.expires_at);

export const clientOf = (pack, id) => pack.clients.find((c) => c.id === id) ?? null;
export const skillOf = (pack, code) => pack.skills.find((s) => s.code === code) ?? null;
export const learnerOf = (pack, id) => pack.learners.find((l) => l.id === id) ?? null;
