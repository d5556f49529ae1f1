// Keys for whoever marks with a keyboard. They can be turned off on the screen of the
// device (WCAG 2.2, 2.1.4 Character Key Shortcuts).

import { marks } from "./words.js";
import { wishes } from "./wishes.js";

// listenToKeys acts on a view; it gives what ends that.
export function listenToKeys(view) {
  const pressed = (e) => {
    if (!wishes.keys || e.ctrlKey || e.altKey || e.metaKey || e.target.closest("input, textarea, select, dialog") || document.querySelector("dialog[open]")) return;
    const mark = marks[Number(e.key) - 1];
    if (mark) view.give(mark[0]);
    else if (e.key === "u") view.undo();
    else if (e.key === "n") view.goOpen();
    else if (e.key === "p") view.go(view.at - 1);
    else if (e.key === "?") view.help();
    else return;
    e.preventDefault();
  };
  document.addEventListener("keydown", pressed);
  return () => document.removeEventListener("keydown", pressed);
}
