package wording_test

import (
	"slices"
	"testing"

	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// What somebody typed stands apart in what is said, at whatever depth, and all pieces
// together are what is said without them. Web Content Accessibility Guidelines 2.2, success
// criterion 3.1.2: the language of each passage can be determined.
func TestWhatWasTypedStandsApart(t *testing.T) {
	inner := phrase.Of("%s, %s", phrase.Of("not met"), phrase.Typed("hums\ufdd1 at \ufdd0night"))
	for _, c := range []struct {
		says phrase.Phrase
		want []wording.Piece
	}{
		{phrase.Of("not met"), []wording.Piece{{Text: "no cumplido"}}},
		{inner, []wording.Piece{{Text: "no cumplido, "}, {Text: "hums at night", Typed: true}}},
		{phrase.Of("Not met, %s.", phrase.Typed("hums")), []wording.Piece{{Text: "No se cumple: "}, {Text: "hums", Typed: true}, {Text: "."}}},
		{phrase.Of("Not met, %s.", phrase.Typed("")), []wording.Piece{{Text: "No se cumple: "}, {Text: "."}}},
		{phrase.Phrase{}, nil},
	} {
		got := wording.In(wording.Spanish).Pieces(c.says)
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: %+v, not %+v", c.says, got, c.want)
		}
	}
	if got := wording.In(wording.English).Pieces(phrase.Of("Not met, %s.", phrase.Typed("hums"))); len(got) != 3 || !got[1].Typed {
		t.Errorf("in English: %+v", got)
	}
}
