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
