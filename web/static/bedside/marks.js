// The marks, best first: the twin of assessment/mark.go. Not applicable is no mark.

export const marks = Object.freeze(["independent", "cued", "assisted", "not met", "unsafe"]);

// isMark reports whether a word is one of the five marks.
export const isMark = (word) => marks.includes(word);

// atLeast reports whether a mark is as good as another or better.
export const atLeast = (mark, least) => marks.indexOf(mark) <= marks.indexOf(least);
