package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// A page that was open while a role was ended does not give it back.
func TestAnOlderPageGivesNoRoleBack(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	rolf := w.Educators[1]
	p := must(w.Office.Person(t.Context(), w.Admin, rolf.Person))(t)
	older := office.PersonForm{Version: p.Version, Name: "Rolf Teague-Hale", Kind: string(p.Kind), Email: p.Email, Roles: []string{"educator"}}
	ended := older
	ended.Name, ended.Roles = p.Name, []string{}
	after := must(w.Office.EditPerson(t.Context(), w.Admin, rolf.Person, ended))(t)
	if after.Version == p.Version {
		t.Error("a person without the role has the version of one with it")
	}
	for _, version := range []string{p.Version, ""} {
		older.Version = version
		_, err := w.Office.EditPerson(t.Context(), w.Admin, rolf.Person, older)
		wantRefusal(t, err, fault.Conflict, "Somebody has changed this person")
	}
	if p = must(w.Office.Person(t.Context(), w.Admin, rolf.Person))(t); len(p.Roles) != 0 || p.Name != "Rolf Teague" || p.Version != after.Version {
		t.Errorf("after what was refused: %+v", p)
	}
}

// A role that is ended while an edit waits for its turn counts as it is then, not
// as it was when the edit began to wait.
func TestRolesAreReadAfterTheWait(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	rolf, holder, watcher := w.Educators[1], asOwner(t, w), asOwner(t, w)
	p := must(w.Office.Person(t.Context(), w.Admin, rolf.Person))(t)
	tx, err := holder.Begin(t.Context())
	wantNone(t, err)
	_, err = tx.Exec(t.Context(), `select 1 from person where id = $1 for update`, rolf.Person)
	wantNone(t, err)
	done := make(chan error, 1)
	go func() {
		_, err := w.Office.EditPerson(t.Context(), w.Admin, rolf.Person, office.PersonForm{Version: p.Version, Name: "Rolf Hale", Kind: string(p.Kind), Email: p.Email, Roles: []string{"educator"}})
		done <- err
	}()
	waiters(t, watcher, 1)
	_, err = tx.Exec(t.Context(), `update person_role set ended_at = $2, ended_by = $3 where person_id = $1 and ended_at is null`, rolf.Person, w.Now(), w.Admin.Person)
	wantNone(t, err)
	wantNone(t, tx.Commit(t.Context()))
	wantRefusal(t, <-done, fault.Conflict, "Somebody has changed this person")
}

// Sending one form twice adds one person; another person under its id is refused,
// and not taken for the first.
func TestAnotherPersonUnderAnID(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	ann := office.PersonForm{ID: "01890a5d-ac96-774b-bcce-b302099a8057", Name: "Ann Lee", Kind: "nurse", Roles: []string{"caregiver", "educator"}}
	added := must(w.Office.AddPerson(t.Context(), w.Admin, ann))(t)
	ann.Roles = []string{"educator", "caregiver"}
	if again := must(w.Office.AddPerson(t.Context(), w.Admin, ann))(t); again.ID != added.ID {
		t.Errorf("the same form again is %+v", again)
	}
	for _, change := range []func(*office.PersonForm){
		func(f *office.PersonForm) { f.Name = "Bea Mott" },
		func(f *office.PersonForm) { f.Kind = "aide" },
		func(f *office.PersonForm) { f.Email = "ann@ward.example" },
		func(f *office.PersonForm) { f.Roles = []string{"caregiver"} },
	} {
		other := ann
		change(&other)
		_, err := w.Office.AddPerson(t.Context(), w.Admin, other)
		wantRefusal(t, err, fault.Conflict, "Somebody else was added under this id")
	}
	if p := must(w.Office.Person(t.Context(), w.Admin, assessment.PersonID(ann.ID)))(t); p.Name != "Ann Lee" || len(p.Roles) != 2 {
		t.Errorf("kept: %+v", p)
	}
}
