// The shell on the device: kept by a service worker, and never replaced under a sheet
// that is being marked. A new version waits until somebody takes it, or until every
// tab was closed.

import { button, h, shape } from "./draw.js";
import { state } from "./state.js";

let waits = null;

// watchShell has the worker keep the page and looks for a new version.
export async function watchShell() {
  if (!navigator.serviceWorker) return;
  const had = navigator.serviceWorker.controller;
  navigator.serviceWorker.addEventListener("controllerchange", () => had && location.reload());
  try {
    const registration = await navigator.serviceWorker.register("/bedside/sw.js", { scope: "/bedside/", updateViaCache: "none" });
    const look = () => {
      waits = navigator.serviceWorker.controller && registration.waiting; // the first one replaces nothing
      if (waits) state.tell();
    };
    look();
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && registration.update().catch(() => {}));
    registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", look));
  } catch {
    // Offline, or a browser without: the page that is here goes on.
  }
}

// newVersion offers a version that waits; only where no sheet is open is it drawn.
export const newVersion = () => waits && h("p", { class: "flash" }, shape("open"), " A new version of this page is ready. ",
  button("Use it now", () => waits.postMessage("take over"), { id: "use-now" }));
