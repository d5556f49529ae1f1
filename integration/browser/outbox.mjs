// Sends what waits in a device's outbox, by its module, to an office that answers as it is
// told. In comes {answers: {id: status}}, a sheet each; out goes what became of each:
// {id: state}. Of the browser's database there is only what the outbox asks of it.

let text = '';
for await (const part of process.stdin) text += part;
const { answers } = JSON.parse(text);
const ids = Object.keys(answers).sort();
const kept = new Map(ids.map((id, i) => [id, { id, turn: 1, state: 'finished', observer: { id: 'me' }, finished_at: `2026-03-0${i + 1}`, text: '{}' }]));

const done = (result) => {
  const request = {};
  setImmediate(() => request.onsuccess?.({ target: { result } }));
  return request;
};
const store = { getAll: () => done([...kept.values()]), put: (s) => done(kept.set(s.id, s)) };
const db = { transaction: () => {
  const t = { objectStore: () => store };
  setTimeout(() => t.oncomplete(), 5);
  return t;
} };
globalThis.indexedDB = { open: () => {
  const request = { result: db };
  setImmediate(() => request.onsuccess());
  return request;
} };
globalThis.navigator ??= {}; // Node before 21 has none
globalThis.fetch = async (path) => {
  const id = path.split('/').at(-1);
  const body = answers[id] < 300 ? { demonstration: { id } } : { detail: 'no' };
  return new Response(JSON.stringify(body), { status: answers[id] });
};

const { drain } = await import('../../web/static/bedside/outbox.js');
await drain({ session: { person: { id: 'me' } }, others() {} });
console.log(JSON.stringify(Object.fromEntries([...kept].map(([id, s]) => [id, s.state]))));
