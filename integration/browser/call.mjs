// Calls functions of the bedside's modules. In comes a list of {module, name, args}; out
// goes what each gave, in order.

import './oldest-node.mjs';

let text = '';
for await (const part of process.stdin) text += part;
const gave = [];
for (const { module, name, args } of JSON.parse(text)) {
  const all = await import(`../../web/static/bedside/${module}.js`);
  gave.push(all[name](...args));
}
console.log(JSON.stringify(gave));
