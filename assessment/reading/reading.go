// Package reading measures how hard a text is to read, by formulas that count words,
// sentences and syllables. It is a rough measure: the counts are made by rules, and no
// formula knows whether a sentence is clear.
package reading

// Counts are what the formulas go by.
type Counts struct {
	Words, Sentences, Syllables int
}

// Add puts two counts together.
func (c Counts) Add(d Counts) Counts {
	return Counts{c.Words + d.Words, c.Sentences + d.Sentences, c.Syllables + d.Syllables}
}

func (c Counts) rates() (perSentence, perWord float64, ok bool) {
	if c.Words < 1 || c.Sentences < 1 {
		return 0, 0, false
	}
	return float64(c.Words) / float64(c.Sentences), float64(c.Syllables) / float64(c.Words), true
}

// FleschEase is the reading ease of an English text, from 121.22 for the easiest down;
// false where there is nothing to read. Flesch, J Appl Psychol 1948;32:221-233.
func (c Counts) FleschEase() (float64, bool) {
	perSentence, perWord, ok := c.rates()
	if !ok {
		return 0, false
	}
	return 206.835 - 1.015*perSentence - 84.6*perWord, true
}

// FleschKincaidGrade is the year of school in the United States in which an English
// text can be read; false where there is nothing to read. Kincaid and others, Research
// Branch Report 8-75, Naval Technical Training Command, 1975.
func (c Counts) FleschKincaidGrade() (float64, bool) {
	perSentence, perWord, ok := c.rates()
	if !ok {
		return 0, false
	}
	return 0.39*perSentence + 11.8*perWord - 15.59, true
}

// FernandezHuertaEase is the reading ease of a Spanish text; false where there is
// nothing to read. Fernández Huerta, Consigna 1959;214:29-32, with the number of words
// a sentence as the formula is usually corrected (from memory).
func (c Counts) FernandezHuertaEase() (float64, bool) {
	perSentence, perWord, ok := c.rates()
	if !ok {
		return 0, false
	}
	return 206.84 - 60*perWord - 1.02*perSentence, true
}

// bands are the years of school that Fernández Huerta gives for an ease of at least so
// much (from memory); what is harder is beyond school.
var bands = []struct {
	ease  float64
	grade int
}{{90, 4}, {80, 5}, {70, 6}, {60, 8}, {50, 12}}

// SpanishGrade is the last year of school of the band of a Spanish ease: 4, 5, 6, 8 or 12,
// and 13 beyond these.
func SpanishGrade(ease float64) int {
	for _, b := range bands {
		if ease >= b.ease {
			return b.grade
		}
	}
	return 13
}

// Aim is the highest year of school that a text for families may ask for. Health
// bodies advise grade 6 to 8 (from memory: National Institutes of Health, American
// Medical Association).
const Aim = 8

// Level is how hard a text is, in the language it is in.
type Level struct {
	Language string // en or es
	Counts   Counts
	Ease     float64
	Grade    float64 // Spanish: the last year of its band
	Hardest  string  // the sentence that reads hardest, to begin with
}

// Known reports whether there was anything to measure.
func (l Level) Known() bool { return l.Counts.Words > 0 }

// Within reports whether families can be expected to read it. What cannot be measured
// is not.
func (l Level) Within() bool { return l.Known() && l.Grade <= Aim }

// Measure measures passages of a text, each a paragraph, a heading or an item of a list,
// and so at least a sentence. Spanish is never measured by a formula for English.
func Measure(language string, passages ...string) Level {
	l := Level{Language: language}
	worst := 0.0
	for _, p := range passages {
		for _, s := range sentences(p) {
			c := count(language, s)
			if c.Words == 0 {
				continue
			}
			l.Counts = l.Counts.Add(c)
			if g := hardness(language, c); l.Hardest == "" || g > worst {
				worst, l.Hardest = g, s
			}
		}
	}
	if language == "es" {
		l.Ease, _ = l.Counts.FernandezHuertaEase()
		l.Grade = float64(SpanishGrade(l.Ease))
		return l
	}
	l.Ease, _ = l.Counts.FleschEase()
	l.Grade, _ = l.Counts.FleschKincaidGrade()
	return l
}

// hardness orders sentences of one language, the hardest highest.
func hardness(language string, c Counts) float64 {
	if language == "es" {
		ease, _ := c.FernandezHuertaEase()
		return -ease
	}
	grade, _ := c.FleschKincaidGrade()
	return grade
}
