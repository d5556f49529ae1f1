// Shows lessons that somebody keeps on this phone while the network is off: the network
// first, the copy only where nobody answers. It keeps nothing by itself, and what is kept
// (static/learn.js) is of nobody.

const shelf = "lessons";

// kept finds what stands in for an address: a file by its own, a lesson by its copy, in the
// language asked for if there is one, and the list for all else.
async function kept(request) {
  if (!(await caches.has(shelf))) return undefined;
  const cache = await caches.open(shelf);
  const same = await cache.match(request, { ignoreVary: true });
  if (same || request.mode !== "navigate") return same;
  const url = new URL(request.url);
  const copy = url.pathname.replace(/^(\/learn\/[a-z0-9-]+).*$/, "$1/copy");
  const copies = (await cache.keys()).map((k) => new URL(k.url)).filter((k) => k.pathname === copy);
  const one = copies.find((k) => k.searchParams.get("in") === url.searchParams.get("in")) ?? copies[0];
  return cache.match(one?.href ?? "/learn/kept", { ignoreVary: true, ignoreSearch: !one });
}

async function networkFirst(request) {
  try {
    return await fetch(request);
  } catch (nobody) {
    const there = await kept(request);
    if (there) return there;
    throw nobody;
  }
}

const ofLessons = (path) => path === "/learn" || path.startsWith("/learn/") && !path.endsWith(".pdf") && !path.endsWith(".js");

addEventListener("install", () => self.skipWaiting());
addEventListener("activate", (e) => e.waitUntil(self.clients.claim()));
addEventListener("fetch", (e) => {
  const url = new URL(e.request.url);
  if (e.request.method !== "GET" || url.origin !== location.origin) return;
  if (e.request.mode === "navigate" ? ofLessons(url.pathname) : url.pathname.startsWith("/static/")) e.respondWith(networkFirst(e.request));
});
