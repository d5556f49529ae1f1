// Units and what they are of one another, the twin of assessment/unit.go.

import { over, parse, times } from "./number.js";

// Exact factors to one unit of each dimension. The pressures are those of NIST
// SP 811 appendix B.8: conventional millimetre of mercury 133.322 387 415 Pa and
// conventional centimetre of water 98.0665 Pa. Every other unit only equals itself.
const scales = new Map([
  ["mmHg", ["pressure", "133.322387415"]],
  ["cmH2O", ["pressure", "98.0665"]],
  ["kPa", ["pressure", "1000"]],
  ["Pa", ["pressure", "1"]],
  ["s", ["time", "1"]],
  ["min", ["time", "60"]],
  ["mm", ["length", "1"]],
  ["cm", ["length", "10"]],
  ["mL", ["volume", "1"]],
  ["L", ["volume", "1000"]],
  ["mL/min", ["flow", "1"]],
  ["L/min", ["flow", "1000"]],
].map(([unit, [dimension, factor]]) => [unit, { dimension, factor: parse(factor) }]));

// convert gives {value, unit} in another unit, exactly. Units of different kinds
// are refused.
export function convert(quantity, unit) {
  if (quantity.unit === unit) return quantity;
  const from = scales.get(quantity.unit);
  const to = scales.get(unit);
  if (!from || !to || from.dimension !== to.dimension) {
    throw new Error(`${unitName(quantity.unit)} cannot be turned into ${unitName(unit)}`);
  }
  return { value: over(times(quantity.value, from.factor), to.factor), unit };
}

// unitsLike lists what a reading whose range is in a unit may be typed in.
export function unitsLike(unit) {
  const scale = scales.get(unit);
  if (!scale) return [unit];
  return [...scales.keys()].filter((u) => scales.get(u).dimension === scale.dimension).sort();
}

// units lists by name the units that can be turned into others.
export const units = () => [...scales.keys()].sort();

export const unitName = (unit) => unit || "a number without unit";

const words = new Map([["degC", "°C"], ["1/min", "per minute"]]);

// unitWords shows a unit as people write it.
export const unitWords = (unit) => words.get(unit) ?? unit;
