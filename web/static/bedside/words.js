// Words that stand in more than one place, and short phrases to tap instead of typing.

import { civil, h } from "./draw.js";
import { saysOf } from "./ordered.js";
import { reason } from "./outcome.js";
import { english, filled, says, short, tag, theirs } from "./tongue.js";

export const marks = [["independent", "Independent"], ["cued", "Cued"], ["assisted", "Assisted"], ["not met", "Not met"], ["unsafe", "Unsafe"]];
export const markWord = Object.fromEntries(marks);

// What each mark means; cued is help by word or gesture, assisted by showing or
// touching (common practice, no source).
export const markMeans = [
  ["Independent", "Done right, without any help."],
  ["Cued", "Done right after a word or a gesture."],
  ["Assisted", "Done with your hands, or after you showed it."],
  ["Not met", "Not done, or not done well enough."],
  ["Unsafe", "It could have hurt the child."],
];

export const notePhrases = ["Explained it in own words", "Corrected it without being told", "Hesitated, then went on", "Order of moves mixed up", "Needed the settings card", "Hands not clean before", "Watched the child throughout"];
export const stopPhrases = ["Saturation fell under the child’s limit", "The tube moved or came out", "The child was in distress", "No breaths were going in", "Equipment failed", "I took over and bagged", "The child is settled again"];
export const backPhrases = ["Tapped by mistake", "I had seen it wrong", "Tapped at the wrong step"];
export const talkPhrases = ["Went through each step that was not independent", "Showed the step once more", "Asked how it felt; heard the answer", "Agreed on a day to go on"];
export const places = ["At home", "Skills room", "Ward"];

export const kinds = { "said aloud": "Said aloud; the meaning counts, not the words.", timed: "Timed.", measured: "Read off and written down.", done: "" };

const openWhy = {
  mark: () => "has no mark", value: (of) => `needs its value: ${of}`, reason: () => "needs the reason why it does not apply",
  "not allowed": () => "always applies: it needs a mark", parameter: (of, list) => `cannot be judged: this is not in the pack: ${saysOf(list, of)}`,
};
export const whyOpen = ({ why, of }, { checklist }) => (openWhy[why] ?? (() => "is open"))(of, checklist);

// What a signature means, word for word as the office keeps it.
export const meanings = { learner: "I showed this and we talked it over.", observer: "I observed and judged this." };

// spoken puts a child's values in place of the names in braces; what is not ordered is
// called what it is, in words of the language of the text.
export function spoken(text, sheet, called = (words) => words) {
  const value = (name) => {
    const q = sheet.parameters[name];
    const list = sheet.checklist.parameters.find((p) => p.name === name);
    return sheet.words[name] ?? (q && [q.value, q.unit].filter(Boolean).join(" ")) ?? (list ? called(short(list.says)) : name);
  };
  return text.replaceAll(/\{(\w+)\}/g, (_, name) => value(name));
}

// own is a text of a checklist in the language that is spoken; where it is not known in it,
// as it stands and said to be English.
export const own = (text) => theirs(text) ?? h("span", english(), text);

const called = (words) => theirs(words) ?? words;

// reasonSaid says a reason of a sheet in the language that is spoken where all of it is
// known in it, else in English as a whole.
export function reasonSaid(sheet, why) {
  const [format, ...args] = reason(sheet.rules, why);
  const known = args.map((a) => (typeof a === "string" ? theirs(a) : a));
  if (known.includes(null)) return h("span", english(), spoken(filled(format, args), sheet));
  return spoken(says(format, ...known), sheet, called);
}

// typed is what an observer typed, as it stands. Where it is short phrases of ours and steps
// alone, it is said in the language that is spoken first.
export function typed(words, sheet) {
  const known = tag() !== "en" && phrased(words, sheet);
  return known ? [known, h("br"), h("span", { class: "soft", lang: "en" }, words)] : h("span", english(), words);
}

function phrased(words, sheet) {
  const steps = sheet.checklist.sections.flatMap((s) => s.steps).filter((s) => theirs(s.text));
  const all = [...[...stopPhrases, ...talkPhrases].map((p) => [p, says(p)]), ...steps.map((s) => [`Step ${s.no}: ${spoken(s.text, sheet)}`, says("Step %d: %s", s.no, spoken(theirs(s.text), sheet, called))])];
  const said = [];
  for (let rest = words + "; "; rest; ) {
    const next = all.find(([p]) => rest.startsWith(p + "; "));
    if (!next) return "";
    said.push(next[1]);
    rest = rest.slice(next[0].length + 2);
  }
  return said.join("; ");
}

// quoted is what somebody says, between the marks of the language that is spoken.
export const quoted = (words) => says("“%s”", words);

// A child's code never stands alone on a line: the space before it does not break.
export const childName = (client) => (client ? `${client.first_name},\u00a0${client.code}` : "");
export const about = (sheet) => [sheet.learner.name, sheet.client && says("for %s", childName(sheet.client)), !sheet.real && says("in simulation"), !sheet.formal && says("practice")].filter(Boolean);

// endedAs is the sign beside an outcome; all others have that of what is open.
export const endedAs = { competent: "met", "stopped for safety": "stopped" };

// A day is told only where it says something: what was withdrawn holds through no day.
const until = { current: "holds through", due: "holds through", lapsed: "held through" };
export const stands = (s) => [s.word, s.through && until[s.word] && `${until[s.word]} ${civil(s.through)}`].filter(Boolean).join(", ");
