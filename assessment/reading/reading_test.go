package reading

import (
	"math"
	"testing"
)

// near allows for what printed values were rounded to.
func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

// The formulas on given counts. The first two are the ends of the scale that are
// published for one-syllable sentences (grade -3.40, ease 121.22); the cat and the
// platypus are the worked sentences of encyclopedias, printed as 116 and 37.5 (from
// memory), recomputed here; the rest is arithmetic.
func TestFormulasOnGivenCounts(t *testing.T) {
	for _, c := range []struct {
		counts      Counts
		ease, grade float64
	}{
		{Counts{1, 1, 1}, 121.220, -3.400},
		{Counts{6, 1, 6}, 116.145, -1.450},
		{Counts{13, 1, 24}, 37.455, 11.265},
		{Counts{13, 1, 26}, 24.44, 13.08},
		{Counts{120, 10, 150}, 88.905, 3.84},
		{Counts{100, 8, 130}, 84.168, 4.625},
	} {
		ease, ok := c.counts.FleschEase()
		grade, _ := c.counts.FleschKincaidGrade()
		if !ok || !near(ease, c.ease, .005) || !near(grade, c.grade, .005) {
			t.Errorf("%+v: ease %.3f and grade %.3f, not %.3f and %.3f", c.counts, ease, grade, c.ease, c.grade)
		}
	}
	// 206.84 - 60 × 200/100 - 1.02 × 100/5, by hand.
	if ease, ok := (Counts{100, 5, 200}).FernandezHuertaEase(); !ok || !near(ease, 66.44, .005) {
		t.Errorf("the ease in Spanish is %.3f", ease)
	}
	for _, none := range []Counts{{}, {0, 1, 0}, {5, 0, 5}} {
		_, a := none.FleschEase()
		_, b := none.FleschKincaidGrade()
		_, c := none.FernandezHuertaEase()
		if a || b || c {
			t.Errorf("%+v has a value", none)
		}
	}
}

// The counts that were printed with the values above, from the sentences themselves.
func TestCountsOfPublishedSentences(t *testing.T) {
	for _, c := range []struct {
		text string
		want Counts
	}{
		{"The cat sat on the mat.", Counts{6, 1, 6}},
		{"The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", Counts{13, 1, 26}},
	} {
		if got := Measure("en", c.text).Counts; got.Words != c.want.Words || got.Sentences != 1 || got.Syllables < c.want.Syllables-2 || got.Syllables > c.want.Syllables {
			t.Errorf("%q counts %+v", c.text, got)
		}
	}
}

// Syllables by the dictionary (from memory), the words those of our texts and the usual
// traps: silent endings, -ed, -es, -ia-, -io-, two vowels spoken apart.
func TestSyllablesOfEnglishWords(t *testing.T) {
	for word, want := range map[string]int{
		"tube": 1, "tubes": 1, "circuit": 2, "change": 1, "changed": 1, "changes": 2, "needed": 2, "closed": 1, "suction": 2, "suctioning": 3, "tracheostomy": 6,
		"ventilator": 4, "breathe": 1, "breathing": 2, "breath": 1, "child": 1, "children": 2, "child's": 1, "nurse's": 2, "emergency": 4, "humidifier": 5, "oximeter": 4,
		"manual": 3, "period": 3, "diary": 3, "action": 2, "special": 2, "people": 2, "every": 2, "someone": 2, "something": 2, "sometimes": 2, "anyone": 3, "careful": 2,
		"carefully": 3, "safely": 2, "movement": 2, "settled": 2, "assembled": 3, "pulled": 1, "handle": 2, "while": 1, "being": 2, "trying": 2, "client": 2, "patient": 2,
		"quiet": 2, "rescuer": 3, "guide": 1, "fluid": 2, "area": 3, "easier": 3, "didn't": 2, "can't": 1, "aren't": 1, "isn't": 2, "home": 1, "therefore": 2, "oxygen": 3,
		"battery": 3, "batteries": 3, "mucus": 2, "cannula": 3, "hygiene": 2, "the": 1, "a": 1, "video": 3, "rhythm": 2, "washes": 2, "boxes": 2, "pieces": 2, "catheter": 3,
	} {
		if got := syllables("en", word); got != want {
			t.Errorf("%s has %d syllables, counted %d", word, want, got)
		}
	}
}

// Syllables by the rules of the Real Academia Española (Ortografía de la lengua
// española, 2010: diphthongs, triphthongs, hiatuses; the examples from memory).
func TestSyllablesOfSpanishWords(t *testing.T) {
	for word, want := range map[string]int{
		"tubo": 2, "aire": 2, "país": 2, "aéreo": 4, "teatro": 3, "poeta": 3, "ahora": 3, "búho": 2, "ahí": 2, "prohibir": 2, "cuidado": 3, "ciudad": 2, "construir": 2,
		"buey": 1, "miau": 1, "averigüéis": 4, "limpiáis": 2, "guitarra": 3, "queso": 2, "pingüino": 3, "respiración": 4, "traqueostomía": 6, "aspiración": 4, "cánula": 3,
		"ventilador": 4, "niño": 2, "médico": 3, "vía": 2, "oxígeno": 4, "batería": 4, "y": 1, "muy": 1, "hoy": 1, "leer": 2, "chiita": 3, "emergencia": 4, "oído": 3, "raíz": 2,
		"humidificador": 6, "guía": 2, "aparato": 4, "línea": 3, "según": 2, "siguiente": 3, "ayuda": 3, "reúna": 3,
	} {
		if got := syllables("es", word); got != want {
			t.Errorf("%s has %d syllables, counted %d", word, want, got)
		}
	}
}

func TestSentences(t *testing.T) {
	for _, c := range []struct {
		text string
		want int
	}{
		{"", 0}, {"   ", 0}, {"...", 0}, {"Wash hands", 1}, {"Wash. Dry!", 2}, {"At 2.5 mm there is none.", 1}, {"Really?! Yes…", 2}, {"«¿Listo?» Sí.", 2},
	} {
		if got := Measure("es", c.text).Counts.Sentences; got != c.want {
			t.Errorf("%q has %d sentences, not %d", c.text, got, c.want)
		}
	}
}

func TestALevelNamesTheHardestSentence(t *testing.T) {
	const hard = "Nonrecording oximetry necessitates interdisciplinary communication regarding physiological deterioration."
	l := Measure("en", "Wash your hands.", hard, "Dry them.")
	if l.Hardest != hard || l.Within() || !l.Known() {
		t.Errorf("%+v", l)
	}
	if easy := Measure("en", "Wash your hands.", "Dry them."); !easy.Within() {
		t.Errorf("%+v", easy)
	}
	if none := Measure("en"); none.Known() || none.Within() {
		t.Errorf("nothing to read can be read: %+v", none)
	}
	// Spanish goes by its own formula and bands: a sentence of twelve long words.
	long := Measure("es", "La desconexión involuntaria imposibilita inmediatamente la ventilación adecuada del paciente traqueostomizado.")
	if long.Within() || long.Grade != 13 {
		t.Errorf("%+v", long)
	}
	if short := Measure("es", "Lave sus manos.", "Use jabón."); !short.Within() {
		t.Errorf("%+v", short)
	}
}

// The bands of Fernández Huerta (from memory).
func TestSpanishGrades(t *testing.T) {
	for ease, want := range map[float64]int{100: 4, 90: 4, 89.9: 5, 80: 5, 70: 6, 69.9: 8, 60: 8, 59.9: 12, 50: 12, 49.9: 13, -20: 13} {
		if got := SpanishGrade(ease); got != want {
			t.Errorf("an ease of %.1f is grade %d, not %d", ease, got, want)
		}
	}
}
