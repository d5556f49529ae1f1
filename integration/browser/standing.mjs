// Says where somebody stands by a pack and by what a device knows besides, by the module
// of the bedside. In comes a list of {pack, skill, sheets, now}; out goes a list of
// {word, through, since}.

import { standing } from '../../web/static/bedside/standing.js';

let text = '';
for await (const part of process.stdin) text += part;
console.log(JSON.stringify(JSON.parse(text).map(({ pack, skill, sheets, now }) => standing(pack, { id: 'nan' }, skill, sheets, Date.parse(now)))));
