// What was typed into a form outlives a session that ended while it was typed: this tab keeps
// it until the same person has signed in again, and then it stands in the form once more.
// Nothing is ever sent by this. Without it what was typed is lost, and the page says so.

const key = "wellshown typed";
const longest = 36e5; // ms for which it is kept

const kept = () => JSON.parse(sessionStorage.getItem(key));
const keep = (entry) => sessionStorage.setItem(key, JSON.stringify(entry));
const forget = () => sessionStorage.removeItem(key);

const sends = (form) => form.getAttribute("method")?.toLowerCase() === "post";
// sentTo is where a form goes, with what the address asks for: that may say whom it is about.
const sentTo = (form) => {
  const { pathname, search } = new URL(form.getAttribute("action") ?? location.href, location.href);
  return pathname + search;
};

// Secrets are never kept, nor what stands for one page of one session alone.
const ours = (e) => e.name && !["csrf", "passkey"].includes(e.name) && !["password", "file", "submit", "button", "fieldset", "output"].includes(e.type) && e.autocomplete !== "one-time-code";
const choice = (e) => e.type === "radio" || e.type === "checkbox";
const fields = (form) => [...form.elements].filter(ours);
const written = (e) => ({ name: e.name, type: e.type, value: e.value, checked: choice(e) && e.checked });

document.addEventListener("submit", ({ target: form }) => {
  if (!sends(form)) return;
  const to = sentTo(form);
  if (to === "/sign-out") return forget();
  const reader = document.body.dataset.reader;
  if (!reader) return;
  const all = fields(form).map(written);
  const typed = all.some((f) => f.type !== "hidden");
  // What was sent before this, and led to no page, was not lost with what is sent now.
  if (typed || !kept()?.lost) forget();
  if (typed) keep({ reader, to, at: Date.now(), all });
});

// What a form brings of itself may be another each time, and what was sent counts: the id of
// what would be added, which is added once, and the version that was read, so that the office
// tells of a newer one. Where a version was read there is something already, and its id says
// what: words about one day must never stand in the form of another.
const renewed = (all) => (all.some((f) => f.name === "version") ? ["version"] : ["id"]);

// fits reports whether what was typed belongs into this form as it stands now. Rows that came,
// went or changed places meanwhile must never get what was typed beside others.
function fits(form, all) {
  const now = fields(form);
  const other = renewed(all);
  return now.length === all.length && now.every((e, i) => {
    const f = all[i];
    if (e.name !== f.name || e.type !== f.type) return false;
    if (e.type === "hidden") return e.value === f.value || other.includes(e.name);
    if (choice(e)) return e.value === f.value;
    return e.type !== "select-one" || [...e.options].some((o) => o.value === f.value);
  });
}

function fill(form, all) {
  fields(form).forEach((e, i) => {
    if (choice(e)) e.checked = all[i].checked;
    else e.value = all[i].value;
    if (e.type !== "hidden") e.dispatchEvent(new Event("input", { bubbles: true }));
  });
}

function notice(form, words, texts = []) {
  const box = document.createElement("div");
  box.className = "flash";
  box.tabIndex = -1;
  box.setAttribute("role", "status");
  for (const [name, text] of [["p", words], ...texts.map((t) => ["blockquote", t])]) {
    box.append(document.createElement(name));
    box.lastChild.textContent = text;
  }
  for (let fold = form.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  form.before(box);
  box.focus();
}

function back(entry) {
  const there = [...document.forms].filter((f) => sends(f) && sentTo(f) === entry.to);
  if (there.length === 0) return; // they may yet go to its page
  const form = there.find((f) => fits(f, entry.all)) ?? there[0];
  forget();
  const { typedAgain, typedApart } = document.body.dataset;
  if (fits(form, entry.all)) {
    fill(form, entry.all);
    return notice(form, typedAgain);
  }
  const texts = entry.all.filter((f) => ["text", "textarea"].includes(f.type) && f.value.trim()).map((f) => f.value);
  if (texts.length > 0) notice(form, typedApart, texts);
}

function arrived(entry) {
  const { lost, reader } = document.body.dataset;
  if (lost !== undefined) {
    keep({ ...entry, lost: true });
    const said = document.querySelector("[data-typed-kept]");
    if (said) said.hidden = false;
    return;
  }
  if (!reader) return;
  if (reader !== entry.reader || !entry.lost || Date.now() - entry.at > longest) return forget();
  back(entry);
}

const entry = kept();
if (entry) arrived(entry);
