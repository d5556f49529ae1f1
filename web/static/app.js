// A stop-watch for the seconds of a timed step. Everything works without it:
// the seconds can be read from any clock and typed.

function arm(box) {
  const field = document.getElementById(box.dataset.stopwatch);
  const button = box.querySelector("button");
  if (!field || !button) return;
  let since = null;
  let tick = 0;

  const elapsed = () => (performance.now() - since) / 1000;
  const start = () => {
    since = performance.now();
    button.textContent = button.dataset.stop;
    field.readOnly = true;
    tick = setInterval(() => (field.value = String(Math.floor(elapsed()))), 200);
  };
  const stop = () => {
    clearInterval(tick);
    // Tenths, rounded up: a limit is never kept by rounding.
    field.value = (Math.ceil(elapsed() * 10) / 10).toFixed(1);
    field.readOnly = false;
    since = null;
    button.textContent = button.dataset.start;
  };

  button.addEventListener("click", () => (since === null ? start() : stop()));
  field.form.addEventListener("submit", () => since !== null && stop());
  box.hidden = false;
}

document.querySelectorAll("[data-stopwatch]").forEach(arm);

// Where nobody is signed in, no names stay on the device: the day's pack of the
// bedside is put away, and sheets that the office has. Those that were not sent yet
// stay, for nobody else has them.
async function putPackAway() {
  // Asked first, for to open what is not there makes it, and a page that is left in the
  // middle of that can keep others from opening it.
  const there = (await indexedDB.databases?.()) ?? [{ name: "wellshown-bedside" }];
  if (!there.some((d) => d.name === "wellshown-bedside")) return;
  const asked = indexedDB.open("wellshown-bedside");
  asked.onupgradeneeded = () => asked.transaction.abort(); // there never was one
  asked.onsuccess = () => {
    const t = asked.result.transaction(["pack", "sheets"], "readwrite");
    t.objectStore("pack").clear();
    const sheets = t.objectStore("sheets").getAll();
    t.oncomplete = () => putSentAway(asked.result, sheets.result.filter((s) => s.state === "sent").map((s) => s.id));
  };
}

async function putSentAway(db, ids) {
  await putCopiesAway(ids).catch(() => {}); // a browser without such files has no copies
  const t = db.transaction("sheets", "readwrite");
  for (const id of ids) t.objectStore("sheets").delete(id);
  t.oncomplete = () => {
    db.close();
    new BroadcastChannel("wellshown-bedside").postMessage("signed out");
  };
}

// A second copy that a killed browser left behind goes before its sheet (bedside/copies.js):
// else the sheet would come back.
async function putCopiesAway(ids) {
  const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle("bedside sheets");
  for (const id of ids) await folder.removeEntry(id + ".json").catch(() => {}); // as a rule there is none
}

if (document.querySelector('form[action="/sign-in"]')) putPackAway();

// A day that is slid: the page of each day comes in place of the one before it, under its own
// address, and what is slid stays where it is and keeps the focus. Without this there
// are the day's field and the steps beside it.
function slide(row) {
  const range = row.querySelector("input");
  const said = row.querySelector("output");
  const form = range.form;
  const first = Date.parse(row.dataset.slide);
  let waiting = 0;
  let asked = 0;

  const day = () => new Date(first + range.valueAsNumber * 864e5);
  const say = () => {
    said.textContent = day().toLocaleDateString("en-GB", { dateStyle: "long", timeZone: "UTC" });
    range.setAttribute("aria-valuetext", said.textContent);
    form.elements.on.value = day().toISOString().slice(0, 10);
  };
  const show = async () => {
    const turn = ++asked;
    const address = form.action + "?" + new URLSearchParams([...new FormData(form)].filter(([, value]) => value));
    const answer = await fetch(address).catch(() => null);
    if (!answer?.ok || turn !== asked) return answer?.ok || form.requestSubmit(); // as without this
    const other = new DOMParser().parseFromString(await answer.text(), "text/html");
    const there = other.querySelector("form.filters");
    if (!there || turn !== asked) return;
    for (const old of [...form.parentElement.children]) if (old !== form) old.remove();
    form.querySelector(".acts").replaceWith(there.querySelector(".acts"));
    const parts = [...there.parentElement.children];
    const at = parts.indexOf(there);
    form.before(...parts.slice(0, at));
    form.after(...parts.slice(at + 1));
    document.title = other.title;
    history.replaceState(null, "", address);
  };

  range.addEventListener("input", () => {
    say();
    clearTimeout(waiting);
    waiting = setTimeout(show, 250);
  });
  form.elements.on.addEventListener("change", () => {
    range.value = String(Math.round((Date.parse(form.elements.on.value) - first) / 864e5));
  });
  const shown = form.elements.on.value;
  say();
  form.elements.on.value = shown; // which may lie beyond either end
  row.hidden = false;
}

document.querySelectorAll("[data-slide]").forEach(slide);

// board lets a planned visit be dragged to another day or educator. Nothing moves by it:
// it leads to the page that says what that would break.
function board(table) {
  let dragged = null;
  const target = (event) => dragged && event.target.closest("td[data-day]");
  for (const link of table.querySelectorAll("td a")) link.draggable = true;
  table.addEventListener("dragstart", (event) => { dragged = event.target.closest("a"); });
  table.addEventListener("dragend", () => { dragged = null; table.querySelector("td.over")?.classList.remove("over"); });
  table.addEventListener("dragover", (event) => {
    const cell = target(event);
    table.querySelector("td.over")?.classList.remove("over");
    if (!cell) return;
    event.preventDefault();
    cell.classList.add("over");
  });
  table.addEventListener("drop", (event) => {
    const cell = target(event);
    if (!cell) return;
    event.preventDefault();
    const there = new URL(dragged.href);
    there.search = new URLSearchParams({ on: cell.dataset.day, educator: cell.dataset.educator });
    location.assign(there);
  });
}

document.querySelectorAll("[data-board]").forEach(board);

// What is being made tells how far it is: the same page is asked for again, and what it says
// of that comes in place of what it said. Without this there is a link to look again.
async function again(box) {
  await new Promise((later) => setTimeout(later, Number(box.dataset.again) * 1000));
  if (document.hidden) return again(box);
  const answer = await fetch(location.href, { headers: { Accept: "text/html" } }).catch(() => null);
  if (!answer?.ok) return again(box);
  const now = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById(box.id);
  if (!now?.dataset.again) return location.reload(); // it is made, or it will not be
  if (now.dataset.state !== box.dataset.state) box.replaceWith(now);
  again(document.getElementById(box.id));
}

document.querySelectorAll("[data-again]").forEach(again);
