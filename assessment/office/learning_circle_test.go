package office_test

import (
	"strings"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Skills that wait for each other could never be learnt: the checklist that would close the
// circle is refused, by titles, before anybody signs (the order of learning is common
// practice, no source).
func TestACircleOfPrerequisitesDoesNotComeInForce(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "suction")
	edda := w.Educators[0]
	suction, change := titleOf(t, w, "suction"), titleOf(t, w, "tube-change")
	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "suction")))(t)
	draft = save(t, w, edda, draft, func(source string) string { return prerequisite(source, "tube-change") })
	_, err := ward.Propose(t.Context(), w.Office, edda, office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read against the orders.", Proof: ward.Proof})
	wantRefusal(t, err, fault.Refused, suction+" comes before ")
	wantRefusal(t, err, fault.Refused, "which comes before "+change+", which comes before "+suction+". None of them can be learnt first")
}

// prerequisite has a checklist ask for a skill first.
func prerequisite(source, code string) string {
	return strings.Replace(source, "\nprerequisites:\n", "\nprerequisites:\n  - "+code+"\n", 1)
}

func titleOf(t *testing.T, w *ward.Ward, code string) string {
	t.Helper()
	skills, _, err := w.Office.Skills(t.Context(), w.Educators[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range skills {
		if s.Code == code {
			return s.Title
		}
	}
	t.Fatalf("there is no %s", code)
	return ""
}
