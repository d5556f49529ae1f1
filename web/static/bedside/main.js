// The page: who is signed in, what the device keeps, and which screen the address says.

import { begin, station } from "./begin.js";
import { h, say } from "./draw.js";
import { finish } from "./finish.js";
import { draws, hand } from "./hand.js";
import { marking } from "./marking.js";
import { look } from "./rescued.js";
import { people } from "./people.js";
import { settings } from "./settings.js";
import { after } from "./after.js";
import { waiting } from "./waiting.js";
import { watchShell } from "./shell.js";
import { state } from "./state.js";
import { speak } from "./tongue.js";

const screens = { "": people, begin, station, sheet: marking, look, finish, draw: draws, after, hand, waiting, device: settings };
let current = null; // what the screen that is shown answers to: leave, told
let turn = 0;
let before = "";
let line = Promise.resolve();

// show draws the screen of the address, one after the other: what was shown before is
// left first, with the sheet it held.
const show = () => (line = line.then(draw));

async function draw() {
  const address = location.hash;
  const [name, ...words] = address.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
  await current?.leave?.();
  const mine = ++turn;
  const main = document.getElementById("main");
  const top = document.getElementById("top");
  main.inert = top.inert = true; // what is left acts no more, though it may still stand while the next one waits
  document.body.classList.remove("marking");
  if (address !== before) scrollTo(0, 0);
  before = address;
  const put = (head, ...parts) => {
    if (mine !== turn) return false;
    top.replaceChildren(head);
    main.replaceChildren(...parts.flat(4).filter(Boolean));
    main.inert = top.inert = false;
    main.className = name && screens[name] ? name : "people";
    return true;
  };
  speak(null); // what is handed over says otherwise
  try {
    current = await (screens[name] ?? people)({ put, words, still: () => mine === turn, again: show, address });
  } catch (fault) {
    speak(null);
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

// Where the browser does not open what it keeps, the page says so and goes on waiting.
// Chromium may put a page to sleep in the middle of making the database, where it was
// left at once on the first visit of all, and no other page can open it meanwhile.
const patience = setTimeout(() => {
  document.getElementById("starting")?.replaceChildren(
    "This browser has not opened what it keeps for this page. Nothing is lost. Close all its windows, open it again, and come back here; until then mark on paper.");
}, 10000);

await state.start(told);
clearTimeout(patience);
await show();
watchShell();
