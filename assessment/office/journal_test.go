package office_test

import (
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Each change leaves its line in the journal: who, what, when; no words of theirs.
func TestTheJournalHasEveryChange(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	owner := asOwner(t, w)
	lines := func(do func()) []string {
		t.Helper()
		var before time.Time
		w.Pass(time.Hour)
		before = w.Now()
		do()
		rows, err := owner.Query(t.Context(), `select act || '/' || kind from journal where at >= $1 order by at, kind`, before)
		wantNone(t, err)
		return must(pgx.CollectRows(rows, pgx.RowTo[string]))(t)
	}
	var v office.DemonstrationView
	var draft office.RevisionView
	for _, c := range []struct {
		do   func()
		want string
	}{
		{func() { opened(t, w, nan, "humidifier", mira) }, "observe a demonstration/sheet"},
		{func() {
			wantNone(t, w.Office.Discard(t.Context(), edda, must(w.Office.Sheets(t.Context(), edda))(t)[0].ID))
		}, "observe a demonstration/sheet discarded"},
		{func() { v = w.Demonstrate(nan, "humidifier", mira) }, "observe a demonstration/sheet, observe a demonstration/demonstration, sign a record/signature observer, sign a record/certificate, sign a record/signature learner"},
		{func() { w.Sign(nan, v.ID, office.PartLearner) }, ""},
		{func() {
			wantNone(t, w.Office.Withdraw(t.Context(), edda, about(nan, "humidifier", mira), assessment.Reinstated, false))
		}, "withdraw a competency/withdrawal"},
		{func() {
			wantNone(t, w.Office.Reinstate(t.Context(), edda, withdrawal(t, w, nan, "humidifier", mira), "Seen.", ward.Proof))
		}, "reinstate a competency/reinstatement"},
		{func() {
			wantNone(t, w.Office.Waive(t.Context(), edda, about(nan, "humidifier", mira), "2026-02-01", "2026-02-02"))
		}, "waive a requirement/waiver"},
		{func() {
			wantNone(t, w.Office.CorrectDemonstration(t.Context(), edda, v.ID, "Wrong.", ward.Proof))
		}, "correct a record/correction"},
		{func() {
			wantNone(t, w.Office.Log(t.Context(), edda, office.LogForm{Person: nan.Person, Skill: "humidifier", Client: mira, Kind: assessment.PracticeEntry, On: "2026-02-01"}))
		}, "log teaching and practice/practice"},
		{func() { draft = must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t) }, "edit checklists/revision"},
		{func() {
			save(t, w, edda, draft, func(same string) string { return same })
		}, "edit checklists/revision"},
		{func() { wantNone(t, w.Office.DiscardDraft(t.Context(), edda, draft.ID)) }, "edit checklists/revision"},
		{func() { newRevision(t, w, "humidifier", policy("months: 9"), "2026-05-01") }, "put a checklist in force/proposal, edit checklists/revision, edit checklists/revision, put a checklist in force/revision"},
		{func() {
			wantNone(t, w.Office.Retire(t.Context(), edda, inForce(t, w, "humidifier"), ward.Proof))
		}, "put a checklist in force/revision"},
		{func() { w.Equip(mira, "humidifier", "cold bubbles") }, "edit children/equipment"},
	} {
		if got := strings.Join(lines(c.do), ", "); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
