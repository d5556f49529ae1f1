package reading

import "strings"

// spanishSyllables counts the vowels that make a syllable of their own. Two open vowels
// (a, e, o) are two syllables; a closed one (i, u) beside another vowel makes one with it,
// unless it bears the accent beside an open one, or both are the same; h between vowels
// changes nothing (Real Academia Española, Ortografía de la lengua española 2010, chapter
// II, diphthongs and hiatuses; from memory).
func spanishSyllables(word string) int {
	word = silentU.Replace(word)
	n, before := 0, rune(0) // the vowel right before, 0: none
	letters := []rune(word)
	for i, r := range letters {
		switch {
		case r == 'h' && before != 0:
			continue // as if it were not there
		case r == 'y' && (i == len(letters)-1):
			r = 'i'
		}
		if !strings.ContainsRune("aeiouáéíóúü", r) {
			before = 0
			continue
		}
		if before == 0 || hiatus(before, r) {
			n++
		}
		before = r
	}
	return n
}

// silentU takes out the u that is written after q and g and not spoken.
var silentU = strings.NewReplacer("que", "ke", "qué", "ké", "qui", "ki", "quí", "kí", "gue", "ge", "gué", "gé", "gui", "gi", "guí", "gí")

func hiatus(a, b rune) bool {
	switch {
	case open(a) && open(b):
		return true
	case open(a) || open(b):
		return accentedClosed(a) || accentedClosed(b)
	}
	return bare(a) == bare(b) // two closed vowels make one syllable unless they are the same
}

func open(r rune) bool { return strings.ContainsRune("aeoáéó", r) }

func accentedClosed(r rune) bool { return r == 'í' || r == 'ú' }

func bare(r rune) rune {
	switch r {
	case 'í':
		return 'i'
	case 'ú', 'ü':
		return 'u'
	}
	return r
}
