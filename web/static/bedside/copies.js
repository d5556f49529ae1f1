// A second copy of every sheet that the office does not have, as a file of its own in
// the browser's private file system. A browser that is killed may find its database
// broken when it starts again and throw all of it away; the files are kept apart.

const folder = "bedside sheets";

const there = async () => {
  const root = await globalThis.navigator?.storage?.getDirectory?.();
  return root?.getDirectoryHandle(folder, { create: true });
};

let line = Promise.resolve(); // one after the other, so that no older copy is the last
const newest = new Map(); // by id, what is still to be copied

function inLine(act) {
  const done = line.then(act);
  line = done.catch(() => {});
  return done;
}

// copy writes a sheet beside the database, in its turn; of several that wait only the
// newest. A file is replaced whole or not at all.
export function copy(sheet) {
  newest.set(sheet.id, sheet);
  return inLine(async () => {
    const last = newest.get(sheet.id);
    newest.delete(sheet.id);
    if (last) await write(last);
  });
}

async function write(sheet) {
  const file = await (await there())?.getFileHandle(sheet.id + ".json", { create: true });
  if (!file?.createWritable) return; // the browser has the database only
  const to = await file.createWritable();
  await to.write(JSON.stringify(sheet));
  await to.close();
}

// drop takes the copy of a sheet away.
export function drop(id) {
  newest.delete(id);
  return inLine(async () => (await there())?.removeEntry(id + ".json"));
}

// copied lists the sheets that have one, by their ids.
export async function copied() {
  const ids = [];
  const dir = await there();
  if (!dir?.keys) return ids;
  for await (const name of dir.keys()) if (name.endsWith(".json")) ids.push(name.slice(0, -".json".length));
  return ids;
}

// copyOf reads the copy of a sheet. It throws where there is none, and where its file was
// never finished: then nothing of the sheet was ever shown as kept.
export async function copyOf(id) {
  const file = await (await there()).getFileHandle(id + ".json");
  return JSON.parse(await (await file.getFile()).text());
}
