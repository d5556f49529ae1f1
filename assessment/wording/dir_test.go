package wording

import (
	"testing"

	"golang.org/x/text/language"
)

// Arabic, Hebrew, Persian and Urdu run from right to left (Unicode CLDR, layout of
// locales).
func TestHowALanguageRuns(t *testing.T) {
	for tag, want := range map[string]string{"ar": "rtl", "he": "rtl", "fa": "rtl", "ur": "rtl", "es": "ltr", "en": "ltr", "vi": "ltr"} {
		if got := dir(language.Make(tag)); got != want {
			t.Errorf("%s runs %s", tag, got)
		}
	}
}
