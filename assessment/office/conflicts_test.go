package office_test

import (
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Nobody signs for a draft that was changed after they read it, and of two who
// edit one draft the second is told.
func TestADraftIsSignedAndSavedAsItWasRead(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t)
	read := must(w.Office.Draft(t.Context(), edda, draft.ID, ""))(t)
	changed := must(w.Office.SaveDraft(t.Context(), w.Admin, office.DraftForm{Revision: draft.ID, Version: read.Version, Source: policy("pass_mark: 1/100")(read.Source)}))(t)
	_, err := w.Office.SaveDraft(t.Context(), rolf, office.DraftForm{Revision: draft.ID, Version: read.Version, Source: policy("months: 3")(read.Source)})
	wantRefusal(t, err, fault.Conflict, "says something else now")
	sign := office.PutInForceForm{Revision: draft.ID, Version: read.Version, Statement: "Read every step.", Password: ward.Password}
	wantRefusal(t, w.Office.PutInForce(t.Context(), edda, sign), fault.Conflict, "says something else now")
	sign.Version = ""
	wantRefusal(t, w.Office.PutInForce(t.Context(), edda, sign), fault.Conflict, "")
	sign.Version = changed.Version
	wantNone(t, w.Office.PutInForce(t.Context(), edda, sign))
}

// A page that was drawn while somebody still had a role does not give it back.
func TestAnEditGivesNoRoleBack(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	p := must(w.Office.Person(t.Context(), w.Admin, w.Educators[1].Person))(t)
	form := office.PersonForm{Version: p.Version, Name: p.Name, Kind: string(p.Kind), Email: p.Email, Roles: []string{}}
	ended := must(w.Office.EditPerson(t.Context(), w.Admin, p.ID, form))(t)
	form.Name, form.Roles = "Rolf Teague-Hale", []string{"educator"}
	_, err := w.Office.EditPerson(t.Context(), w.Admin, p.ID, form)
	wantRefusal(t, err, fault.Conflict, "since you read it")
	form.Version, form.Roles = ended.Version, nil
	if p := must(w.Office.EditPerson(t.Context(), w.Admin, p.ID, form))(t); len(p.Roles) != 0 || p.Name != "Rolf Teague-Hale" {
		t.Errorf("%+v", p)
	}
}

// An id names one person: the same sent twice is harmless, another one is refused.
func TestAnIDNamesOnePerson(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	ann := office.PersonForm{ID: "01890a5d-ac96-774b-bcce-b302099a8057", Name: "Ann Lee", Kind: "nurse"}
	first := must(w.Office.AddPerson(t.Context(), w.Admin, ann))(t)
	if again := must(w.Office.AddPerson(t.Context(), w.Admin, ann))(t); again.ID != first.ID {
		t.Errorf("sent again: %+v", again)
	}
	ann.Name, ann.Kind = "Bea Mott", "aide"
	_, err := w.Office.AddPerson(t.Context(), w.Admin, ann)
	wantRefusal(t, err, fault.Conflict, "")
}
