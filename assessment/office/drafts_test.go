package office_test

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A clinician signs for what they read: a draft that somebody has saved since does
// not come in force under their statement.
func TestNobodySignsForADraftUnread(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda := w.Educators[0]
	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t)
	read := must(w.Office.BeforeForce(t.Context(), edda, draft.ID, "", ""))(t)
	if read.Version != draft.Version || len(read.Changes) != 0 {
		t.Errorf("the draft is %s, what is read of it %s with %v", draft.Version, read.Version, read.Changes)
	}
	saved := save(t, w, w.Admin, draft, policy("pass_mark: 1/100"))
	form := office.PutInForceForm{Revision: draft.ID, Statement: "Read every step.", Proof: ward.Proof}
	for _, version := range []string{read.Version, "", strings.ToUpper(saved.Version)} {
		form.Version = version
		_, err := w.Office.ProposeInForce(t.Context(), edda, form)
		wantRefusal(t, err, fault.Conflict, "Ada Minton has saved this draft since you read it")
	}
	now := must(w.Office.BeforeForce(t.Context(), edda, draft.ID, read.Source, ""))(t)
	if now.Version != saved.Version || len(now.Changes) != 1 || now.Changes[0].Where.String() != "Policy" {
		t.Errorf("what changed since it was read: %+v", now.Changes)
	}
	if unread := must(w.Office.BeforeForce(t.Context(), edda, draft.ID, "no: checklist", ""))(t); len(unread.Changes) != 0 {
		t.Errorf("from a text that is none: %+v", unread.Changes)
	}
	form.Version = now.Version
	must(ward.Propose(t.Context(), w.Office, edda, form))(t)
}

// Of two who edit one draft the second is told of the first, and loses nothing.
func TestTheSecondSaveOfADraftIsRefused(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t)
	both := must(w.Office.Draft(t.Context(), edda, draft.ID, ""))(t)
	if both.Version != draft.Version {
		t.Errorf("drafted as %s, kept as %s", draft.Version, both.Version)
	}
	first := must(w.Office.SaveDraft(t.Context(), edda, office.DraftForm{Revision: draft.ID, Version: both.Version, Source: policy("months: 3")(both.Source)}))(t)
	_, err := w.Office.SaveDraft(t.Context(), rolf, office.DraftForm{Revision: draft.ID, Version: both.Version, Source: policy("notice_days: 20")(both.Source)})
	wantRefusal(t, err, fault.Conflict, "Edda Lorne has saved this draft")
	now := must(w.Office.Draft(t.Context(), rolf, draft.ID, both.Source))(t)
	if now.Version != first.Version || len(now.Changes) != 1 || !strings.Contains(now.Source, "months: 3") {
		t.Errorf("after the refusal: version %s, not %s; changes %+v", now.Version, first.Version, now.Changes)
	}
	must(w.Office.SaveDraft(t.Context(), rolf, office.DraftForm{Revision: draft.ID, Version: now.Version, Source: policy("notice_days: 20")(now.Source)}))(t)
}

// Whoever retires a revision while another takes its place is told so, and only
// whoever may put one in force may retire one.
func TestRetiring(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda := w.Educators[0]
	rosa := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Rosa Lind", Email: "rosa@ward.example", Roles: []string{"educator"}}))(t)
	unlicensed := assessment.Actor{Agency: edda.Agency, Person: rosa.ID, Name: rosa.Name, Roles: rosa.Roles}
	old := inForce(t, w, "humidifier")
	wantRefusal(t, w.Office.Retire(t.Context(), unlicensed, old, ward.Proof), fault.Refused, "no current licence")
	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t)
	holder, watcher := asOwner(t, w), asOwner(t, w)
	tx, err := holder.Begin(t.Context())
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `select 1 from skill where id = $1 for update`, draft.Skill)
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `update revision set state = 'retired', retired_at = $2, retired_by = $3 where id = $1`, old, w.Now(), edda.Person)
	wantNone(t, err)
	done := make(chan error, 1)
	go func() { done <- w.Office.Retire(t.Context(), edda, old, ward.Proof) }()
	waiters(t, watcher, 1)
	wantNone(t, tx.Commit(t.Context()))
	wantRefusal(t, <-done, fault.Refused, "only one in force can be retired")
}
