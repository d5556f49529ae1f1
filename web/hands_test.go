package web

import (
	"net/url"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// withdrawal is a form that takes a competency away.
func withdrawal(person assessment.PersonID, skill string, child assessment.ClientID) office.ExceptionForm {
	return office.ExceptionForm{Person: person, Skill: skill, Client: child, Reason: "Left the tube unheld.", Proof: ward.Proof}
}

// give puts roles in place of those that somebody has.
func give(t *testing.T, w *ward.Ward, who assessment.Actor, roles ...string) {
	t.Helper()
	p, err := w.Office.Person(t.Context(), w.Admin, who.Person)
	if err == nil {
		_, err = w.Office.EditPerson(t.Context(), w.Admin, who.Person, office.PersonForm{Version: p.Version, Name: p.Name, Kind: string(p.Kind), Relation: p.Relation,
			Email: p.Email, Language: p.Language, Roles: roles})
	}
	if err != nil {
		t.Fatal(err)
	}
}

// posts sends a form that no page offered, with the session's own word.
func (b *browser) posts(path string, pairs ...string) *page {
	b.t.Helper()
	fields := url.Values{"csrf": {b.csrf()}}
	for i := 0; i+1 < len(pairs); i += 2 {
		fields.Set(pairs[i], pairs[i+1])
	}
	return b.post(path, fields)
}

// nowhere are addresses that no agency has anything at, and another's.
const nobody = "01941f29-7c3a-7d52-8000-000000000000"
