// Throwing a sheet away that nobody else has: only after it was said what it holds.

import { dialog, h, say } from "./draw.js";
import { forget } from "./remember.js";
import { state } from "./state.js";
import { removeSheet } from "./store.js";
import { about } from "./words.js";

// throwAway reports whether the sheet is gone.
export async function throwAway(sheet) {
  const sure = await dialog("Throw this sheet away?", h("p", {}, `${sheet.skill.title}, ${about(sheet).join(", ")}. Nobody else has it: its marks are gone for good.`), [["yes", "Throw it away", "alarm"], ["", "Keep it"]]);
  if (sure !== "yes") return false;
  if (!(await removeSheet(sheet.id, sheet.turn))) { // what was asked about is not what would go
    say("It was changed in another tab meanwhile, so it was kept.");
    return false;
  }
  forget(sheet.id);
  await state.read();
  state.others();
  state.tell();
  return true;
}
