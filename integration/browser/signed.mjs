// Does what a device does, by the modules of the bedside and Node's WebCrypto: makes a
// key and ids, signs texts, and fills a sheet in from a pack.
// In comes {now, texts, pack?, learner, skill, client, marks: [{step, mark, readings}]};
// out goes {key, ids, signatures, sheet?: {id, text, signature}}.

import "./oldest-node.mjs";
import { id, sign } from "../../web/static/bedside/device.js";
import { begin, drew, give, read, talked } from "../../web/static/bedside/filling.js";
import { clientOf, learnerOf, skillOf } from "../../web/static/bedside/pack.js";
import { textOf } from "../../web/static/bedside/text.js";

async function given() {
  let text = "";
  for await (const part of process.stdin) text += part;
  return JSON.parse(text);
}

const asked = await given();
const pair = await crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, false, ["sign", "verify"]);
const half = await crypto.subtle.exportKey("spki", pair.publicKey);
const signatures = [];
for (const text of asked.texts) signatures.push(await sign({ pair }, text));
console.log(JSON.stringify({ key: Buffer.from(half).toString("base64url"), ids: asked.texts.map(() => id(asked.now)), signatures, sheet: asked.pack && await filled(asked) }));

async function filled({ now, pack, learner, skill, client, marks }) {
  const at = (ms) => new Date(now + ms).toISOString();
  let sheet = begin(id(now), pack, { learner: learnerOf(pack, learner), skill: skillOf(pack, skill), client: clientOf(pack, client), place: "at home", real: true, formal: true }, at(0));
  marks.forEach((m, i) => {
    sheet = give(sheet, m.step, m.mark, at((i + 1) * 10_000));
    for (const [name, reading] of Object.entries(m.readings ?? {})) sheet = read(sheet, m.step, name, reading, at((i + 1) * 10_000));
  });
  sheet = drew(talked(sheet, { note: "Calm. “Good” & <clear>.", practise: "" }), [[1, 2, 3, 4]]);
  sheet = { ...sheet, finished_at: at((marks.length + 1) * 10_000) };
  const text = textOf(sheet);
  return { id: sheet.id, text, signature: await sign({ pair }, text) };
}
