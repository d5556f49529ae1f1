package reading

import (
	"regexp"
	"strings"
	"unicode"
)

// sentenceEnd is where a sentence ends: at a full stop, a question or exclamation mark
// or an ellipsis that space or the end follows. A decimal point is none.
var sentenceEnd = regexp.MustCompile(`[.!?…]+[)"”»’]*(\s+|$)`)

// sentences splits a passage. What has no end of its own is one.
func sentences(passage string) []string {
	var all []string
	for passage = strings.TrimSpace(passage); passage != ""; {
		at := sentenceEnd.FindStringIndex(passage)
		if at == nil {
			return append(all, passage)
		}
		all = append(all, strings.TrimSpace(passage[:at[1]]))
		passage = strings.TrimSpace(passage[at[1]:])
	}
	return all
}

// count counts one sentence.
func count(language, sentence string) Counts {
	c := Counts{Sentences: 1}
	for _, w := range words(sentence) {
		c.Words++
		c.Syllables += syllables(language, w)
	}
	if c.Words == 0 {
		return Counts{}
	}
	return c
}

// words are runs of letters, digits, apostrophes and points between digits. A hyphen
// parts words.
func words(sentence string) []string {
	runes := []rune(sentence)
	in := func(i int) bool {
		r := runes[i]
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r):
			return true
		case r == '\'' || r == '’':
			return i > 0 && i+1 < len(runes) && unicode.IsLetter(runes[i-1]) && unicode.IsLetter(runes[i+1])
		case r == '.' || r == ',':
			return i > 0 && i+1 < len(runes) && unicode.IsDigit(runes[i-1]) && unicode.IsDigit(runes[i+1])
		}
		return false
	}
	var all []string
	for i := 0; i < len(runes); {
		if !in(i) {
			i++
			continue
		}
		from := i
		for i < len(runes) && in(i) {
			i++
		}
		all = append(all, string(runes[from:i]))
	}
	return all
}

// syllables counts those of a word. Figures and abbreviations in capitals count as one,
// as Flesch has it.
func syllables(language, word string) int {
	if strings.ContainsFunc(word, unicode.IsDigit) || len(word) > 1 && len(word) < 6 && strings.ToUpper(word) == word {
		return 1
	}
	if language == "es" {
		return max(1, spanishSyllables(strings.ToLower(word)))
	}
	return max(1, englishSyllables(strings.ToLower(word)))
}
