// A signature drawn with a finger or a pen. It is a trace of agreement, and no
// signature that counts: that one takes a password or a PIN.

import { button, h } from "./draw.js";
import { says } from "./tongue.js";

const svg = "http://www.w3.org/2000/svg";
const most = 4000; // numbers, of all strokes together
const wide = 1000;

// drawing is the field; changed is told the strokes, [[x, y, x, y, …], …] from 0 to 1000.
export function drawing(strokes, name, changed) {
  const made = document.createElementNS(svg, "svg");
  made.setAttribute("class", "drawing");
  made.setAttribute("viewBox", "0 0 1000 1000");
  made.setAttribute("preserveAspectRatio", "none");
  made.setAttribute("role", "img");
  made.setAttribute("aria-label", says("Field to draw in: %s", name));
  let all = strokes.map((s) => [...s]);
  let now = null;
  const draw = () => made.replaceChildren(...all.map(path));
  const size = () => all.reduce((n, s) => n + s.length, 0);
  const point = (e) => {
    const box = made.getBoundingClientRect();
    const at = (v, from, length) => Math.round(Math.min(1, Math.max(0, (v - from) / length)) * wide);
    now.push(at(e.clientX, box.left, box.width), at(e.clientY, box.top, box.height));
  };
  made.addEventListener("pointerdown", (e) => {
    if (e.button !== 0 || size() >= most - 4) return;
    made.setPointerCapture(e.pointerId);
    all.push(now = []);
    point(e);
    draw();
  });
  made.addEventListener("pointermove", (e) => {
    if (!now || size() >= most - 2) return;
    point(e);
    draw();
  });
  const end = () => { if (now) changed(all); now = null; };
  made.addEventListener("pointerup", end);
  made.addEventListener("pointercancel", end);
  draw();
  return [made, button(says("Clear the field"), () => { all = []; draw(); changed(all); }, { id: "clear-drawing", class: "act quiet" })];
}

function path(stroke) {
  const made = document.createElementNS(svg, "path");
  const points = [];
  for (let i = 0; i < stroke.length; i += 2) points.push(`${stroke[i]} ${stroke[i + 1]}`);
  made.setAttribute("d", "M" + points.join("L") + (points.length === 1 ? "l1 0" : ""));
  made.setAttribute("vector-effect", "non-scaling-stroke");
  return made;
}
