// The page: who is signed in, what the device keeps, and which screen the address says.

import { begin } from "./begin.js";
import { h, say } from "./draw.js";
import { finish } from "./finish.js";
import { marking } from "./marking.js";
import { people } from "./people.js";
import { settings } from "./settings.js";
import { after } from "./after.js";
import { waiting } from "./waiting.js";
import { watchShell } from "./shell.js";
import { state } from "./state.js";

const screens = { "": people, begin, sheet: marking, finish, after, waiting, device: settings };
let current = null; // what the screen that is shown answers to: leave, told
let turn = 0;
let before = "";
let line = Promise.resolve();

// show draws the screen of the address, one after the other: what was shown before is
// left first, with the sheet it held.
const show = () => (line = line.then(draw));

async function draw() {
  const [name, ...words] = location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
  await current?.leave?.();
  const mine = ++turn;
  const main = document.getElementById("main");
  const top = document.getElementById("top");
  document.body.classList.remove("marking");
  if (location.hash !== before) scrollTo(0, 0);
  before = location.hash;
  const put = (head, ...parts) => {
    if (mine !== turn) return false;
    top.replaceChildren(head);
    main.replaceChildren(...parts.flat(4).filter(Boolean));
    main.className = name && screens[name] ? name : "people";
    return true;
  };
  try {
    current = await (screens[name] ?? people)({ put, words, still: () => mine === turn, again: show });
  } catch (fault) {
    put(h("div"), broken(fault));
    current = null;
  }
  if (!document.body.classList.contains("marking")) document.title = (main.querySelector("h1")?.textContent ?? "At the bedside") + " · Wellshown";
}

function broken(fault) {
  console.error(fault);
  return h("section", { class: "faults" }, h("h1", { tabindex: "-1" }, "This screen could not be shown"),
    h("p", {}, "What was kept on this device is still there. Reload the page; if it happens again, go on with the paper checklist."),
    h("p", {}, h("a", { class: "act", href: "#/" }, "Back to the people")));
}

addEventListener("hashchange", async () => {
  await show();
  const to = document.querySelector("main h1");
  to?.focus({ preventScroll: true });
  say(document.title);
});

// told draws anew what may be drawn anew; the focus stays where it was.
async function told() {
  await line;
  if (current?.told) {
    current.told();
    return;
  }
  const at = document.activeElement?.id;
  await show();
  if (at) document.getElementById(at)?.focus({ preventScroll: true });
}

// A page that the browser puts to sleep, for going back to, would hold the database as
// it stands, half made too, and whoever asks for it next would wait for it. A page that
// holds a lock is never put to sleep.
navigator.locks?.request("bedside page", { mode: "shared" }, () => new Promise(() => {}));

await state.start(told);
await show();
watchShell();
