// Passkeys: has the browser use or make one, and sends its answer with the form.
// Where the browser knows none, nothing of them is shown.

import { known, perform } from "/bedside/ceremony.js";

function ceremony(form) {
  const button = form.querySelector("button");
  const status = form.querySelector("[data-passkey-stopped]");
  let running = false;

  const run = async () => {
    if (running) return;
    running = true;
    status.textContent = "";
    try {
      form.elements.passkey.value = await perform(form.dataset.passkey, form.dataset.options);
      form.submit();
    } catch {
      status.textContent = status.dataset.passkeyStopped;
      running = false;
    }
  };

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    run();
  });
  form.querySelector("[data-passkey-missing]").hidden = true;
  button.hidden = false;
  // Whoever came here has asked for it already.
  run();
}

if (known()) {
  const own = document.body.dataset.passkeys === "own";
  for (const offer of document.querySelectorAll("[data-passkey-offer]")) offer.hidden = !own && offer.dataset.passkeyOffer !== "any";
  document.querySelectorAll("form[data-passkey]").forEach(ceremony);
}
