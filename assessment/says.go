package assessment

import "unicode"

// Says reports whether a text says anything at all: whether there is a letter or
// figure in it that can be seen. A full stop or an invisible filler is no reason.
func Says(text string) bool {
	for _, r := range text {
		if (unicode.IsLetter(r) || unicode.IsNumber(r)) && !unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r) {
			return true
		}
	}
	return false
}
