// Has the browser use a passkey or make one, for the bedside and for every other page.
// What it is asked and what it answers is JSON (W3C Web Authentication Level 3,
// sections 5.1.3 to 5.1.10); not every browser writes and reads that by itself yet.

import { read, written } from "./base64url.js";

// known tells whether this browser knows passkeys; without one nothing of them is shown.
export const known = () => "credentials" in navigator && "PublicKeyCredential" in globalThis;

// perform does what, "get" or "create", with the options of the office, and gives the
// text of the answer. It throws where there is none.
export const perform = async (what, options) => answer(await navigator.credentials[what]({ publicKey: question(JSON.parse(options)) }));

function question(options) {
  options.challenge = read(options.challenge);
  if (options.user) options.user.id = read(options.user.id);
  for (const list of [options.allowCredentials, options.excludeCredentials])
    for (const key of list ?? []) key.id = read(key.id);
  return options;
}

function answer(key) {
  const response = { clientDataJSON: written(key.response.clientDataJSON) };
  for (const part of ["attestationObject", "authenticatorData", "signature", "userHandle"])
    if (key.response[part]) response[part] = written(key.response[part]);
  if (key.response.getTransports) response.transports = key.response.getTransports();
  return JSON.stringify({ id: key.id, rawId: written(key.rawId), type: key.type, response, clientExtensionResults: {} });
}
