// Words that stand in more than one place, and short phrases to tap instead of typing.

import { civil } from "./draw.js";
import { saysOf } from "./ordered.js";

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

// spoken puts a child's values in place of the names in braces.
export function spoken(text, sheet) {
  const says = (name) => {
    const q = sheet.parameters[name];
    const list = sheet.checklist.parameters.find((p) => p.name === name);
    return sheet.words[name] ?? (q && [q.value, q.unit].filter(Boolean).join(" ")) ?? list?.says.split(",")[0] ?? name;
  };
  return text.replaceAll(/\{(\w+)\}/g, (_, name) => says(name));
}

// A child's code never stands alone on a line: the space before it does not break.
export const childName = (client) => (client ? `${client.first_name},\u00a0${client.code}` : "");
export const about = (sheet) => [sheet.learner.name, sheet.client && `for ${childName(sheet.client)}`, !sheet.real && "simulation", !sheet.formal && "practice"].filter(Boolean);

// endedAs is the sign beside an outcome; all others have that of what is open.
export const endedAs = { competent: "met", "stopped for safety": "stopped" };

// A day is told only where it says something: what was withdrawn holds through no day.
const until = { current: "holds through", due: "holds through", lapsed: "held through" };
export const stands = (s) => [s.word, s.through && until[s.word] && `${until[s.word]} ${civil(s.through)}`].filter(Boolean).join(", ");
