package web

import (
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// What a new revision of a starter changes is said in the reader's language, whole steps that
// came too; what an agency wrote stands as it does, marked as being in another language (WCAG
// 2.2, success criterion 3.1.2).
func TestADifferenceIsSaidInTheLanguageOfTheReader(t *testing.T) {
	old, err := catalog.Get("suction")
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := catalog.Get("suction")
	if err != nil {
		t.Fatal(err)
	}
	steps := fresh.Sections[0].Steps
	added := steps[0]
	added.No, added.Because, added.Critical, added.Text = len(fresh.Steps())+1, "", false, "Say it twice."
	steps[0].Text = "Our own words."
	last := &fresh.Sections[len(fresh.Sections)-1]
	last.Steps = append(slices.Clone(last.Steps), added)
	fresh.Policy.Validity.Months++
	w := wording.In(wording.Spanish)
	var said []ChangeSaid
	for _, c := range assessment.Diff(old, fresh) {
		said = append(said, changeSaid(w, c))
	}
	if len(said) != 3 {
		t.Fatalf("%d differences, want 3: %+v", len(said), said)
	}
	policy, text, whole := said[0], said[1], said[2]
	if len(policy.After) != 1 || policy.After[0].Typed || policy.After[0].Text != w.Of(fresh.Policy.Phrases()[4]) || policy.After[0].Text == fresh.Policy.InWords()[4] {
		t.Errorf("a rule: %+v", policy)
	}
	first, _ := w.Theirs(old.Steps()[0].Text)
	if want := w.Of(phrase.Of("Step %d", 1)) + ": " + w.Say("text"); len(text.Where) != 1 || text.Where[0].Text != want {
		t.Errorf("where: %+v, want %q", text.Where, want)
	}
	if len(text.Before) != 1 || text.Before[0] != (wording.Piece{Text: first}) || len(text.After) != 1 || text.After[0] != (wording.Piece{Text: "Our own words.", Typed: true}) {
		t.Errorf("a text: %+v", text)
	}
	if whole.How != w.Say("added") || len(whole.Before) != 0 || len(whole.After) < 2 || whole.After[0] != (wording.Piece{Text: "Say it twice.", Typed: true}) || whole.After[1].Typed {
		t.Errorf("a step that came: %+v", whole)
	}
}
