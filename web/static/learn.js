// Keeps a lesson on this phone to be read with the network off: a plain copy with its
// styles and drawings, which holds no name of anybody. Without this the lesson is read
// as any page.

const shelf = "lessons";
const list = "/learn/kept";

const able = "caches" in window && "serviceWorker" in navigator;

// of gets a page of ours as it is now; who is not signed in any more is led elsewhere, and
// that is not kept.
async function of(address) {
  const answer = await fetch(address, { cache: "no-store" });
  if (!answer.ok || answer.redirected) throw new Error(`${address} cannot be had`);
  return answer;
}

async function keep(address) {
  const cache = await caches.open(shelf);
  const [copy, page] = await Promise.all([of(address), of(list + new URL(address, location).search)]);
  const html = new DOMParser().parseFromString(await copy.clone().text(), "text/html");
  const parts = [...html.querySelectorAll("link[rel=stylesheet], link[rel=icon]"), ...html.querySelectorAll("script[src]")].map((e) => e.getAttribute("href") ?? e.getAttribute("src"));
  await Promise.all([...parts, ...(await partsOf(page.clone()))].map(async (part) => cache.put(part, await of(part))));
  await cache.put(list, page);
  await cache.put(address, copy);
  await navigator.serviceWorker.register("/learn/worker.js", { scope: "/learn" });
}

async function partsOf(page) {
  const html = new DOMParser().parseFromString(await page.text(), "text/html");
  return [...html.querySelectorAll("script[src]")].map((e) => e.getAttribute("src"));
}

const copies = async () => (await caches.has(shelf)) ? (await (await caches.open(shelf)).keys()).filter((k) => new URL(k.url).pathname.endsWith("/copy")) : [];

// remove takes a copy away, and with the last one all the rest.
async function remove(address) {
  const cache = await caches.open(shelf);
  await cache.delete(address, { ignoreVary: true });
  if ((await copies()).length > 0) return;
  await caches.delete(shelf);
  for (const one of await navigator.serviceWorker.getRegistrations()) if (new URL(one.scope).pathname === "/learn") await one.unregister();
}

function show(box, state) {
  for (const part of box.querySelectorAll("[data-when]")) part.hidden = part.dataset.when !== state;
  box.hidden = false;
}

// offer lets a lesson be kept. One that is kept is brought up to date whenever it is read.
async function offer(box) {
  const address = box.dataset.keep;
  const act = (what, then) => async () => {
    try {
      await what(address);
      show(box, then);
    } catch {
      show(box, "failed");
    }
  };
  for (const button of box.querySelectorAll("[data-act=keep]")) button.addEventListener("click", act(keep, "kept"));
  for (const button of box.querySelectorAll("[data-act=remove]")) button.addEventListener("click", act(remove, "away"));
  const there = (await copies()).some((k) => k.url === new URL(address, location).href);
  show(box, there ? "kept" : "away");
  if (there) keep(address).catch(() => {}); // the one that is kept stays
}

// fill lists what is kept, each with its title as it stands in the copy.
async function fill(rows) {
  const cache = await caches.open(shelf);
  const sample = rows.querySelector("template");
  for (const key of await copies()) {
    const html = new DOMParser().parseFromString(await (await cache.match(key, { ignoreVary: true })).text(), "text/html");
    const line = sample.content.cloneNode(true).firstElementChild;
    const link = line.querySelector("a");
    link.textContent = html.querySelector("h1").textContent;
    link.lang = html.documentElement.lang;
    link.href = new URL(key.url).pathname + new URL(key.url).search;
    line.querySelector("button").addEventListener("click", async () => {
      await remove(key.url);
      line.remove();
      empty();
    });
    line.querySelector("button .vh").textContent = " " + link.textContent;
    rows.append(line);
  }
  const empty = () => { document.querySelector("[data-none]").hidden = rows.querySelector("li") !== null; };
  empty();
}

if (able) {
  document.querySelectorAll("[data-keep]").forEach(offer);
  document.querySelectorAll("[data-kept]").forEach(fill);
}
