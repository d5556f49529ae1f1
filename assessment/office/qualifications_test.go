package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestLicences(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	nurse := w.Nurse("Nan Orme")
	record := func(by assessment.Actor, l office.LicenceForm) error {
		_, err := w.Office.RecordLicence(t.Context(), by, nurse.Person, l)
		return err
	}
	wantNone(t, record(w.Coordinator, office.LicenceForm{Kind: " RN ", Number: "N-1", Through: "2026-01-05"}))
	wantNone(t, record(w.Coordinator, office.LicenceForm{Kind: "RN", Number: "N-1", Through: "2026-01-04"}))
	wantRefusal(t, record(w.Admin, office.LicenceForm{Kind: "RN", Number: "N-1", Through: "2026-01-05"}), fault.Conflict, "on file already")
	wantAtField(t, record(w.Admin, office.LicenceForm{Number: "N-1"}), "kind", "RN")
	wantAtField(t, record(w.Admin, office.LicenceForm{Kind: "RN"}), "number", "number")
	wantAtField(t, record(w.Admin, office.LicenceForm{Kind: "RN", Number: "2", Through: "2026-02-30"}), "through", "not a day")
	wantRefusal(t, record(w.Educators[0], office.LicenceForm{Kind: "RN", Number: "2"}), fault.Forbidden, "edit people")
	q := must(w.Office.Qualifications(t.Context(), nurse, nurse.Person))(t)
	if len(q.Licences) != 2 || !q.Licences[0].Current || q.Licences[1].Current || q.Licences[0].RecordedBy != "Cory Vance" {
		t.Errorf("on 2026-01-05: %+v", q.Licences)
	}
}

// Two years through the end of the month of issue, by the course where the issue
// is not known, and an earlier printed end stands (American Heart Association,
// course card information; the days are worked out by hand).
func TestCards(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	nurse := w.Nurse("Nan Orme")
	for _, c := range []struct {
		form office.CardForm
		want string
	}{
		{office.CardForm{IssuedOn: "2024-02-29"}, "2026-02-28"},
		{office.CardForm{IssuedOn: "2024-10-05"}, "2026-10-31"},
		{office.CardForm{CourseOn: "2025-12-30", IssuedOn: "2026-01-02"}, "2028-01-31"},
		{office.CardForm{CourseOn: "2025-12-30"}, "2027-12-31"},
		{office.CardForm{PrintedEnd: "06/2027"}, "2027-06-30"},
		{office.CardForm{PrintedEnd: "2027-06-15"}, "2027-06-15"},
		{office.CardForm{PrintedEnd: "01/2028"}, "2028-01-31"},
		{office.CardForm{IssuedOn: "2025-08-10", PrintedEnd: "07/2027"}, "2027-07-31"},
		{office.CardForm{IssuedOn: "2025-08-10", PrintedEnd: "09/2027"}, "2027-08-31"},
	} {
		c.form.Issuer = "Lifeline Courses"
		v, err := w.Office.RecordCard(t.Context(), w.Coordinator, nurse.Person, c.form)
		if err != nil || v.Through.String() != c.want {
			t.Errorf("%+v: got %s, %v, want %s", c.form, v.Through, err, c.want)
		}
	}
	for _, c := range []struct {
		field string
		form  office.CardForm
	}{
		{"issuer", office.CardForm{IssuedOn: "2025-01-01"}},
		{"issued_on", office.CardForm{Issuer: "L"}},
		{"issued_on", office.CardForm{Issuer: "L", IssuedOn: "2026-01-06"}}, // tomorrow
		{"course_on", office.CardForm{Issuer: "L", CourseOn: "2026-01-06"}},
		{"issued_on", office.CardForm{Issuer: "L", IssuedOn: "2025-01-01", CourseOn: "2025-01-02"}},
		{"printed_end", office.CardForm{Issuer: "L", PrintedEnd: "13/2027"}},
		{"printed_end", office.CardForm{Issuer: "L", PrintedEnd: "06/2062"}}, // 2026 was meant
		{"printed_end", office.CardForm{Issuer: "L", PrintedEnd: "02/2028"}}, // one month longer than a card of today
		{"printed_end", office.CardForm{Issuer: "L", PrintedEnd: "6/2027"}},
		{"printed_end", office.CardForm{Issuer: "L", IssuedOn: "2025-06-01", PrintedEnd: "05/2025"}},
	} {
		_, err := w.Office.RecordCard(t.Context(), w.Coordinator, nurse.Person, c.form)
		wantAtField(t, err, c.field, "")
	}
	_, err := w.Office.RecordCard(t.Context(), w.Admin, nurse.Person, office.CardForm{Issuer: "Lifeline  Courses", PrintedEnd: "06/2027"})
	wantRefusal(t, err, fault.Conflict, "on file already")
	q := must(w.Office.Qualifications(t.Context(), w.Educators[0], nurse.Person))(t)
	if len(q.Cards) != 9 || q.Cards[0].Through.String() != "2028-01-31" || !q.Cards[0].Current {
		t.Errorf("on file: %+v", q.Cards)
	}
}

// Resuscitation is held only while a card is current too, and the index of
// standings says so at once.
func TestCardBringsTheCompetency(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	nurse := w.Nurse("Nan Orme")
	w.Join(nurse, child)
	w.Award(nurse, "bagging", child)
	for range 3 {
		w.Demonstrate(nurse, "cpr-trach", child)
		w.Pass(24 * time.Hour)
	}
	holds := func() bool {
		g := must(w.Office.Grid(t.Context(), w.Coordinator, office.GridQuery{Skill: "cpr-trach", Find: "Nan"}))(t)
		indexed := g.Rows[0].Cells[0].Word.Holds()
		if folded := w.Standing(nurse, "cpr-trach", child, w.Today()).Word.Holds(); folded != indexed {
			t.Errorf("the fold says %v, the index %v", folded, indexed)
		}
		return indexed
	}
	if holds() {
		t.Error("held without a card")
	}
	w.Card(nurse)
	if !holds() {
		t.Error("not held with a card")
	}
}

func TestAppointments(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	newcomer := w.Educator("Ines Park")
	w.Pass(time.Minute) // after those that the ward began with
	good := office.AppointmentForm{Person: newcomer.Person, Skills: []string{"suction", "suction", "bagging"}, From: "2026-01-05", Through: "2027-01-05",
		Founding: true, Evidence: "Judged at a teaching hospital."}
	a := must(w.Office.ProposeAppointment(t.Context(), w.Educators[0], good))(t)
	if !a.Pending || a.Open || len(a.Skills) != 2 || a.Name != "Ines Park" || a.ProposedBy != "Edda Lorne" {
		t.Errorf("proposed: %+v", a)
	}
	_, err := w.Office.ProposeAppointment(t.Context(), w.Educators[1], good)
	wantRefusal(t, err, fault.Conflict, "proposed already")
	_, err = w.Office.AgreeAppointment(t.Context(), w.Educators[0], a.ID)
	wantRefusal(t, err, fault.Refused, "somebody else has to agree")
	_, err = w.Office.AgreeAppointment(t.Context(), newcomer, a.ID)
	wantRefusal(t, err, fault.Refused, "your own appointment")
	_, err = w.Office.AgreeAppointment(t.Context(), w.Coordinator, a.ID)
	wantRefusal(t, err, fault.Forbidden, "appoint")
	a = must(w.Office.AgreeAppointment(t.Context(), w.Educators[1], a.ID))(t)
	if a.Pending || !a.Open || a.AgreedBy != "Rolf Teague" || a.AgreedOn != civil.MustParse("2026-01-05") {
		t.Errorf("agreed: %+v", a)
	}
	_, err = w.Office.AgreeAppointment(t.Context(), w.Admin, a.ID)
	wantRefusal(t, err, fault.Conflict, "agreed already")
	listed := must(w.Office.Appointments(t.Context(), w.Coordinator))(t)
	if len(listed) != 3 || listed[0].ID != a.ID {
		t.Errorf("open: %+v", listed)
	}
	_, err = w.Office.EndAppointment(t.Context(), w.Admin, a.ID, " ")
	wantAtField(t, err, "reason", "Say why")
	a = must(w.Office.EndAppointment(t.Context(), w.Admin, a.ID, "Moved away."))(t)
	if a.Open || a.Pending || a.EndedOn != w.Today() || a.EndReason != "Moved away." {
		t.Errorf("ended: %+v", a)
	}
	_, err = w.Office.EndAppointment(t.Context(), w.Admin, a.ID, "Again.")
	wantRefusal(t, err, fault.Conflict, "ended already")
	if listed = must(w.Office.Appointments(t.Context(), w.Coordinator))(t); len(listed) != 2 {
		t.Errorf("open after the end: %+v", listed)
	}
	if own := must(w.Office.Appointments(t.Context(), w.Nurse("Nan Orme")))(t); len(own) != 0 {
		t.Errorf("a caregiver sees others' appointments: %+v", own)
	}
}

func TestAppointmentRefused(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	good := office.AppointmentForm{Person: w.Educator("Ines Park").Person, Skills: []string{"suction"}, From: "2026-01-05", Through: "2027-01-05", Evidence: "Seen."}
	for _, c := range []struct {
		field string
		spoil func(*office.AppointmentForm)
	}{
		{"person", func(f *office.AppointmentForm) { f.Person = "" }},
		{"skills", func(f *office.AppointmentForm) { f.Skills = nil }},
		{"skills", func(f *office.AppointmentForm) { f.Skills = []string{"juggling"} }},
		{"from", func(f *office.AppointmentForm) { f.From = "" }},
		{"from", func(f *office.AppointmentForm) { f.From = "5 January" }},
		{"through", func(f *office.AppointmentForm) { f.Through = "2026-01-04" }},
		{"through", func(f *office.AppointmentForm) { f.Founding, f.Through = true, "2027-01-06" }},
		{"evidence", func(f *office.AppointmentForm) { f.Evidence = "\n" }},
	} {
		bad := good
		c.spoil(&bad)
		_, err := w.Office.ProposeAppointment(t.Context(), w.Admin, bad)
		wantAtField(t, err, c.field, "")
	}
	a := must(w.Office.ProposeAppointment(t.Context(), w.Admin, good))(t)
	w.Day("2027-01-06")
	_, err := w.Office.AgreeAppointment(t.Context(), w.Educators[0], a.ID)
	wantRefusal(t, err, fault.Refused, "over")
}

// Nobody says of themselves that they have a paper, were taught or have practised.
func TestNobodyVouchesForThemselves(t *testing.T) {
	t.Parallel()
	w, mira, _ := quick(t, "humidifier")
	edda := w.Educators[0]
	w.Demonstrate(edda, "humidifier", mira, ward.SeenBy(w.Educators[1]))
	for _, kind := range []assessment.EntryKind{assessment.PracticeEntry, assessment.TeachingEntry} {
		wantRefusal(t, w.Office.Log(t.Context(), edda, office.LogForm{Person: edda.Person, Skill: "humidifier", Client: mira, Kind: kind, On: w.Today().String()}), fault.Refused, "somebody else")
	}
	_, err := w.Office.RecordCard(t.Context(), w.Admin, w.Admin.Person, office.CardForm{Issuer: "Lifeline Courses", IssuedOn: "2026-01-01"})
	wantRefusal(t, err, fault.Refused, "Your own card")
	_, err = w.Office.RecordLicence(t.Context(), w.Admin, w.Admin.Person, office.LicenceForm{Kind: "RN", Number: "A-1"})
	wantRefusal(t, err, fault.Refused, "Your own licence")
}
