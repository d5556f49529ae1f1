// Making elements: no text is ever read as markup.

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

const shapes = {
  met: "M3 8.5l3.2 3.5L13 4.5", open: "M3 3h10v10H3z", fault: "M8 2l6.5 12h-13zM8 6.5v3.5M8 12v.1",
  stopped: "M5 1.5h6l3.5 3.5v6L11 14.5H5L1.5 11V5zM4 8h8", sent: "M8 13V3M4 7l4-4 4 4",
};

// shape draws one of the house's own signs; the words stand beside it.
export function shape(name) {
  const made = document.createElementNS(svg, "svg");
  made.setAttribute("class", "shape " + name);
  made.setAttribute("viewBox", "0 0 16 16");
  made.setAttribute("aria-hidden", "true");
  const path = document.createElementNS(svg, "path");
  path.setAttribute("d", shapes[name]);
  made.append(path);
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
export const dayIn = (zone, at) => new Intl.DateTimeFormat("en-GB", { timeZone: zone, day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" }).format(new Date(at));
// civil writes a day, 2027-11-29, for the reader.
export const civil = (day) => new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", day: "numeric", month: "short", year: "numeric" }).format(new Date(day + "T00:00:00Z"));
export const count = (n, one, many) => `${n} ${n === 1 ? one : many}`;
