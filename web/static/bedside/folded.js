// What is folded away until somebody asks for it. The page is drawn anew whenever the
// office answers or does not: what was unfolded stays so.

import { h } from "./draw.js";

const unfolded = new Set();

// folded makes its inside only once it is wanted: there may be hundreds of lines.
export function folded(id, summary, inside) {
  const open = unfolded.has(id);
  const box = h("details", { id, open, ontoggle: () => {
    if (box.open) unfolded.add(id);
    else unfolded.delete(id);
    if (box.open && box.children.length === 1) box.append(inside());
  } }, h("summary", { id: "fold-" + id }, summary), open && inside());
  return box;
}
