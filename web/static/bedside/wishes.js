// What somebody wishes of this device: a sound, a shake, keys. None is ever the only
// sign of anything.

import { get, put } from "./store.js";

export const wishes = { sound: false, shake: false, keys: true };

export async function readWishes() { Object.assign(wishes, await get("settings", "wishes")); }

export async function wish(name, on) {
  wishes[name] = on;
  await put("settings", { ...wishes }, "wishes");
}

let audio = null;

// kept is the sign that something was kept.
export function kept() {
  if (wishes.shake) navigator.vibrate?.(25);
  if (!wishes.sound) return;
  audio ??= new AudioContext();
  const tone = audio.createOscillator();
  const quiet = audio.createGain();
  quiet.gain.value = 0.05;
  tone.frequency.value = 660;
  tone.connect(quiet).connect(audio.destination);
  tone.start();
  tone.stop(audio.currentTime + 0.06);
}
