// Passkeys: has the browser use or make one, and sends its answer with the form.
// Where the browser knows none, nothing of them is shown.

const known = "credentials" in navigator && "PublicKeyCredential" in window;

const bytes = (text) => Uint8Array.from(atob(text.replace(/-/g, "+").replace(/_/g, "/")), (c) => c.charCodeAt(0));

const text = (buffer) =>
  btoa(Array.from(new Uint8Array(buffer), (b) => String.fromCharCode(b)).join(""))
    .replace(/\+/g, "-")
    .replace(/\//g, "_")
    .replace(/=+$/, "");

function read(options) {
  options.challenge = bytes(options.challenge);
  if (options.user) options.user.id = bytes(options.user.id);
  for (const list of [options.allowCredentials, options.excludeCredentials])
    for (const key of list ?? []) key.id = bytes(key.id);
  return options;
}

function written(key) {
  const response = { clientDataJSON: text(key.response.clientDataJSON) };
  for (const part of ["attestationObject", "authenticatorData", "signature", "userHandle"])
    if (key.response[part]) response[part] = text(key.response[part]);
  if (key.response.getTransports) response.transports = key.response.getTransports();
  return JSON.stringify({ id: key.id, rawId: text(key.rawId), type: key.type, response, clientExtensionResults: {} });
}

function ceremony(form) {
  const button = form.querySelector("button");
  const status = form.querySelector("[data-passkey-stopped]");
  let running = false;

  const run = async () => {
    if (running) return;
    running = true;
    status.textContent = "";
    try {
      const publicKey = read(JSON.parse(form.dataset.options));
      const key = await navigator.credentials[form.dataset.passkey]({ publicKey });
      form.elements.passkey.value = written(key);
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

if (known) {
  const own = document.body.dataset.passkeys === "own";
  for (const offer of document.querySelectorAll("[data-passkey-offer]")) offer.hidden = !own && offer.dataset.passkeyOffer !== "any";
  document.querySelectorAll("form[data-passkey]").forEach(ceremony);
}
