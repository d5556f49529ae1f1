// The clock of a drill: one start, three large buttons, and a wrong touch can be taken back,
// which is sent along. What was touched stays through a reload. Without this the seconds
// are read from any clock and typed.

const most = 3600;

function clock(form) {
  const key = "drill " + form.dataset.drill;
  const since = form.querySelector(".since");
  const start = form.querySelector("[data-start]");
  const said = form.querySelector("[data-said]");
  const after = document.querySelector("[data-after]");
  const kept = JSON.parse(sessionStorage.getItem(key) ?? "null");
  const run = kept ?? { from: null, back: [] };
  const refused = form.querySelector("[aria-invalid]") !== null;
  if (refused && run.sent) run.back = run.sent; // none of it was kept
  const moments = [...form.querySelectorAll("[data-moment]")].map((box) => ({
    name: box.dataset.moment,
    box,
    tap: box.querySelector("[data-tap]"),
    back: box.querySelector("[data-back]"),
    field: box.querySelector("input"),
  }));

  // Rounded up: a moment is never made earlier than it was.
  const elapsed = () => Math.min(most, Math.max(0, Math.ceil((Date.now() - run.from) / 1000)));
  const keep = () => {
    run.fields = Object.fromEntries(moments.map((m) => [m.name, m.field.value]));
    sessionStorage.setItem(key, JSON.stringify(run));
    form.elements.taken_back.value = run.back.map((b) => b.moment + " " + b.seconds).join(", ");
  };
  const show = () => {
    for (const m of moments) {
      const there = m.field.value !== "";
      m.tap.disabled = run.from === null || there || elapsed() >= most;
      m.tap.setAttribute("aria-pressed", String(there));
      m.back.hidden = !there;
    }
  };
  const tick = () => {
    const s = Math.min(most, Math.floor((Date.now() - run.from) / 1000));
    since.textContent = Math.floor(s / 60) + ":" + String(s % 60).padStart(2, "0");
    if (after && s >= Number(after.dataset.after) && !after.classList.contains("now")) {
      after.classList.add("now");
      said.textContent = "Read out what happens next.";
    }
    if (s >= most) show();
  };
  const go = () => {
    start.hidden = true;
    tick();
    setInterval(tick, 250);
    show();
  };

  start.addEventListener("click", () => {
    run.from = Date.now();
    keep();
    go();
    moments.find((m) => !m.tap.disabled)?.tap.focus();
  });
  for (const m of moments) {
    m.tap.hidden = false;
    m.box.querySelector("label").classList.add("vh"); // the button says the same
    m.tap.addEventListener("click", () => {
      if (m.field.value !== "") return; // a wet hand touches twice
      m.field.value = String(elapsed());
      said.textContent = m.tap.textContent + ": " + m.field.value + " s";
      keep();
      show();
      (moments.find((o) => !o.tap.disabled)?.tap ?? m.back).focus();
    });
    m.back.addEventListener("click", () => {
      const seconds = Number(m.field.value);
      if (Number.isInteger(seconds) && seconds >= 0 && seconds <= most && run.from !== null) run.back.push({ moment: m.name, seconds });
      m.field.value = "";
      said.textContent = m.tap.textContent + ": taken back";
      keep();
      show();
      (m.tap.disabled ? m.field : m.tap).focus();
    });
    m.field.addEventListener("input", () => {
      keep();
      show();
    });
  }
  form.addEventListener("submit", () => {
    keep();
    // What was taken back goes with this, and once only.
    sessionStorage.setItem(key, JSON.stringify({ from: run.from, back: [], sent: run.back }));
  });
  since.parentElement.hidden = false;
  if (kept?.fields && !refused) for (const m of moments) m.field.value = kept.fields[m.name] ?? m.field.value;
  if (run.from !== null) go();
  else show();
}

document.querySelectorAll("[data-drill]").forEach(clock);
