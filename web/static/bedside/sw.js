// The service worker keeps the shell of the page, so that it opens with the network
// off. It holds no data: people and sheets are in the browser's database. The list of
// files, with a mark of each one's content, and the version of them all is written
// above this text by the server (self.shell).

const kept = "bedside " + self.shell.version;
const address = (name) => "/bedside/" + (name === "index.html" ? "" : name);

// fetchOf gets a file of this version: what the page has just loaded is not sent again.
async function fetchOf(name, mark) {
  for (const cache of ["force-cache", "reload"]) {
    const answer = await fetch(address(name), { cache });
    if (answer.ok && answer.headers.get("ETag")?.includes(mark)) return answer;
  }
  throw new Error(`${name} is not of this version`);
}

// Every file must be the one of this version, or nothing of it is kept: half of an old
// and half of a new page would be worse than an old one.
async function keepShell() {
  const cache = await caches.open(kept);
  await Promise.all(Object.entries(self.shell.files).map(async ([name, mark]) => cache.put(address(name), await fetchOf(name, mark))));
}

async function forgetOthers() {
  const names = await caches.keys();
  await Promise.all(names.filter((n) => n.startsWith("bedside ") && n !== kept).map((n) => caches.delete(n)));
  await self.clients.claim(); // only the first one finds pages without a worker
}

// Nothing is replaced while a sheet is marked in any tab: each holds a lock.
async function takeOver() {
  const { held } = await navigator.locks.query();
  if (!held.some((lock) => lock.name.startsWith("sheet "))) await self.skipWaiting();
}

async function fromShell(request) {
  const cache = await caches.open(kept);
  const there = await cache.match(request.mode === "navigate" ? "/bedside/" : request, { ignoreSearch: true, ignoreVary: true });
  return there ?? fetch(request);
}

addEventListener("install", (e) => e.waitUntil(keepShell()));
addEventListener("activate", (e) => e.waitUntil(forgetOthers()));
addEventListener("message", (e) => { if (e.data === "take over") e.waitUntil(takeOver()); });
addEventListener("fetch", (e) => {
  const url = new URL(e.request.url);
  const ours = url.origin === location.origin && url.pathname.startsWith("/bedside/") && url.pathname !== "/bedside/session";
  if (ours && e.request.method === "GET") e.respondWith(fromShell(e.request));
});
