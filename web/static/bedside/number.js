// Exact rationals, the twin of assessment/number.go: nothing that is read off a
// gauge is ever rounded. A number is a frozen {n, d}, reduced, with d above 0.

// The same texts as the office takes: parts of at most 12 digits.
const form = /^-?[0-9]{1,12}(\.[0-9]{1,12}|\/[0-9]{1,12})?$/;

const size = (n) => (n < 0n ? -n : n);

function common(a, b) {
  while (b) [a, b] = [b, a % b];
  return a;
}

function ratio(n, d) {
  const by = common(size(n), size(d)) * (d < 0n ? -1n : 1n);
  return Object.freeze({ n: n / by, d: d / by });
}

// parse reads a decimal ("14.9", "-13.3") or a fraction ("1/2") exactly; it throws
// on anything else.
export function parse(text) {
  if (typeof text !== "string" || !form.test(text)) {
    throw new Error(`"${text}" is not a number: write digits such as 14.9 or 1/2`);
  }
  if (text.includes("/")) {
    const [n, d] = text.split("/").map(BigInt);
    if (d === 0n) throw new Error(`"${text}" divides by zero`);
    return ratio(n, d);
  }
  const [whole, places = ""] = text.split(".");
  return ratio(BigInt(whole + places), 10n ** BigInt(places.length));
}

// reads reports whether a text is a number.
export function reads(text) {
  try {
    parse(text);
    return true;
  } catch {
    return false;
  }
}

export const whole = (i) => ratio(BigInt(i), 1n);
export const zero = whole(0);
export const plus = (a, b) => ratio(a.n * b.d + b.n * a.d, a.d * b.d);
export const minus = (a, b) => ratio(a.n * b.d - b.n * a.d, a.d * b.d);
export const times = (a, b) => ratio(a.n * b.n, a.d * b.d);
export const abs = (a) => ratio(size(a.n), a.d);

// over is a ÷ b; b must not be 0.
export function over(a, b) {
  if (b.n === 0n) throw new Error("a number was divided by zero");
  return ratio(a.n * b.d, a.d * b.n);
}

// compare is -1, 0 or 1 as a is less than, equal to or greater than b.
export function compare(a, b) {
  const left = a.n * b.d;
  const right = b.n * a.d;
  return left < right ? -1 : left > right ? 1 : 0;
}

// fraction is a reduced fraction, or an integer: "7/8", "1".
export const fraction = (a) => (a.d === 1n ? `${a.n}` : `${a.n}/${a.d}`);

// write is the shortest exact form: a finite decimal where there is one of at
// most 12 places, else a fraction.
export function write(a) {
  const places = decimals(a.d);
  if (places === null || places > 12) return fraction(a);
  if (places === 0) return `${a.n}`;
  const digits = `${(size(a.n) * 10n ** BigInt(places)) / a.d}`.padStart(places + 1, "0");
  return `${a.n < 0n ? "-" : ""}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}

// decimals is how many places a denominator needs, null where none are enough.
function decimals(d) {
  let twos = 0;
  let fives = 0;
  for (; d % 2n === 0n; d /= 2n) twos++;
  for (; d % 5n === 0n; d /= 5n) fives++;
  return d === 1n ? Math.max(twos, fives) : null;
}

// percent is a × 100 cut, never rounded up, to one decimal, so that no shown
// figure reaches a mark that the exact one missed.
export const percent = (a) => write(ratio((a.n * 1000n) / a.d, 10n));

// inward rounds to three decimals, up for side 1 and down for side -1.
export function inward(a, side) {
  const up = BigInt(side);
  const turned = -up * a.n * 1000n;
  let floor = turned / a.d;
  if (turned < 0n && turned % a.d !== 0n) floor -= 1n;
  return ratio(-up * floor, 1000n);
}
