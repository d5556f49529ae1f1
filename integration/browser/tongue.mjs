// What the bedside's modules say in another language than English, without a browser. In
// comes {tongue, sheet, reasons, typed, choices}; out goes how each reason and each typed
// text reads, as [text, lang] where it is another language than the page's, and for each choice
// of a sheet and a pack which language is spoken.

import './oldest-node.mjs';

// A page that is made of what `h` of draw.js asks for, and no more.
const element = () => ({ lang: '', parts: [], setAttribute(name, value) { this[name] = value; }, append(...parts) { this.parts.push(...parts); } });
globalThis.document = { documentElement: {}, querySelector: () => ({}), createElement: element };

const { edition, speak, taken, tongueOf } = await import('../../web/static/bedside/tongue.js');
const { reasonSaid, typed } = await import('../../web/static/bedside/words.js');

let text = '';
for await (const part of process.stdin) text += part;
const { tongue, sheet, reasons, typed: words, choices } = JSON.parse(text);

const read = (e) => (typeof e === 'string' ? [e, ''] : Array.isArray(e) ? [read(e[0])[0], read(e.at(-1))[0]] : [e.parts.join(''), e.lang]);
speak({ ...tongue, edition });
const said = { reasons: reasons.map((r) => read(reasonSaid(sheet, r))), typed: words.map((w) => read(typed(w, sheet))), edition };
said.page = [document.documentElement.lang, document.documentElement.dir];
speak(null);
said.english = [document.documentElement.lang, ...reasons.map((r) => read(reasonSaid(sheet, r)))[0]];
const named = (t) => t && { theirs: {}, ...t, edition: t.edition || edition };
said.choices = choices.map(({ sheet: s, pack }) => tongueOf({ learner: { id: 'l' }, ...s, tongue: named(s.tongue) }, pack && { ...pack, tongues: pack.tongues?.map(named) })?.tag ?? 'en');
said.taken = taken({ learners: [{ id: 'l', language: tongue.tag }], tongues: [tongue] }, { id: 'l' }, { title: 'no title', checklist: { ...sheet.checklist, sections: sheet.checklist.sections.map((s) => ({ ...s, steps: s.steps.slice(0, 1) })) } }).theirs;
console.log(JSON.stringify(said));
