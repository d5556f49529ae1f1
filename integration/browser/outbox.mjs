// Sends what waits in a device's outbox, by its module, to an office that answers as it is
// told. In comes {answers: {id: status}, full: [id], csrf}: a sheet each, for which there is
// no room on the device any more, and the word of the session that is open now. Out goes
// what became of each on the device and that it said so: {states: {id: state}, asked: [id],
// full}. Of the browser's database there is only what the outbox asks of it.

import './oldest-node.mjs';

let text = '';
for await (const part of process.stdin) text += part;
const { answers, full, csrf } = JSON.parse(text);
const ids = Object.keys(answers).sort();
const kept = new Map(ids.map((id, i) => [id, { id, turn: 1, state: 'finished', observer: { id: 'me' }, finished_at: `2026-03-0${i + 1}`, text: '{}' }]));

const done = (result) => {
  const request = {};
  setImmediate(() => request.onsuccess?.({ target: { result } }));
  return request;
};
const put = (s) => {
  if (full?.includes(s.id)) throw new DOMException('no room', 'QuotaExceededError');
  return done(kept.set(s.id, s));
};
const db = { transaction: () => {
  const t = { objectStore: () => ({ getAll: () => done([...kept.values()]), put }), abort: () => { clearTimeout(t.ends); setImmediate(() => t.onabort()); } };
  t.ends = setTimeout(() => t.oncomplete(), 5);
  return t;
} };
globalThis.indexedDB = { open: () => {
  const request = { result: db };
  setImmediate(() => request.onsuccess());
  return request;
} };
const asked = [];
globalThis.fetch = async (path) => {
  if (path === '/bedside/session') return Response.json({ csrf, person: { id: 'me' } });
  const id = path.split('/').at(-1);
  asked.push(id);
  const body = answers[id] < 300 ? { demonstration: { id } } : { detail: 'no' };
  return new Response(JSON.stringify(body), { status: answers[id] });
};

const { Full } = await import('../../web/static/bedside/store.js');
const { drain } = await import('../../web/static/bedside/outbox.js');
const told = await drain({ session: { csrf: 'word', person: { id: 'me' } }, others() {} }).then(() => false, (fault) => fault instanceof Full);
console.log(JSON.stringify({ states: Object.fromEntries([...kept].map(([id, s]) => [id, s.state])), asked, full: told }));
