package office_test

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// 21 CFR 11.50(a)(1): the printed name is that of the signer. No other comes to stand
// under a record than the one that the record itself names.
func TestNobodySignsUnderAnotherName(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	renamed := office.PersonForm{Name: "Rolf Teague", Email: w.Email(edda)}
	_, err := edited(t, w, w.Coordinator, edda.Person, renamed)
	wantAtField(t, err, "name", "administrator")
	must(edited(t, w, w.Admin, edda.Person, renamed))(t)
	told := words(must(w.Office.Account(t.Context(), edda))(t))
	if !strings.Contains(told, "Your name changed, as it is printed under what you sign by Ada Minton") {
		t.Errorf("the owner is told %s", told)
	}
	wantRefusal(t, sign(t, w, edda, v.ID, office.PartObserver), fault.Refused, "The record names Edda Lorne")
	must(edited(t, w, w.Admin, edda.Person, office.PersonForm{Name: "Edda Lorne", Email: w.Email(edda)}))(t)
	wantNone(t, sign(t, w, edda, v.ID, office.PartObserver))

	// A coordinator still puts a nurse's name right; the pass waits until it fits.
	p := must(w.Office.Person(t.Context(), w.Coordinator, nan.Person))(t)
	must(edited(t, w, w.Coordinator, nan.Person, office.PersonForm{Name: "Nan Ormes", Kind: string(p.Kind), Email: p.Email}))(t)
	wantRefusal(t, sign(t, w, nan, v.ID, office.PartLearner), fault.Refused, "set the name back")
	if got := word(t, w, nan, "humidifier", mira); got == assessment.Current {
		t.Errorf("unsigned it is %s", got)
	}

	// Nor does a coordinator lock an administrator out.
	a := must(w.Office.Person(t.Context(), w.Coordinator, w.Admin.Person))(t)
	_, err = edited(t, w, w.Coordinator, a.ID, office.PersonForm{Name: a.Name, Email: "elsewhere@ward.example"})
	wantAtField(t, err, "email", "administrator")
}
