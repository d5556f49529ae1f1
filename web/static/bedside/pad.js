// The number pad for a reading, with the units that devices show it in and what is
// accepted for this child.

import { button, h, shape } from "./draw.js";
import { reads } from "./number.js";
import { saysOf } from "./ordered.js";
import { rangeFor } from "./ranges.js";
import { unitsLike, unitWords } from "./units.js";

// Units in which devices show one and the same thing. Times and lengths are left out:
// a wrong tap there would pass for a reading.
const offered = ["mmHg", "cmH2O", "kPa", "mL", "L", "mL/min", "L/min"];

export const unitsFor = (unit) => (offered.includes(unit) ? [unit, ...unitsLike(unit).filter((u) => u !== unit && offered.includes(u))] : [unit]);

// pad asks for a reading of a measure; it gives {value, unit}, null to take the reading
// away, or undefined where nothing is to change.
export function pad(sheet, no, measure, readings) {
  const stood = readings[measure.name];
  const unit0 = rangeFor(sheet.rules, sheet.parameters, no, measure.name, readings).unit;
  let unit = stood?.unit ?? unit0;
  const field = h("input", { id: "reading", type: "text", inputmode: matchMedia("(pointer: coarse)").matches ? "none" : "decimal", autocomplete: "off", value: stood?.value ?? "", "aria-describedby": "accepts", autofocus: true });
  const accepts = h("p", { id: "accepts", class: "accepts", "aria-live": "polite" });
  const value = () => field.value.trim().replace(",", ".").replace("−", "-");
  const judge = () => {
    const given = reads(value()) ? { [measure.name]: { value: value(), unit } } : {};
    const { [measure.name]: _, ...others } = readings;
    const { words, missing, outside } = rangeFor(sheet.rules, sheet.parameters, no, measure.name, { ...others, ...given });
    accepts.replaceChildren(h("b", {}, missing ? `not known: ${saysOf(sheet.checklist, missing)}` : words || "depends on another value of this step"), sheet.client ? ` for ${sheet.client.first_name}` : "",
      ...(outside ? [h("br"), h("b", { class: "out" }, shape("fault"), " Out of range: it counts as not met.")] : []));
  };
  field.addEventListener("input", judge);
  judge();
  const put = (key) => { field.value = key === "⌫" ? field.value.slice(0, -1) : key === "±" ? (value().startsWith("-") ? value().slice(1) : "-" + value()) : field.value + key; judge(); };
  return shown(measure, { field, accepts, value, stood, put }, unitBox(unit0, unit, (u) => { unit = u; judge(); }), () => unit);
}

function unitBox(own, chosen, onchange) {
  const list = unitsFor(own);
  if (list.length === 1) return h("p", { class: "unit" }, unitWords(own));
  return h("fieldset", { class: "choices units" }, h("legend", { class: "vh" }, "Unit"), list.map((u) => h("label", { class: "choice" },
    h("input", { type: "radio", name: "unit", value: u, checked: u === chosen, onchange: () => onchange(u) }), h("span", {}, unitWords(u)))));
}

const names = { "⌫": "Delete the last digit", "±": "Plus or minus", ".": "Decimal point" };

function shown(measure, { field, accepts, value, stood, put }, units, unit) {
  const keys = ["1", "2", "3", "4", "5", "6", "7", "8", "9", measure.magnitude ? "±" : "", "0", ".", "⌫"].filter(Boolean);
  const fault = h("p", { role: "alert", class: "fault" });
  let given;
  const box = h("dialog", { class: "asked pad", "aria-labelledby": "pad-name" });
  const keep = () => {
    if (!reads(value())) {
      fault.replaceChildren(shape("fault"), " ", value() ? `“${value()}” is not a number: tap digits such as 14.9.` : "Tap the digits first.");
      field.focus();
      return;
    }
    given = { value: value(), unit: unit() };
    box.close();
  };
  box.append(h("h2", { id: "pad-name" }, h("label", { for: "reading" }, measure.name)), accepts, fault,
    h("form", { onsubmit: (e) => { e.preventDefault(); keep(); } }, h("div", { class: "shown" }, field, units),
      h("div", { class: "keys" + (measure.magnitude ? " signed" : "") }, keys.map((k) => button(k, () => put(k), { class: "key", "aria-label": names[k] ?? null })))),
    h("div", { class: "acts wide" }, button("Keep the value", keep, { class: "act main" }), stood && button("Take it away", () => { given = null; box.close(); }), button("Leave it", () => box.close())));
  document.body.append(box);
  box.showModal();
  return new Promise((done) => box.addEventListener("close", () => { box.remove(); done(given); }));
}
