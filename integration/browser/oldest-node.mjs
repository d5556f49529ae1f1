// Modules of the bedside run in Node without a browser. The oldest Node.js that they are
// run by has no navigator, and they must not need one: a newer one's is taken away.

delete globalThis.navigator;
