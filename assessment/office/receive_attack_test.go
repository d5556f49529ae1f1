package office_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// One id is a sheet that is being marked or a record, never both, for whomever it is sent
// at once: else what is marked on the sheet would never be recorded (RFC 9562, section
// 5.7: an id names one thing).
func TestOneIDForTwoLearnersAtOnce(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	for n := range 12 {
		other := b.Nurse(fmt.Sprint("Other nurse ", n))
		s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now(), ward.Marked(1, assessment.Unsafe))
		of := s
		of.Learner = string(other.Person)
		b.Pass(time.Hour)
		errs := make([]error, 3)
		atOnce(len(errs), func(i int) {
			switch i {
			case 0:
				_, errs[i] = b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now()))
			case 1:
				_, errs[i] = b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(of, b.Now()))
			case 2:
				_, errs[i] = b.Office.Open(t.Context(), b.device.Owner, office.OpenForm{ID: s.ID, Learner: other.Person, Skill: "humidifier", Client: b.child, Place: "here", Formal: true})
			}
		})
		taken := 0
		for _, err := range errs {
			if err == nil {
				taken++
			}
		}
		if taken != 1 {
			t.Errorf("%d of three under one id: %v", taken, errs)
		}
	}
	var both int
	wantNone(t, asOwner(t, b.Ward).QueryRow(t.Context(), `select count(*) from sheet join demonstration using (agency_id, id)`).Scan(&both))
	if both > 0 {
		t.Errorf("%d ids are a sheet and a record", both)
	}
}

// A finished sheet cannot be mended, so no place, however long or oddly written, keeps
// what was unsafe from the office; the text stays as it was signed (Unicode Standard
// Annex 44, Default_Ignorable_Code_Point, for what is unseen).
func TestAPlaceKeepsNoFailureOut(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	for place, want := range map[string]string{
		strings.Repeat("home ", 80):  strings.TrimSpace(strings.Repeat("home ", 40)),
		"home \u2764\ufe0f":          "home \u2764",
		"room\u200b 4 \u2028\u202e!": "room 4 !",
	} {
		s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now(), ward.Marked(1, assessment.Unsafe))
		s.Place = place
		b.Pass(time.Hour)
		v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now())))(t)
		if v.Place != want || v.Outcome != assessment.NotYetCompetent {
			t.Errorf("%.20q: %s at %q", place, v.Outcome, v.Place)
		}
	}
}

// A device whose clock was behind while it had no network, and that was set right by it
// before it sent: the gap tells nothing, but no sheet is older than its pack. What went
// wrong is not put before a pass that came earlier, and a pass is not put anywhere (the
// stricter reading, no source).
func TestAClockThatWasSetRightHidesNoFailure(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	b.Pass(48 * time.Hour)
	b.Demonstrate(b.nurse, "humidifier", b.child)
	b.Pass(time.Hour)
	behind := b.Now().Add(-30 * time.Hour)
	pass, unsafe := b.Fill(b.device, b.nurse, "humidifier", b.child, behind), b.Fill(b.device, b.nurse, "humidifier", b.child, behind, ward.Marked(1, assessment.Unsafe))
	b.Pass(time.Hour)
	b.refused(b.device.Send(pass, b.Now()), fault.Refused, "performed before its pack was made")
	v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(unsafe, b.Now())))(t)
	b.Sign(b.device.Owner, v.ID, office.PartObserver)
	if got := word(t, b.Ward, b.nurse, "humidifier", b.child); got != assessment.Withdrawn {
		t.Errorf("after an unsafe performance %v, counted at %v", got, v.PerformedAt)
	}
	if !strings.Contains(v.Bedside.GapWords(), "set in between") || !v.Bedside.Clocks.SetRight() {
		t.Errorf("said: %q of %+v", v.Bedside.GapWords(), v.Bedside.Clocks)
	}
	indexIsRight(t, b.Ward)
}

// A child and a checklist that are newer than a slow clock: nothing was performed before
// the pack that has them, so what was unsafe is taken in, and a pass is not (the stricter
// reading, no source).
func TestASlowClockKeepsNoFailureOut(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	b.Pass(time.Hour)
	newRevision(t, b.Ward, "humidifier", policy("months: 9"), "")
	for name, slow := range map[string]struct{ begun, sent time.Duration }{
		"by days, all the time":     {90 * 24 * time.Hour, 90 * 24 * time.Hour},
		"by days, then set right":   {90 * 24 * time.Hour, 0},
		"by less than is looked at": {4 * time.Minute, 4 * time.Minute},
	} {
		b.nurse = b.Nurse("Nurse slow " + name)
		child := b.Client(fmt.Sprint("9Q", slow.sent), "Odo")
		for _, ways := range [][]ward.Way{{ward.Marked(1, assessment.Unsafe)}, nil} {
			s := b.Fill(b.device, b.nurse, "humidifier", child, b.Now().Add(-slow.begun), ways...)
			b.Pass(20 * time.Minute)
			form := b.device.Send(s, b.Now().Add(-slow.sent))
			if ways == nil && slow.begun > time.Hour {
				b.refused(form, fault.Refused, "")
				continue
			}
			v := must(b.Office.Receive(t.Context(), b.device.Owner, form))(t)
			if (v.Outcome == assessment.Competent) != (ways == nil) {
				t.Errorf("%s: %s", name, v.Outcome)
			}
		}
	}
}

// A sheet that is sent again after its record was taken back, and after its device was
// revoked, brings nothing back; as another sheet it is refused from that device, and what
// was unsafe goes by a new key (the contract of the bedside, no other source).
func TestSentAgainAfterAllWasTakenBack(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	v, s := b.send("humidifier")
	b.Sign(b.device.Owner, v.ID, office.PartObserver)
	b.Sign(b.nurse, v.ID, office.PartLearner)
	wantNone(t, b.Office.CorrectDemonstration(t.Context(), b.device.Owner, v.ID, "Another child.", ward.Proof))
	wantNone(t, b.Office.RevokeDevice(t.Context(), b.device.Owner, b.device.ID))
	again := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now())))(t)
	if again.ID != v.ID || b.records() != 1 || word(t, b.Ward, b.nurse, "humidifier", b.child).Holds() {
		t.Errorf("sent again: %d records, %s", b.records(), word(t, b.Ward, b.nurse, "humidifier", b.child))
	}
	fresh := b.Device(b.device.Owner)
	unsafe := b.Fill(fresh, b.nurse, "humidifier", b.child, b.Now(), ward.Marked(1, assessment.Unsafe))
	b.refused(b.device.Send(unsafe, b.Now()), fault.Forbidden, "was revoked")
	for _, flip := range []func(*ward.OfflineSheet){func(n *ward.OfflineSheet) { n.Formal = false }, func(n *ward.OfflineSheet) { n.TakenBack = n.TakenBack[:0]; n.Stopped = true }} {
		n := s
		flip(&n)
		b.refused(fresh.Send(n, b.Now()), fault.Conflict, "Another text")
	}
	must(b.Office.Receive(t.Context(), b.device.Owner, fresh.Send(unsafe, b.Now())))(t)
	indexIsRight(t, b.Ward)
}

// Whatever else happens at the same moment, what was unsafe is taken in and withdraws, and
// nobody is current of whom the records do not say so.
func TestUnsafeWhileAllElseChanges(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	second := b.Device(b.device.Owner)
	for n := range 6 {
		b.nurse = b.Nurse(fmt.Sprint("Busy nurse ", n))
		b.Demonstrate(b.nurse, "humidifier", b.child)
		unsafe := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now(), ward.Marked(1, assessment.Unsafe))
		pass := b.Fill(second, b.nurse, "humidifier", b.child, b.Now())
		b.Pass(time.Minute)
		var got office.DemonstrationView
		errs := make([]error, 4)
		atOnce(len(errs), func(i int) {
			switch i {
			case 0:
				got, errs[i] = b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(unsafe, b.Now()))
			case 1:
				_, errs[i] = b.Office.Receive(t.Context(), b.device.Owner, second.Send(pass, b.Now()))
			case 2:
				errs[i] = b.Office.PersonLeaves(t.Context(), b.Admin, b.nurse.Person, b.Today().AddDays(1))
			case 3:
				errs[i] = b.Office.RevokeDevice(t.Context(), b.device.Owner, second.ID)
			}
		})
		if errs[0] != nil {
			t.Fatalf("%d: what was unsafe: %v", n, errs[0])
		}
		b.Sign(b.device.Owner, got.ID, office.PartObserver)
		if w := word(t, b.Ward, b.nurse, "humidifier", b.child); w != assessment.Withdrawn {
			t.Errorf("%d: %s after %v", n, w, errs)
		}
		second = b.Device(b.device.Owner)
	}
	indexIsRight(t, b.Ward)
}
