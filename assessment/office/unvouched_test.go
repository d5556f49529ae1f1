package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Whoever may vouch is told who waits for it; whoever waits is told on their first page.
func TestWhoWaitsForAVouchIsTold(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	rosa := w.Client("4B", "Rosa")
	mother, leaver, edda := w.Family("Ilse Brandt", rosa), w.Nurse("Per Olsen"), w.Educators[0]
	coordinators := func(by assessment.Actor) []office.UnvouchedView {
		t.Helper()
		return must(w.Office.CoordinatorDesk(t.Context(), by))(t).Unvouched
	}
	educators := func() []office.UnvouchedView {
		t.Helper()
		return must(w.Office.EducatorDesk(t.Context(), edda))(t).Unvouched
	}
	if n := len(coordinators(w.Coordinator)) + len(educators()); n != 0 { // those invited can sign
		t.Errorf("%d wait before anything happened", n)
	}
	w.Pass(time.Hour)
	w.Take(w.Link(w.Admin, mother), "a heron by the weir")
	w.Take(w.Link(w.Admin, leaver), "a heron by the mill")
	w.Take(w.Link(w.Admin, w.Unseeing("Halina Wren")), "a heron by the lock") // a surveyor signs nothing
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, leaver.Person, w.Today()))

	want := office.UnvouchedView{Person: office.PersonRef{ID: mother.Person, Name: mother.Name}, Issuer: w.Admin.Name, May: true}
	for whose, got := range map[string][]office.UnvouchedView{"coordinator": coordinators(w.Coordinator), "educator": educators()} {
		if len(got) != 1 || got[0] != want {
			t.Errorf("the %s is told of %+v, want %+v", whose, got, want)
		}
	}
	if want.May = false; len(coordinators(w.Admin)) != 1 || coordinators(w.Admin)[0] != want {
		t.Errorf("who made the link is told %+v", coordinators(w.Admin))
	}
	if home := must(w.Office.FamilyDesk(t.Context(), mother))(t); home.Waits == "" {
		t.Error("the mother is not told on her first page")
	}
	wantNone(t, w.Office.Vouch(t.Context(), edda, mother.Person, ward.Proof))
	if n := len(coordinators(w.Coordinator)) + len(educators()); n != 0 {
		t.Errorf("%d wait after the vouch", n)
	}
	if home := must(w.Office.FamilyDesk(t.Context(), mother))(t); home.Waits != "" {
		t.Errorf("the mother is still told %q", home.Waits)
	}
}
