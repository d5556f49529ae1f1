package wording_test

import (
	"strings"
	"testing"
	"time"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"

	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// Every sentence in another language takes what its English text takes, and ends as it
// ends; what is counted has both forms that Spanish has (Unicode CLDR, plural rules: by
// the tables of golang.org/x/text, 1 is "one" and the numbers beside it are not).
func TestTranslationsTakeWhatTheirEnglishTakes(t *testing.T) {
	for _, l := range wording.Languages[1:] {
		for _, key := range wording.Keys(l) {
			one, other, _ := wording.Known(l, key)
			if other == "" {
				t.Errorf("%s: %q says nothing", l, key)
			}
			if d := wording.Differs(key, other, false); d != "" {
				t.Errorf("%s: %s", l, d)
			}
			if one == "" {
				continue
			}
			if d := wording.Differs(key, one, true); d != "" {
				t.Errorf("%s: for one, %s", l, d)
			}
		}
	}
	for n, want := range map[int]plural.Form{0: plural.Other, 1: plural.One, 2: plural.Other, 11: plural.Other, 21: plural.Other} {
		if got := plural.Cardinal.MatchPlural(language.Spanish, n, 0, 0, 0, 0); got != want {
			t.Errorf("%d is of the form %v in Spanish", n, got)
		}
	}
}

func TestAPlaceThatIsMissingIsFound(t *testing.T) {
	for _, c := range []struct {
		english, translated string
		forOne, agrees      bool
	}{
		{"%s on %s", "%s el %s", false, true},
		{"%s on %s", "%[2]s: %[1]s", false, true},
		{"%s on %s", "el %s", false, false},
		{"%s on %s", "%s el %d", false, false},
		{"%d things", "una cosa", true, true},
		{"%d things", "cosas", false, false},
		{"%d things of %s", "una cosa de %[2]s", true, true},
		{"%d things of %s", "una cosa", true, false},
		{"%d %%", "%d %%", false, true},
	} {
		if got := wording.Differs(c.english, c.translated, c.forOne); (got == "") != c.agrees {
			t.Errorf("%q and %q: %q", c.english, c.translated, got)
		}
	}
}

// RFC 9110, section 12.5.4, with its own examples of weights.
func TestTheLanguageThatABrowserPrefers(t *testing.T) {
	for accepts, want := range map[string]wording.Language{
		"": wording.English, "es": wording.Spanish, "es-MX,es;q=0.9,en;q=0.8": wording.Spanish, "da, en-gb;q=0.8, en;q=0.7": wording.English,
		"en;q=0.3, es;q=0.7": wording.Spanish, "zh": wording.English, "*": wording.English, ";;;": wording.English, "fr, es;q=0.1": wording.Spanish,
	} {
		if got := wording.Preferred(accepts); got != want {
			t.Errorf("%q prefers %s, not %s", accepts, got, want)
		}
	}
	for tag, want := range map[string]wording.Language{"es": wording.Spanish, "ES-ar": wording.Spanish, "en": wording.English, "": wording.English, "x": wording.English, "est": wording.English} {
		if got := wording.Of(tag); got != want {
			t.Errorf("%q is %s", tag, got)
		}
	}
}

// The Spanish names and order of dates are those of the Unicode CLDR (from memory).
func TestDays(t *testing.T) {
	d, es, en := civil.MustParse("2026-12-04"), wording.In(wording.Spanish), wording.In(wording.English)
	for _, c := range [][2]string{
		{es.Day(d), "4 de diciembre de 2026"}, {en.Day(d), "4 December 2026"}, {es.Weekday(d), "viernes 4 de diciembre"}, {en.Weekday(d), "Friday 4 December"},
		{es.ShortDay(d), "4 dic 2026"}, {en.ShortDay(d), "4 Dec 2026"}, {es.Day(civil.Date{}), ""}, {es.ShortDay(civil.Date{}), ""}, {es.Weekday(civil.Date{}), ""},
		{es.Instant(time.Date(2026, 12, 4, 8, 5, 0, 0, time.UTC), time.FixedZone("", -3*3600)), "4 dic 2026, 05:05 UTC-03:00"},
	} {
		if c[0] != c[1] {
			t.Errorf("%q, not %q", c[0], c[1])
		}
	}
}

// «y» becomes «e» before the sound of i: Real Academia Española, Ortografía (from
// memory), with its examples of hiato and hielo.
func TestLists(t *testing.T) {
	es, en := wording.In(wording.Spanish), wording.In(wording.English)
	for _, c := range []struct {
		words   []string
		spanish string
	}{
		{nil, ""}, {[]string{"Ana"}, "Ana"}, {[]string{"Ana", "Luis"}, "Ana y Luis"}, {[]string{"Ana", "Luis", "Inés"}, "Ana, Luis e Inés"},
		{[]string{"agua", "hielo"}, "agua y hielo"}, {[]string{"aguja", "hilo"}, "aguja e hilo"}, {[]string{"Ana", "Íñigo"}, "Ana e Íñigo"},
	} {
		if got := es.List(c.words); got != c.spanish {
			t.Errorf("%v: %q", c.words, got)
		}
	}
	if got := en.List([]string{"Ada", "Ben", "Ines"}); got != "Ada, Ben and Ines" {
		t.Errorf("in English: %q", got)
	}
}

func TestWhatHasNoTranslationIsSaidInEnglish(t *testing.T) {
	for _, l := range wording.Languages {
		w := wording.In(l)
		if got := w.Of(phrase.Text("Mira & 7 %")); got != "Mira & 7 %" {
			t.Errorf("%s: a name became %q", l, got)
		}
		if got := w.Say("No such sentence, %s.", "Mira"); got != "No such sentence, Mira." {
			t.Errorf("%s: %q", l, got)
		}
		if got := w.Of(phrase.Phrase{}); got != "" {
			t.Errorf("%s: nothing became %q", l, got)
		}
		if w.Dir() != "ltr" || w.Language() != l {
			t.Errorf("%s runs %s", l, w.Dir())
		}
	}
}

// What an agency took over from a starter is said in the language, also within a
// sentence; what it wrote itself stands as it is, and is known not to be.
func TestWhatAnAgencyCallsItsOwn(t *testing.T) {
	es, en := wording.In(wording.Spanish), wording.In(wording.English)
	if said, ok := es.Theirs("Tracheostomy suctioning"); !ok || said == "Tracheostomy suctioning" {
		t.Errorf("the starter is called %q, %v", said, ok)
	}
	if said := es.Of(phrase.Of("%s and %s", "Tracheostomy suctioning", phrase.Text("Go-bag and emergency bag check"))); strings.Contains(said, "suction") || strings.Contains(said, "bag") {
		t.Errorf("within a sentence: %q", said)
	}
	for _, own := range []string{"Our own suctioning", "you", "Not yet", ""} {
		if said, ok := es.Theirs(own); ok || said != own {
			t.Errorf("%q became %q, %v", own, said, ok)
		}
	}
	if said, ok := en.Theirs("Our own suctioning"); !ok || said != "Our own suctioning" {
		t.Errorf("in English: %q, %v", said, ok)
	}
}
