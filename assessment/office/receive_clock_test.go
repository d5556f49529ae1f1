package office_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

// byClock fills a sheet in by a clock that is so much ahead, and sends it an hour later.
func (b *bedside) byClock(ahead time.Duration, skill string, ways ...ward.Way) office.ReceiveForm {
	b.t.Helper()
	s := b.Fill(b.device, b.nurse, skill, b.child, b.Now().Add(ahead), ways...)
	b.Pass(time.Hour)
	return b.device.Send(s, b.Now().Add(ahead))
}

// The instant that counts is the earlier one of the claimed and of that moved by the
// gap, the move only where it is over five minutes; both are kept (the issue's own rule,
// no other source).
func TestAWrongClockOfADevice(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	b.Day("2026-03-10")
	const day = 24 * time.Hour
	for _, c := range []struct {
		ahead, counts time.Duration // counts: after the true instant
		shown         string
	}{
		{0, 0, ""}, {4 * time.Minute, 4 * time.Minute, ""}, {-4 * time.Minute, -4 * time.Minute, ""},
		{6 * time.Minute, 0, "The clock of the device was 6 minutes ahead when it sent this."},
		{-6 * time.Minute, -6 * time.Minute, "The clock of the device was 6 minutes behind when it sent this."},
		{2 * day, 0, "The clock of the device was 2 days ahead when it sent this."},
		{-2 * day, -2 * day, "The clock of the device was 2 days behind when it sent this."},
	} {
		b.nurse = b.Nurse("Nurse by a clock " + c.ahead.String())
		true_ := b.Now()
		v := must(b.Office.Receive(t.Context(), b.device.Owner, b.byClock(c.ahead, "humidifier", ward.Marked(1, assessment.Unsafe))))(t)
		if !v.PerformedAt.Equal(true_.Add(c.counts)) || v.Bedside.GapWords() != c.shown || !v.Bedside.Clocks.Performed.Equal(true_.Add(c.ahead)) || v.Bedside.Gap != -c.ahead {
			t.Errorf("%v ahead: performed %v after it was, %q, claimed %v", c.ahead, v.PerformedAt.Sub(true_), v.Bedside.GapWords(), v.Bedside.Clocks.Performed.Sub(true_))
		}
		b.Pass(day)
	}
}

// What claims to have been performed after it was sent is no pass; a failure is taken
// in, and counts when it came (the stricter reading, no source).
func TestPerformedInTheFuture(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	later := func(ways ...ward.Way) office.ReceiveForm {
		s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now().Add(72*time.Hour), ways...)
		return b.device.Send(s, b.Now())
	}
	b.refused(later(), fault.Refused, "clock of the device was set back")
	v := must(b.Office.Receive(t.Context(), b.device.Owner, later(ward.Marked(1, assessment.Unsafe))))(t)
	if !v.PerformedAt.Equal(b.Now()) {
		t.Errorf("performed at %v, received at %v", v.PerformedAt, b.Now())
	}
}

// A clock that was two days behind makes nobody current: what was performed unsafely
// after a pass is not put before it (the stricter reading, no source).
func TestAWrongClockHidesNoFailure(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	b.Demonstrate(b.nurse, "humidifier", b.child)
	b.Pass(24 * time.Hour)
	was := b.Now()
	v := must(b.Office.Receive(t.Context(), b.device.Owner, b.byClock(-48*time.Hour, "humidifier", ward.Marked(1, assessment.Unsafe))))(t)
	b.Sign(b.device.Owner, v.ID, office.PartObserver)
	if got := word(t, b.Ward, b.nurse, "humidifier", b.child); got != assessment.Withdrawn || !v.PerformedAt.Equal(was) {
		t.Errorf("after an unsafe performance %v, counted at %v, performed at %v", got, v.PerformedAt, was)
	}
}

// A revision that was in force when it was performed is accepted, another one is not
// (the issue's own rule).
func TestARevisionRetiredInBetween(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	before := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now())
	b.Pass(time.Hour)
	newRevision(t, b.Ward, "humidifier", policy("months: 9"), "")
	v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(before, b.Now())))(t)
	if v.Revision != 2 || v.Outcome != assessment.Competent {
		t.Errorf("received on revision %d: %s", v.Revision, v.Outcome)
	}
	for _, ways := range [][]ward.Way{nil, {ward.Marked(1, assessment.Unsafe)}} {
		after := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now(), ways...)
		after.Revision = before.Revision
		b.Pass(time.Minute)
		b.refused(b.device.Send(after, b.Now()), fault.Refused, "Revision 2")
	}
}

// A learner who has left: what was performed before is taken in; of what was performed
// after, a pass is not, and what went wrong is (the contract of the issue, no source).
func TestALearnerWhoHasLeft(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	before := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now())
	b.Pass(48 * time.Hour)
	wantNone(t, b.Office.PersonLeaves(t.Context(), b.Admin, b.nurse.Person, b.Today().AddDays(-1)))
	after := before
	after.ID, after.PerformedAt, after.FinishedAt = ward.NewID(b.Now()), ward.ByDevice(b.Now()), ward.ByDevice(b.Now())
	b.refused(b.device.Send(after, b.Now()), fault.Refused, "left the agency on")
	after.Stopped, after.StopReason, after.Outcome.Outcome = true, "Pulled at the tube.", "stopped for safety"
	if v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(after, b.Now())))(t); v.Outcome != assessment.StoppedForSafety {
		t.Errorf("received: %s", v.Outcome)
	}
	if v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(before, b.Now())))(t); v.Outcome != assessment.Competent {
		t.Errorf("of before: %s", v.Outcome)
	}
}

// The child's values as they stood at the office count; where the outcome is another one,
// both are kept (the issue's own rule).
func TestValuesThatChangedMeanwhile(t *testing.T) {
	t.Parallel()
	b := atBedside(t)
	newRevision(t, b.Ward, "humidifier", func(source string) string { return policy("pass_mark: 1")(oneIsEnough(source)) }, "")
	b.Pass(time.Hour)
	s := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now().Add(time.Minute))
	must(b.Office.SetParameters(t.Context(), b.Educators[0], b.child, []office.ParameterForm{{Name: "temp_low", Value: "30", Unit: "degC"}, {Name: "temp_high", Value: "31", Unit: "degC"}}))(t)
	b.Pass(time.Hour)
	v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now())))(t)
	if !v.Bedside.Differs || v.Bedside.Outcome != assessment.Competent || v.Outcome != assessment.NotYetCompetent || *v.Bedside.Score != "1" || *v.Score == "1" {
		t.Errorf("the device: %s, the office: %s, differs %v", v.Bedside.Outcome, v.Outcome, v.Bedside.Differs)
	}
	if want := "The device said competent. The office says not yet competent, and that stands."; v.Bedside.OutcomesWords(v.Outcome) != want {
		t.Errorf("said: %q", v.Bedside.OutcomesWords(v.Outcome))
	}
	for what, lie := range map[string]func(*ward.OfflineSheet){
		"another outcome": func(n *ward.OfflineSheet) { n.Outcome.Outcome = "not yet competent" },
		"another score":   func(n *ward.OfflineSheet) { half := "1/2"; n.Outcome.Score = &half },
		"no score":        func(n *ward.OfflineSheet) { n.Outcome.Score = nil },
		"other reasons":   func(n *ward.OfflineSheet) { n.Outcome.Reasons = []ward.OfflineReason{{Rule: "cues"}} },
	} {
		n := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now())
		b.Pass(time.Minute * 10)
		lie(&n)
		if v := must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(n, b.Now())))(t); !v.Bedside.Differs || v.Outcome != assessment.Competent || v.Bedside.OutcomesWords(v.Outcome) == "" {
			t.Errorf("%s: %+v", what, v.Bedside)
		}
	}
}

// An observer whose licence has lapsed: no pass of theirs counts, and what went wrong is
// taken in all the same (the contract of the issue, no source).
func TestAnObserverWithoutALicence(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	ines := b.Educator("Ines Park")
	b.Appoint(ines, b.Educators[1], "humidifier")
	b.device = b.Device(ines)
	pass, unsafe := b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now()), b.Fill(b.device, b.nurse, "humidifier", b.child, b.Now(), ward.Marked(2, assessment.Unsafe))
	for _, l := range must(b.Office.Qualifications(t.Context(), b.Admin, ines.Person))(t).Licences {
		wantNone(t, b.Office.TakeBack(t.Context(), b.Coordinator, office.TakeBackForm{Kind: postgres.LicenceEntry, ID: l.ID, Reason: "It has lapsed.", Proof: ward.Proof}))
	}
	b.Pass(time.Hour)
	b.refused(b.device.Send(pass, b.Now()), fault.Refused, "licence")
	if v := must(b.Office.Receive(t.Context(), ines, b.device.Send(unsafe, b.Now())))(t); v.Outcome != assessment.NotYetCompetent {
		t.Errorf("received: %s", v.Outcome)
	}
	if all := must(b.Office.Demonstrations(t.Context(), b.Coordinator, postgres.DemonstrationFilter{Learner: b.nurse.Person}))(t); len(all.Items) != 1 || slices.ContainsFunc(all.Items, func(d postgres.Demonstration) bool { return d.Outcome == assessment.Competent }) {
		t.Errorf("recorded: %+v", all.Items)
	}
}

// What comes first is asked of a pass, as where one is opened here, and not of what went
// wrong (the contract of the issue, no source).
func TestWhatComesFirstIsAskedOfAPassOnly(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "suction")
	pass, unsafe := b.Fill(b.device, b.nurse, "suction", b.child, b.Now()), b.Fill(b.device, b.nurse, "suction", b.child, b.Now(), ward.Marked(1, assessment.Unsafe))
	b.Pass(time.Hour)
	b.refused(b.device.Send(pass, b.Now()), fault.Refused, "Not current in what comes first")
	pass.Formal = false // practice asks for nothing that comes first
	for _, s := range []ward.OfflineSheet{pass, unsafe} {
		if s.Formal {
			s.ID = ward.NewID(b.Now())
		}
		must(b.Office.Receive(t.Context(), b.device.Owner, b.device.Send(s, b.Now())))(t)
	}
	if n := b.records(); n != 2 {
		t.Errorf("%d records", n)
	}
}
