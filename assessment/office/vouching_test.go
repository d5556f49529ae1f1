package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// 21 CFR 11.200(a)(3), reference check: an administrator sets an educator's
// password anew and signs as the educator. It stands in the ledger, the owner is
// told, and nothing is signed until somebody else has vouched.
func TestAnAdministratorCannotSignAsSomebodyElse(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	signIn(t, w, edda, "") // the owner was here before
	w.Pass(time.Hour)
	w.Take(w.Link(w.Admin, edda), "known to Ada alone")
	theirs := office.SignForm{Demonstration: v.ID, Part: office.PartObserver, Proof: office.ByPassword("known to Ada alone")}
	_, err := w.Office.Sign(t.Context(), edda, theirs)
	wantRefusal(t, err, fault.Refused, "Ada Minton made")
	_, err = w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: v.ID, Part: office.PartObserver, Proof: office.ByPassword("anything")})
	wantRefusal(t, err, fault.Refused, "vouch") // nobody is asked for a secret for nothing
	wantRefusal(t, w.Office.Withdraw(t.Context(), edda, about(nan, "humidifier", mira), assessment.Redemonstrated, false), fault.Refused, "vouch")

	// Changing it does not make it theirs.
	wantNone(t, w.Office.ChangePassword(t.Context(), edda, "known to Ada alone", "still known to Ada", ""))
	theirs.Proof = office.ByPassword("still known to Ada")
	_, err = w.Office.Sign(t.Context(), edda, theirs)
	wantRefusal(t, err, fault.Refused, "vouch")

	// Nor can Ada, the owner's own account or somebody whom Ada made vouch.
	vouch := func(by assessment.Actor, proof office.Proof) error {
		return w.Office.Vouch(t.Context(), by, edda.Person, proof)
	}
	wantRefusal(t, vouch(w.Admin, ward.Proof), fault.Refused, "You made the link")
	wantRefusal(t, vouch(edda, theirs.Proof), fault.Refused, "yourself")
	w.Pass(time.Minute)
	wantRefusal(t, vouch(letIn(t, w, w.Admin, "New Face", "", "educator"), ward.Proof), fault.Refused, "comes from the same hands")
	wantRefusal(t, vouch(nan, ward.Proof), fault.Forbidden, "does not allow")
	wantAtField(t, vouch(w.Coordinator, office.ByPassword("not mine at all")), "password", "does not match")

	wantNone(t, vouch(w.Coordinator, ward.Proof))
	wantRefusal(t, vouch(w.Educators[1], ward.Proof), fault.Conflict, "already")
	_, err = w.Office.Sign(t.Context(), edda, theirs)
	wantNone(t, err)

	// The ledger has every step, and the owner's account tells of them.
	owner := asOwner(t, w)
	for _, table := range []string{"secret_link", "vouching", "credential"} {
		var leaves int
		wantNone(t, owner.QueryRow(t.Context(), `select count(*) from (select kind, actor_id from ledger_waiting union all select kind, actor_id from ledger_leaf) l where kind = $1`, table).Scan(&leaves))
		if leaves == 0 {
			t.Errorf("the ledger knows nothing of %s", table)
		}
	}
	a := must(w.Office.Account(t.Context(), edda))(t)
	if l := a.Links[0]; l.IssuedBy.Name != "Ada Minton" || l.VouchedBy.Name != w.Coordinator.Name || l.UsedAt == nil || a.Waits != "" {
		t.Errorf("the owner is told %+v", a.IdentityView)
	}
	happened := words(a)
	for _, want := range []string{"Link made to set a new password by Ada Minton", "New password set by a link by Edda Lorne", "Vouched for: somebody has seen that it is you by Cory Vance"} {
		if !strings.Contains(happened, want) {
			t.Errorf("the account does not say %q: %s", want, happened)
		}
	}
}

// words are the events of an account, each with who did it.
func words(a office.AccountView) string {
	var all []string
	for _, e := range a.Events {
		all = append(all, e.What+" by "+e.By)
	}
	return strings.Join(all, "\n")
}

// Whoever invites somebody could use the invitation themselves, so the two of them
// do not make a record alone, whichever of them observes.
func TestWhoInvitesDoesNotObserveAlone(t *testing.T) {
	t.Parallel()
	w, mira, _ := quick(t, "humidifier")
	edda := w.Educators[0]
	p := must(w.Office.Person(t.Context(), w.Admin, edda.Person))(t)
	both := must(edited(t, w, w.Admin, edda.Person, office.PersonForm{Name: p.Name, Email: p.Email, Roles: []string{"educator", "administrator"}}))(t)
	edda.Roles = both.Roles
	fay := must(w.Office.AddPerson(t.Context(), edda, office.PersonForm{Name: "Fay Marsh", Kind: "nurse", Email: "fay@ward.example", Roles: []string{"caregiver"}}))(t)
	learner := assessment.Actor{Agency: edda.Agency, Person: fay.ID, Name: fay.Name, Roles: fay.Roles}
	w.Take(w.Link(edda, learner), ward.Password)
	v := w.Demonstrate(learner, "humidifier", mira, ward.Unsigned)
	w.Sign(edda, v.ID, office.PartObserver)
	wantRefusal(t, sign(t, w, learner, v.ID, office.PartLearner), fault.Refused, "an invitation that Edda Lorne made")
	wantRefusal(t, sign(t, w, edda, v.ID, office.PartLearner), fault.Refused, "vouch") // nor on the observer's device
	wantNone(t, w.Office.Vouch(t.Context(), w.Coordinator, learner.Person, ward.Proof))
	wantNone(t, sign(t, w, learner, v.ID, office.PartLearner))
	// Somebody else's learner signs at once.
	v = w.Demonstrate(w.Nurse("Una Bell"), "humidifier", mira)
	if v.SignedBy(office.PartLearner) == nil {
		t.Error("an invitation by a third person stands in the way")
	}
}

// Only words with meaning reach the database as well: whoever made a link or used
// it is refused there too.
func TestTheSchemaRefusesToVouchForOneself(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	w.Take(w.Link(w.Admin, w.Coordinator), "a pond with nine frogs")
	owner := asOwner(t, w)
	for _, by := range []assessment.PersonID{w.Admin.Person, w.Coordinator.Person} {
		_, err := owner.Exec(t.Context(), `insert into vouching (agency_id, link_id, vouched_by, vouched_at)
			select agency_id, id, $1, now() from secret_link where purpose = 'reset'`, by)
		if err == nil || !strings.Contains(err.Error(), "neither made the link nor used it") {
			t.Errorf("%s vouches: %v", by, err)
		}
	}
	for _, change := range []string{`set used_at = used_at + interval '1 second'`, `set issued_by = person_id`, `set token_hash = sha256('x')`} {
		_, err := owner.Exec(t.Context(), `update secret_link `+change+` where purpose = 'reset'`)
		if err == nil {
			t.Errorf("a used link lets itself be changed: %s", change)
		}
	}
}
