// says reports whether a text says anything at all: whether there is a letter or
// figure in it that can be seen. The twin of assessment/says.go: a full stop or an
// invisible filler is no reason.

const seen = /[\p{L}\p{N}]/u;
const unseen = /\p{Default_Ignorable_Code_Point}/gu;

export const says = (text) => seen.test(text.replace(unseen, ""));
