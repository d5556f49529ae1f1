// Where pictures go, and at which sizes they are taken.

import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';

export const sizes = [{ width: 360, height: 640 }, { width: 820, height: 1180 }, { width: 1280, height: 800 }];

// emptied is a folder without the pictures of before.
export function emptied(folder) {
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder)) if (name.endsWith('.png')) rmSync(`${folder}/${name}`);
}

// drawn waits until what a page shows now has been drawn.
export const drawn = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

// sheet is a page with all pictures of a folder, by name.
export function sheet(folder) {
  const pictures = readdirSync(folder).filter((name) => name.endsWith('.png')).sort();
  writeFileSync(`${folder}/index.html`, `<!DOCTYPE html><meta charset="utf-8"><title>${pictures.length} pictures</title>
<style>body { font: 14px sans-serif } figure { display: inline-block; vertical-align: top; margin: 4px; width: 240px } img { width: 100% }</style>
${pictures.map((name) => `<figure><a href="${name}"><img loading="lazy" src="${name}" alt=""></a><figcaption>${name}</figcaption></figure>`).join('\n')}\n`);
  return pictures.length;
}
