// Asking the office over the network. Whatever the network does, the answer is one of:
// {status, data} as the office gave it, or Offline.

export class Offline extends Error {}

const patience = 20000; // ms
let word = ""; // the session's own, which no other site knows

// session is who is signed in, or {status: 401} for nobody.
export async function session() {
  const answer = await ask("GET", "/bedside/session");
  if (answer.status === 200) word = answer.data.csrf;
  return answer;
}

// language is that of refusals (RFC 9110, section 12.5.4); the observer's are English.
export async function ask(method, path, body, language = "en") {
  const headers = { Accept: "application/json", "Accept-Language": language };
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (method !== "GET") headers["X-CSRF"] = word;
  let answer;
  try {
    answer = await fetch(path, { method, headers, body: body === undefined ? undefined : JSON.stringify(body), cache: "no-store",
      credentials: "same-origin", redirect: "error", signal: AbortSignal.timeout(patience) });
    const text = await answer.text();
    return { status: answer.status, data: text ? JSON.parse(text) : null };
  } catch {
    // A page of somebody else's network in between is no answer of the office.
    if (answer && answer.status >= 500) return { status: answer.status, data: null };
    throw new Offline();
  }
}

// why is what a refusal says, in words.
export function why({ status, data }) {
  const more = (data?.errors ?? []).map((e) => e.detail).filter(Boolean);
  return [data?.detail ?? `The office answered ${status}.`, ...more].join(" ");
}
