// A browser that runs short of room may clear its database and leave the rest. So that
// this is noticed, which sheets were not sent is written down beside it, without names.

const place = "wellshown-bedside unsent";

const list = () => {
  try {
    return JSON.parse(localStorage.getItem(place) ?? "[]");
  } catch {
    return [];
  }
};

function write(entries) {
  try {
    localStorage.setItem(place, JSON.stringify(entries));
  } catch {
    // Without it only this notice is missing.
  }
}

// missing lists what was here and is not any more.
export const missing = (sheets) => list().filter((was) => !sheets.some((s) => s.id === was.id));

// remember writes down which sheets the office does not have yet, and still those that
// are missing.
export function remember(sheets) {
  const now = sheets.filter((s) => s.state !== "sent").map((s) => ({ id: s.id, title: s.skill.title, at: s.performed_at, marks: Object.keys(s.marks).length }));
  write([...missing(sheets), ...now]);
}

// forget is for what somebody threw away, or has read that it is gone.
export const forget = (id) => write(list().filter((was) => was.id !== id));
