// The language of whoever holds the device. The observer's own pages are English. What a
// learner is handed is in theirs, by the office's catalogues: they come with the pack, and
// a sheet takes along what it needs of them.

// edition names the texts that are said to learners. Words of another edition may lack
// some, and a page half in English is read by nobody: then all of it is English.
export const edition = "713401f3f421";

let spoken = null; // {tag, dir, says, theirs}; null: English

// taken is what a sheet of a learner takes along of a pack; nothing where they read English
// or what the pack does not know.
export function taken({ learners, tongues = [] }, { id }, { title, checklist }) {
  const all = tongues.find((t) => t.tag === learners.find((l) => l.id === id)?.language);
  if (!all) return undefined;
  const steps = checklist.sections.flatMap((s) => s.steps);
  const own = new Set([title, ...steps.flatMap((s) => [s.text, ...s.measures.map((m) => m.name)]), ...checklist.parameters.map((p) => short(p.says))]);
  return { ...all, theirs: Object.fromEntries(Object.entries(all.theirs).filter(([text]) => own.has(text))) };
}

// tongueOf is the language in which the learner of a sheet reads: as the pack says now, or
// as one said from which the sheet was begun. null: English.
export function tongueOf(sheet, pack) {
  const tag = pack?.learners.find((l) => l.id === sheet.learner.id)?.language ?? sheet.tongue?.tag;
  const all = [sheet.tongue, ...(pack?.tongues ?? [])].filter((t) => t && t.tag === tag);
  const whole = all.find((t) => t.edition === edition);
  return whole ? { ...whole, theirs: Object.assign({}, ...all.map((t) => t.theirs)) } : null;
}

// speak has the page say what comes in a language, for screen readers too (WCAG 2.2, 3.1.1).
export function speak(tongue) {
  if (tongue === spoken) return;
  spoken = tongue;
  document.documentElement.lang = tag();
  document.documentElement.dir = tongue?.dir ?? "ltr";
  document.querySelector(".skip").textContent = says("Go to the content");
}

export const tag = () => spoken?.tag ?? "en";

// english is the attribute of what stands in English among another language.
export const english = () => ({ lang: spoken && "en" });

// filled puts what goes into a text at its places: %s and %d one after the other, %[2]s by
// number, %% for itself.
export function filled(format, args) {
  let next = 0;
  return format.replaceAll(/%(?:\[(\d+)\])?([sd%])/g, (_, at, kind) => (kind === "%" ? "%" : args[(next = at ? Number(at) : next + 1) - 1]));
}

// says says a text of the device by its English one.
export const says = (format, ...args) => filled(spoken?.says[format] ?? format, args);

// theirs is a text of a checklist in the language that is spoken; null where it is not known in it.
export const theirs = (text) => (spoken ? spoken.theirs[text] ?? null : text);

export const short = (words) => words.split(",")[0];
