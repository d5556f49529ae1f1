// What a checklist judges by and somebody has to have ordered: without it a sheet could be
// begun and never be finished.

const named = (bound) => (bound ? [bound.parameter, bound.plus, bound.minus] : []);

// lacking says, in the checklist's words, which values it judges by that have no default
// and that a child's record lacks, as the office does before it opens a sheet; client is
// null for no child.
export function lacking({ rules, checklist }, client) {
  const judges = new Set(rules.steps.flatMap((s) => s.measures.flatMap((m) => [...named(m.low), ...named(m.high)])));
  const has = (name) => client?.parameters?.[name] || client?.words?.[name];
  return rules.parameters.filter((p) => judges.has(p.name) && p.unit && !p.default && !has(p.name)).map((p) => saysOf(checklist, p.name));
}

// saysOf is what a value is called where people read it.
export const saysOf = (checklist, name) => checklist.parameters.find((p) => p.name === name)?.says ?? name;
