package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestChangeAgencyCode(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	_, err := w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "taken", Name: "Another", Zone: "UTC",
		AdminName: "Ada", AdminEmail: "ada@another.example", AdminPassword: "a pond with nine frogs"})
	wantNone(t, err)
	for _, by := range []assessment.Actor{w.Coordinator, w.Educators[0], {Agency: w.Admin.Agency, Roles: []assessment.Role{assessment.Surveyor}}} {
		wantRefusal(t, w.Office.ChangeAgencyCode(t.Context(), by, "other"), fault.Forbidden, "does not allow")
	}
	wantRefusal(t, w.Office.ChangeAgencyCode(t.Context(), w.Admin, "taken"), fault.Conflict, "already")
	wantRefusal(t, w.Office.ChangeAgencyCode(t.Context(), w.Admin, "Not A Word"), fault.Invalid, "lower-case word")
	wantAtField(t, w.Office.ChangeAgencyCode(t.Context(), w.Admin, " "), "code", "short code")
	if now, err := w.Office.Desk(t.Context(), ward.Code); err != nil || now.Agency != w.Admin.Agency {
		t.Errorf("after refusals the code leads to %v, %v", now, err)
	}

	before := journal(t, w)()
	wantNone(t, w.Office.ChangeAgencyCode(t.Context(), w.Admin, "other"))
	if now, err := w.Office.Desk(t.Context(), "other"); err != nil || now.Agency != w.Admin.Agency {
		t.Errorf("the new code leads to %v, %v", now, err)
	}
	_, err = w.Office.Desk(t.Context(), ward.Code)
	wantRefusal(t, err, fault.NotFound, "no such record")
	if lines := journal(t, w)() - before; lines != 1 {
		t.Errorf("%d lines in the journal, want one", lines)
	}
}
