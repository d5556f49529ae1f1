// Making elements: no text is ever read as markup.

import { tag } from "./tongue.js";

const svg = "http://www.w3.org/2000/svg";

// h makes an element: attributes by name, on… for what happens, null for none.
export function h(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else made.setAttribute(name, value === true ? "" : value);
  }
  made.append(...children.flat(Infinity).filter((c) => c !== null && c !== undefined && c !== false));
  return made;
}

// The signs of every page, drawn alike: a path, and how wide its line is; 0 fills it.
const disc = "M10 3a7 7 0 1 0 0 14a7 7 0 1 0 0-14z";
const shapes = {
  current: [["M10 2a8 8 0 1 0 0 16a8 8 0 1 0 0-16z", 0]], due: [["M10 2a8 8 0 0 0 0 16z", 0], ["M10 2.75a7.25 7.25 0 1 0 0 14.5a7.25 7.25 0 1 0 0-14.5zM10 2.5v15", 2]],
  lapsed: [[disc, 2.2], ["M3.5 10h13", 2.2]], withdrawn: [[disc, 2], ["M5.5 5.5l9 9M14.5 5.5l-9 9", 2]], learning: [[disc, 2.6]],
  waived: [["M10 2.5l7.5 7.5-7.5 7.5L2.5 10z", 2]], "not-started": [["M4.5 10h11", 2.4]],
  met: [["M3.5 10.5l4.3 4.5L16.5 5", 2.6]], open: [["M3.5 3.5h13v13h-13z", 2]], sent: [["M10 16V4M5 9l5-5 5 5", 2.2]],
  stopped: [["M6.7 2h6.6L18 6.7v6.6L13.3 18H6.7L2 13.3V6.7z", 2], ["M6 10h8", 2.4]], fault: [["M10 2.5L18.3 17H1.7z", 2], ["M10 7.5v4.7M10 13.4v1.8", 2]],
};

// shape draws one of them; the words stand beside it.
export function shape(word) {
  const name = word.replace(" ", "-");
  const made = document.createElementNS(svg, "svg");
  made.setAttribute("class", "shape " + name);
  made.setAttribute("viewBox", "0 0 20 20");
  made.setAttribute("aria-hidden", "true");
  for (const [d, width] of shapes[name] ?? []) {
    const path = document.createElementNS(svg, "path");
    path.setAttribute("d", d);
    path.setAttribute("fill", width ? "none" : "currentColor");
    if (width) path.setAttribute("stroke", "currentColor");
    path.setAttribute("stroke-width", width);
    made.append(path);
  }
  return made;
}

export const button = (text, onclick, attributes = {}) => h("button", { type: "button", class: "act", ...attributes, onclick }, text);
export const link = (text, href, attributes = {}) => h("a", { href, ...attributes }, text);

// line is one line of a ruled list: left of the margin what to scan, right the words.
export const line = (mark, words, acts = null, attributes = {}) =>
  h("li", { class: "line", ...attributes }, h("div", { class: "mark" }, mark), h("div", { class: "words" }, words, acts && h("div", { class: "acts" }, acts)));

// choices are radio buttons as large as fingers; none is chosen beforehand.
export const choices = (legend, name, options, chosen, onchange) => h("fieldset", { class: "choices" }, h("legend", {}, legend),
  options.map(([value, text, more]) => h("label", { class: "choice" },
    h("input", { type: "radio", name, value, checked: chosen === value, onchange: () => onchange(value) }),
    h("span", {}, text, more && h("small", {}, more)))));

// say tells whoever listens rather than looks; the same words are told again.
export function say(words) {
  const box = document.getElementById("said");
  box.textContent = "";
  setTimeout(() => (box.textContent = words), 30);
}

// dialog asks in front of everything else; it gives what closed it, "" for nothing.
export function dialog(heading, body, acts) {
  const id = "asked";
  const box = h("dialog", { "aria-labelledby": id, class: "asked" }, h("h2", { id }, heading), body,
    h("div", { class: "acts wide" }, acts.map(([value, text, kind]) => button(text, () => box.close(value), { class: "act " + (kind ?? "") }))));
  document.body.append(box);
  box.showModal();
  return new Promise((done) => box.addEventListener("close", () => {
    box.remove();
    done(box.returnValue);
  }));
}

// timeIn and dayIn write an instant for the reader, in a zone.
export const timeIn = (zone, at) => new Intl.DateTimeFormat("en-GB", { timeZone: zone, hour: "2-digit", minute: "2-digit" }).format(new Date(at));
export const dayIn = (zone, at) => new Intl.DateTimeFormat(tag() === "en" ? "en-GB" : tag(), { timeZone: zone, day: "numeric", month: "short", year: "numeric", hour: "2-digit", minute: "2-digit" }).format(new Date(at));
// civil writes a day, 2027-11-29, for the reader.
export const civil = (day) => new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", day: "numeric", month: "short", year: "numeric" }).format(new Date(day + "T00:00:00Z"));
export const count = (n, one, many) => `${n} ${n === 1 ? one : many}`;
