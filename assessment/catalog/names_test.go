package catalog_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
)

// capitals are the words with a capital letter that may stand inside a
// sentence: abbreviations of the trade, and the publishers of sources. Any other
// would be a name, and names of makers and devices have no place in a checklist.
var capitals = map[string]bool{
	"HME": true, "CPR": true, "mmHg": true, "US": true, "UK": true, "European": true,
	"WHO": true, "AARC": true, "ATS": true, "AHA": true, "SickKids": true, "AboutKidsHealth": true,
	"University": true, "Rochester": true, "National": true, "Tracheostomy": true, "Safety": true, "Project": true,
}

// Units, and a journal or an archive with its number, are no names.
var citation = regexp.MustCompile(`cmH2O|mg/L|°C|Hosp Pediatr 2021;11\(6\):571|PMC[0-9]+`)

var sentenceEnd = regexp.MustCompile(`[.?!:]\s+|[.?!]$|^"|\s"`)

func TestNoNamesOfMakersOrDevices(t *testing.T) {
	for _, c := range all(t) {
		for _, words := range wordsOf(c) {
			if strings.ContainsAny(words, "®™©") {
				t.Errorf("%s: a mark of a name in %q", c.Code, words)
			}
			for _, sentence := range sentenceEnd.Split(citation.ReplaceAllString(words, ""), -1) {
				for i, word := range strings.FieldsFunc(sentence, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' }) {
					first := []rune(word)[0]
					if i > 0 && unicode.IsUpper(first) && !capitals[word] {
						t.Errorf("%s: %q may be a name, in %q", c.Code, word, words)
					}
				}
			}
		}
	}
	for _, p := range catalog.Parameters() {
		if strings.ContainsAny(p.Says, "®™©") {
			t.Errorf("a mark of a name in %q", p.Says)
		}
	}
}

// wordsOf is all that a caregiver or an observer reads, sources apart.
func wordsOf(c assessment.Checklist) []string {
	words := append([]string{c.Purpose}, c.Safety...)
	words = append(words, c.Equipment...)
	for _, s := range c.Sections {
		words = append(words, s.Title)
		for _, step := range s.Steps {
			words = append(words, step.Text, step.Because, step.Note, step.MayNotApply)
			for _, m := range step.Measures {
				words = append(words, m.Name)
			}
		}
	}
	return words
}
