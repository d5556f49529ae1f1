package phrase_test

import (
	"testing"

	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

func TestInEnglish(t *testing.T) {
	day := civil.MustParse("2026-12-04")
	for _, c := range []struct {
		said phrase.Phrase
		want string
	}{
		{phrase.Phrase{}, ""},
		{phrase.Of("Not yet"), "Not yet"},
		{phrase.Of("100 %% of it"), "100 % of it"},
		{phrase.Of("%s on %s", "Ada", day), "Ada on 4 December 2026"},
		{phrase.Text("50 % Ada"), "50 % Ada"},
		{phrase.Count(1, "one thing is left", "%d things are left"), "one thing is left"},
		{phrase.Count(1, "one thing of %[2]s", "%d things of %s", "Ada"), "one thing of Ada"},
		{phrase.Count(0, "one thing is left", "%d things are left"), "0 things are left"},
		{phrase.Of("%s: %s", phrase.Count(2, "one", "%d of them"), phrase.List{"Ada", phrase.Text("Ben"), day}), "2 of them: Ada, Ben and 4 December 2026"},
	} {
		if got := c.said.String(); got != c.want {
			t.Errorf("%+v says %q, not %q", c.said, got, c.want)
		}
	}
}
