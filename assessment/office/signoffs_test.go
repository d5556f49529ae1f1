package office_test

import (
	"fmt"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A pass needs both signatures and counts from the day of the later one; a failure
// needs the observer's and counts from the day it was shown.
func TestWhichSignaturesCount(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda := w.Educators[0]
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	if s := word(t, w, nan, "humidifier", mira); s != assessment.NotStarted {
		t.Errorf("unsigned: %s", s)
	}
	wantRefusal(t, sign(t, w, nan, v.ID, office.PartObserver), fault.Forbidden, "Edda Lorne")
	wantRefusal(t, sign(t, w, edda, v.ID, "witness"), fault.Invalid, "observer or its learner")
	wantRefusal(t, sign(t, w, w.Educators[1], v.ID, office.PartObserver), fault.NotFound, "")
	wantRefusal(t, sign(t, w, w.Surveyor("Sam Ide"), v.ID, office.PartLearner), fault.Forbidden, "")
	_, err := w.Office.Sign(t.Context(), edda, office.SignForm{Demonstration: v.ID, Part: office.PartObserver, Proof: office.ByPassword("seven slow herons wad")})
	wantAtField(t, err, "password", "Nothing has been signed")
	wantNone(t, sign(t, w, nan, v.ID, office.PartLearner))
	if s := word(t, w, nan, "humidifier", mira); s.Holds() {
		t.Errorf("without the observer: %s", s)
	}
	w.Day("2026-02-05")
	wantNone(t, sign(t, w, edda, v.ID, office.PartObserver))
	for day, want := range map[string]assessment.StandingWord{"2026-02-04": assessment.NotStarted, "2026-02-05": assessment.Current,
		"2027-02-01": assessment.Due, "2027-02-02": assessment.Lapsed} {
		if s := w.Standing(nan, "humidifier", mira, civil.MustParse(day)); s.Word != want {
			t.Errorf("on %s: %s, want %s", day, s.Word, want)
		}
	}
	failed := w.Demonstrate(nan, "humidifier", mira, ward.Marked(1, assessment.Unsafe), ward.Unsigned)
	w.Day("2026-02-09")
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Current {
		t.Errorf("a failure without a signature: %s", s)
	}
	wantNone(t, sign(t, w, nan, failed.ID, office.PartLearner))
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Current {
		t.Errorf("a failure with the learner's signature alone: %s", s)
	}
	wantNone(t, sign(t, w, edda, failed.ID, office.PartObserver))
	if s := w.Standing(nan, "humidifier", mira, civil.MustParse("2026-02-05")); s.Word != assessment.Withdrawn {
		t.Errorf("on the day of the failure: %s", s.Word)
	}
	indexIsRight(t, w)
}

// Signed a moment before midnight in the agency's zone or at midnight, whatever day
// it is elsewhere.
func TestASignatureBelongsToTheAgencysDay(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	midnight := civil.MustParse("2026-02-02").In(w.Zone)
	w.At(midnight.Add(-time.Microsecond))
	wantNone(t, sign(t, w, nan, v.ID, office.PartLearner))
	if s := w.Standing(nan, "humidifier", mira, civil.MustParse("2026-02-01")); s.Word != assessment.Current {
		t.Errorf("signed in the last microsecond of the day: %s on that day", s.Word)
	}
	v = w.Demonstrate(nan, "humidifier", w.Client("8K", "Tam"), ward.UnsignedByLearner)
	w.At(midnight)
	wantRefusal(t, sign(t, w, nan, v.ID, office.PartLearner), fault.Refused, "does not fit") // the clock was put back
	tam := v.ClientID
	w.At(civil.MustParse("2026-02-03").In(w.Zone))
	wantNone(t, sign(t, w, nan, v.ID, office.PartLearner))
	if s := w.Standing(nan, "humidifier", tam, civil.MustParse("2026-02-02")); s.Word.Holds() {
		t.Errorf("signed at midnight: %s the day before", s.Word)
	}
}

// The observer's word must count on the day of the performance and on the day of
// signing.
func TestTheObserverMustStillBeEntitledWhenSigning(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "go-bag")
	ines := w.Educator("Ines Park")
	w.Appoint(ines, w.Educators[1], "humidifier", "go-bag")
	_, err := w.Office.RecordLicence(t.Context(), w.Coordinator, w.Admin.Person, office.LicenceForm{Kind: "RN", Number: "A-1", Through: "2026-02-02"})
	wantNone(t, err)
	pass := func() assessment.DemonstrationID {
		return w.Demonstrate(nan, "humidifier", mira, ward.SeenBy(ines), ward.Unsigned).ID
	}
	failure := w.Demonstrate(nan, "go-bag", mira, ward.SeenBy(ines), ward.Marked(1, assessment.Unsafe), ward.Unsigned).ID
	withdrawn, ended := pass(), pass()
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], office.ExceptionForm{Person: ines.Person, Skill: "humidifier", Client: mira, Reason: "Heat before gas.", Proof: ward.Proof}, assessment.Reinstated, false))
	wantRefusal(t, sign(t, w, ines, withdrawn, office.PartObserver), fault.Refused, "withdrawn")
	lifted := must(w.Office.StandingsOf(t.Context(), w.Coordinator, ines.Person, civil.Date{}))(t).Rows[0].Because[0]
	w.Pass(time.Hour)
	wantNone(t, w.Office.Reinstate(t.Context(), w.Educators[0], assessment.RecordID(lifted), "Seen again.", ward.Proof))
	wantNone(t, sign(t, w, ines, withdrawn, office.PartObserver))
	all := must(w.Office.Appointments(t.Context(), w.Admin))(t)
	for _, a := range all {
		if a.Person == ines.Person {
			must(w.Office.EndAppointment(t.Context(), w.Admin, a.ID, "Moved away."))(t)
		}
	}
	wantRefusal(t, sign(t, w, ines, ended, office.PartObserver), fault.Refused, "not appointed")
	wantNone(t, sign(t, w, ines, failure, office.PartObserver))
	wantNone(t, sign(t, w, nan, ended, office.PartLearner))
	if v := must(w.Office.Demonstration(t.Context(), nan, ended))(t); v.Certificate != nil {
		t.Error("a certificate on the learner's signature alone")
	}
	indexIsRight(t, w)
}

// Entitled again when signing does not mend the day of the performance.
func TestTheObserverMustHaveBeenEntitledWhenItWasShown(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
	wantNone(t, w.Office.Withdraw(t.Context(), rolf, about(edda, "humidifier", mira), assessment.Reinstated, false))
	w.Day("2026-02-02")
	wantNone(t, w.Office.Reinstate(t.Context(), rolf, withdrawal(t, w, edda, "humidifier", mira), "Seen again.", ward.Proof))
	wantRefusal(t, sign(t, w, edda, v.ID, office.PartObserver), fault.Refused, "withdrawn")
}

func TestAnObserversLicenceMustCoverBothDays(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	rosa := must(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Rosa Lind", Email: "rosa@ward.example", Roles: []string{"educator"}}))(t)
	by := assessment.Actor{Agency: w.Admin.Agency, Person: rosa.ID, Name: rosa.Name, Roles: rosa.Roles}
	must(w.Office.RecordLicence(t.Context(), w.Admin, rosa.ID, office.LicenceForm{Kind: "RRT", Number: "7", Through: "2026-02-01"}))(t)
	w.Appoint(by, w.Educators[1], "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira, ward.SeenBy(by), ward.Unsigned)
	wantAtField(t, sign(t, w, by, v.ID, office.PartObserver), "password", "does not match") // they have none yet
	w.Take(w.Link(w.Admin, by), ward.Password)
	wantNone(t, w.Office.Vouch(t.Context(), w.Coordinator, by.Person, ward.Proof))
	w.Day("2026-02-02")
	wantRefusal(t, sign(t, w, by, v.ID, office.PartObserver), fault.Refused, "no licence")
	must(w.Office.RecordLicence(t.Context(), w.Admin, rosa.ID, office.LicenceForm{Kind: "RRT", Number: "8", Through: "2027-02-01"}))(t)
	wantNone(t, sign(t, w, by, v.ID, office.PartObserver))
}

// Both signatures and the same ones many times, all at once, on a pool of eight
// connections: nobody waits for ever, and one certificate comes of it.
func TestManySignaturesAtOnce(t *testing.T) {
	t.Parallel()
	w, mira, _ := quick(t, "humidifier")
	const records = 16
	var ids [records]assessment.DemonstrationID
	var learners [records]assessment.Actor
	for i := range ids {
		learners[i] = w.Nurse(fmt.Sprintf("Nurse %d", i))
		ids[i] = w.Demonstrate(learners[i], "humidifier", mira, ward.Unsigned).ID
	}
	errs := make([]error, 4*records)
	atOnce(len(errs), func(i int) {
		n, part, by := i/4, office.PartObserver, w.Educators[0]
		if i%2 == 0 {
			part, by = office.PartLearner, learners[i/4]
		}
		_, errs[i] = w.Office.Sign(t.Context(), by, office.SignForm{Demonstration: ids[n], Part: part, Proof: ward.Proof})
	})
	for i, err := range errs {
		if err != nil {
			t.Errorf("signature %d: %v", i, err)
		}
	}
	numbers := map[int]bool{}
	for _, c := range must(w.Office.Certificates(t.Context(), w.Coordinator, "", "", 0))(t).Items {
		numbers[c.Number] = true
	}
	for n := 1; n <= records; n++ {
		if !numbers[n] {
			t.Errorf("no certificate has the number %d: %v", n, numbers)
		}
	}
	if len(numbers) != records {
		t.Errorf("%d certificates", len(numbers))
	}
	indexIsRight(t, w)
}

// Taken back while it is being signed: it is signed first and then taken back, or
// the signature is refused; nobody is current by it.
func TestSigningWhileItIsTakenBack(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	for range 8 {
		v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
		var signed, corrected error
		atOnce(2, func(i int) {
			if i == 0 {
				signed = sign(t, w, nan, v.ID, office.PartLearner)
				return
			}
			corrected = w.Office.CorrectDemonstration(t.Context(), w.Educators[1], v.ID, "Another child's sheet.", ward.Proof)
		})
		wantNone(t, corrected)
		if signed != nil {
			wantRefusal(t, signed, fault.Refused, "taken back")
		} else if v = must(w.Office.Demonstration(t.Context(), nan, v.ID))(t); v.Certificate == nil {
			t.Error("it was signed after it had been taken back")
		}
		if s := word(t, w, nan, "humidifier", mira); s.Holds() {
			t.Errorf("%s by what was taken back", s)
		}
		wantRefusal(t, sign(t, w, nan, v.ID, office.PartLearner), fault.Refused, "taken back")
	}
	indexIsRight(t, w)
}

func BenchmarkSign(b *testing.B) {
	w := ward.New(b)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	for b.Loop() {
		b.StopTimer()
		v := w.Demonstrate(nan, "humidifier", mira, ward.Unsigned)
		b.StartTimer()
		w.Sign(w.Educators[0], v.ID, office.PartObserver)
		w.Sign(nan, v.ID, office.PartLearner)
	}
}
