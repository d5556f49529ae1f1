package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// letIn has somebody make a person and take the invitation themselves.
func letIn(t *testing.T, w *ward.Ward, by assessment.Actor, name, kind string, roles ...string) assessment.Actor {
	t.Helper()
	p := must(w.Office.AddPerson(t.Context(), by, office.PersonForm{Name: name, Email: name[:3] + "@made.example", Kind: kind, Roles: roles}))(t)
	a := assessment.Actor{Agency: by.Agency, Person: p.ID, Name: p.Name, Roles: p.Roles}
	w.Take(w.Link(by, a), ward.Password)
	return a
}

// 21 CFR 11.200(a)(3): misuse of a signature takes two. Whoever makes people and
// uses their links is one, however many they make.
func TestOneAdministratorAloneMakesNobodyCurrent(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	voucher, first, second := letIn(t, w, w.Admin, "Fay Marsh", "", "coordinator"), letIn(t, w, w.Admin, "Gus Orr", "", "educator"), letIn(t, w, w.Admin, "Hal Finn", "", "educator")
	nurse := letIn(t, w, w.Admin, "Ida Kerr", "nurse", "caregiver")
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	w.Pass(time.Hour)

	// A voucher made beforehand does not clear a reset.
	w.Take(w.Link(w.Admin, edda), ward.Password)
	wantRefusal(t, w.Office.Vouch(t.Context(), voucher, edda.Person, ward.Proof), fault.Refused, "same hands")
	wantRefusal(t, sign(t, w, edda, v.ID, office.PartObserver), fault.Refused, "vouch")
	wantNone(t, w.Office.Vouch(t.Context(), w.Coordinator, edda.Person, ward.Proof))
	wantNone(t, sign(t, w, edda, v.ID, office.PartObserver))

	// Two made educators do not appoint each other, whoever proposed it.
	must(w.Office.RecordLicence(t.Context(), w.Admin, first.Person, office.LicenceForm{Kind: "RN", Number: "M-1"}))(t)
	propose := func(by assessment.Actor, months int) assessment.AppointmentID {
		return must(w.Office.ProposeAppointment(t.Context(), by, office.AppointmentForm{Person: first.Person, Skills: []string{"humidifier"},
			From: w.Today().String(), Through: w.Today().AddMonths(months).String(), Founding: true, Evidence: "Seen elsewhere."}))(t).ID
	}
	agree := func(by assessment.Actor, id assessment.AppointmentID) error {
		_, err := w.Office.AgreeAppointment(t.Context(), by, id)
		return err
	}
	byAda := propose(w.Admin, 11)
	wantRefusal(t, agree(second, byAda), fault.Refused, "what Ada Minton has proposed")
	wantRefusal(t, agree(w.Admin, propose(w.Educators[1], 10)), fault.Refused, "the appointment of Gus Orr")
	wantNone(t, agree(w.Educators[1], byAda))

	// A made educator and a made nurse do not make a record.
	w.Join(nurse, mira)
	v = w.Demonstrate(nurse, "humidifier", mira, ward.SeenBy(first), ward.Unsigned)
	wantRefusal(t, sign(t, w, first, v.ID, office.PartObserver), fault.Refused, "one person alone")
	wantRefusal(t, sign(t, w, nurse, v.ID, office.PartLearner), fault.Refused, "one person alone")
	wantRefusal(t, w.Office.Vouch(t.Context(), voucher, first.Person, ward.Proof), fault.Refused, "found --beside")
	wantNone(t, w.Office.Vouch(t.Context(), edda, first.Person, ward.Proof)) // somebody vouched for her, so she may
	wantNone(t, sign(t, w, first, v.ID, office.PartObserver))
	wantNone(t, sign(t, w, nurse, v.ID, office.PartLearner))
	if got := word(t, w, nurse, "humidifier", mira); got != assessment.Current {
		t.Errorf("with two people it is %s", got)
	}
}

// One signature that makes somebody current must be its owner's alone; one that
// withdraws does not wait (common practice, no source).
func TestAMadeEducatorReinstatesNobody(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	made, another := letIn(t, w, w.Admin, "Gus Orr", "", "educator"), letIn(t, w, w.Admin, "Hal Finn", "", "educator")
	w.Pass(time.Hour)
	wantNone(t, w.Office.Withdraw(t.Context(), another, about(nan, "humidifier", mira), assessment.Redemonstrated, false))
	d := must(w.Office.PersonDesk(t.Context(), w.Coordinator, nan.Person, w.Today()))(t)
	for _, h := range d.Happenings {
		if h.Kind == assessment.WithdrawalEntry {
			back := office.TakeBackForm{Kind: h.Kind, ID: h.ID, Reason: "Not so.", Proof: ward.Proof}
			wantRefusal(t, w.Office.TakeBack(t.Context(), made, back), fault.Refused, "one person alone")
			wantNone(t, w.Office.Vouch(t.Context(), w.Coordinator, made.Person, ward.Proof))
			wantNone(t, w.Office.TakeBack(t.Context(), made, back))
		}
	}
	if got := word(t, w, nan, "humidifier", mira); got != assessment.Current {
		t.Errorf("taken back by somebody who was vouched for it is %s", got)
	}
}

// The second person of an erasure is not one of the asker's, over however many
// links; nor is the asker one of theirs.
func TestAnErasureTakesTwoOverManyLinks(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	one := letIn(t, w, w.Admin, "One Marsh", "", "administrator")
	two := letIn(t, w, one, "Two Marsh", "", "administrator")
	other := w.Administrator("Bea Lund")
	gone := w.Nurse("Una Bell")
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, gone.Person, w.Today()))
	w.Day("2033-10-03")
	wantNone(t, w.Office.SetRetention(t.Context(), w.Admin, office.RetentionForm{Years: "6", Reason: "Counsel."}))
	e := must(w.Office.AskErasure(t.Context(), w.Admin, office.ErasureForm{Person: gone.Person, Reason: "By letter."}))(t)
	for _, by := range []assessment.Actor{one, two} {
		_, err := w.Office.CarryOutErasure(t.Context(), by, e.ID, ward.Proof)
		wantRefusal(t, err, fault.Refused, "one person alone")
	}
	must(w.Office.CarryOutErasure(t.Context(), other, e.ID, ward.Proof))(t)
}

// A second founder's password comes from nobody in the agency, so they clear those
// whom the first let in.
func TestASecondFounderVouches(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	second := office.SecondFounder{Code: ward.Code, Name: "Bea Lund", Email: "bea@ward.example", Password: "nine tall ladders lean"}
	bea := must(w.Office.FoundBeside(t.Context(), second))(t)
	made := letIn(t, w, w.Admin, "Gus Orr", "", "educator")
	wantAtField(t, w.Office.Vouch(t.Context(), bea, made.Person, office.ByPassword(second.Password)), "password", "choose one of your own")
	wantNone(t, w.Office.ChangePassword(t.Context(), bea, second.Password, ward.Password, ""))
	wantNone(t, w.Office.Vouch(t.Context(), bea, made.Person, ward.Proof))
	a := must(w.Office.Account(t.Context(), bea))(t)
	if a.Waits != "" || len(a.Links) > 0 {
		t.Errorf("a founder waits: %+v", a.IdentityView)
	}
	_, err := w.Office.FoundBeside(t.Context(), office.SecondFounder{Code: "nowhere", Name: "X", Email: "x@ward.example", Password: "nine tall ladders lean"})
	wantAtField(t, err, "code", "no agency")
	_, err = w.Office.FoundBeside(t.Context(), office.SecondFounder{Code: ward.Code, Name: "X", Role: assessment.Surveyor, Password: "nine tall ladders lean"})
	wantAtField(t, err, "role", "administrator")
}
