package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// home is a ward with one child, whose nurses must be current in humidifier care for
// them: Nan and Ola are, Pia never was; and an aide of whom nothing is required.
type home struct {
	*ward.Ward
	t                  *testing.T
	mira               assessment.ClientID
	nan, ola, pia, ari assessment.Actor
}

func newHome(t *testing.T) *home {
	t.Helper()
	w := ward.New(t, ward.WithCertificate(drawn))
	mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
	newRevision(t, w, "humidifier", oneIsEnough, "")
	h := &home{Ward: w, t: t, mira: mira, nan: nan, ola: w.Nurse("Ola Reed"), pia: w.Nurse("Pia Lund"), ari: w.Aide("Ari Holm")}
	w.Require("humidifier", assessment.Nurse)
	w.Award(nan, "humidifier", mira)
	w.Award(h.ola, "humidifier", mira)
	w.Day("2026-02-01")
	return h
}

func (h *home) shift(who assessment.PersonID, starts, ends string) office.RosterShiftForm {
	return office.RosterShiftForm{Client: h.mira, Person: who, Starts: starts, Ends: ends}
}

func (h *home) add(who assessment.PersonID, starts, ends string) assessment.ShiftID {
	h.t.Helper()
	return must(h.Office.AddRosterShift(h.t.Context(), h.Coordinator, h.shift(who, starts, ends)))(h.t)
}

func (h *home) coverage(q office.CoverageQuery) office.Coverage {
	h.t.Helper()
	return must(h.Office.Coverage(h.t.Context(), h.Coordinator, q))(h.t)
}

func (h *home) desk(id assessment.ShiftID) office.ShiftDesk {
	h.t.Helper()
	return must(h.Office.ShiftDesk(h.t.Context(), h.Coordinator, id))(h.t)
}

func (h *home) give(id assessment.ShiftID, to assessment.PersonID, why string) error {
	h.t.Helper()
	return h.Office.GiveShift(h.t.Context(), h.Coordinator, office.GiveForm{Shift: id, Version: h.desk(id).Version, Person: to, ShortRest: why})
}

func (h *home) pattern(who assessment.PersonID, from, until string, days ...int) office.PatternForm {
	return office.PatternForm{Client: h.mira, Person: who, Weekdays: days, From: from, Until: until, FromOn: h.Today().String()}
}

// wantAtPerson is a refusal that stands at who takes a shift.
func wantAtPerson(t *testing.T, err error, says string) {
	t.Helper()
	if f, ok := fault.As(err); !ok || f.Kind != fault.Refused || !strings.Contains(f.Fields["person"], says) {
		t.Errorf("got %v, want a refusal at person saying %q", err, says)
	}
}

// What no shift can be, and who cannot be on one: common practice, no source.
func TestShiftsThatAreRefused(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	ctx := t.Context()
	for _, c := range []struct{ field, starts, ends string }{
		{"ends", "2026-02-04T19:00", "2026-02-04T19:00"},
		{"ends", "2026-02-04T19:00", "2026-02-04T07:00"},
		{"ends", "2026-02-04T19:00", "2026-02-05T20:01"},
		{"starts", "2026-02-31T07:00", "2026-03-01T07:00"},
		{"ends", "2026-02-28T07:00", "2026-02-29T07:00"},
		{"starts", "2026-03-08T02:30", "2026-03-08T07:00"}, // the clocks skip it: IANA, America/Denver
		{"starts", "", "2026-02-05T07:00"},
		{"ends", "2026-01-31T07:00", "2026-01-31T19:00"}, // over
		{"starts", "2062-02-04T07:00", "2062-02-04T19:00"},
	} {
		_, err := h.Office.AddRosterShift(ctx, h.Coordinator, h.shift(h.nan.Person, c.starts, c.ends))
		wantAtField(t, err, c.field, "")
	}
	add := func(change func(*office.RosterShiftForm)) error {
		f := h.shift(h.nan.Person, "2026-02-04T07:00", "2026-02-04T19:00")
		change(&f)
		_, err := h.Office.AddRosterShift(ctx, h.Coordinator, f)
		return err
	}
	wantAtPerson(t, add(func(f *office.RosterShiftForm) { f.Person = h.pia.Person }), "not current in")
	wantAtPerson(t, add(func(f *office.RosterShiftForm) { f.Person = h.ari.Person }), "Nothing is required of Ari Holm")
	wantAtPerson(t, add(func(f *office.RosterShiftForm) { f.Kind = "aide" }), "asks for a caregiver of the kind aide")
	wantAtPerson(t, add(func(f *office.RosterShiftForm) { f.Person = h.Coordinator.Person }), "no caregiver")
	wantAtField(t, add(func(f *office.RosterShiftForm) { f.Kind = "doctor" }), "kind", "")
	wantAtField(t, add(func(f *office.RosterShiftForm) { f.ShortRest = "no matter" }), "short_rest", "")
	other := ward.Beside(t, h.Ward)
	stranger, child := other.Nurse("Nan Orme"), other.Client("7K", "Mira")
	wantRefusal(t, add(func(f *office.RosterShiftForm) { f.Person = stranger.Person }), fault.NotFound, "no such record")
	wantRefusal(t, add(func(f *office.RosterShiftForm) { f.Client = child }), fault.NotFound, "no such record")
	wantRefusal(t, add(func(f *office.RosterShiftForm) { f.Client = "" }), fault.Invalid, "")
	id := h.add(h.nan.Person, "2026-02-04T07:00", "2026-02-04T19:00")
	wantAtPerson(t, add(func(f *office.RosterShiftForm) { f.Starts, f.Ends = "2026-02-04T18:59", "2026-02-04T23:00" }), "another shift then: Mira, from 4 February 2026, 07:00 until 19:00")
	if _, err := other.Office.ShiftDesk(ctx, other.Coordinator, id); fault.KindOf(err) != fault.NotFound {
		t.Errorf("another agency's shift: %v", err)
	}
	if v := must(other.Office.Coverage(ctx, other.Coordinator, office.CoverageQuery{}))(t); v.Counts.Shifts != 0 {
		t.Errorf("another agency's coverage: %+v", v.Counts)
	}
	for _, id := range []assessment.ShiftID{"", "x", assessment.ShiftID(h.mira), assessment.ShiftID(h.mira) + ".2026-02-04", assessment.ShiftID(h.mira) + ".2026-02-31", id + ".2026-02-04"} {
		_, err := h.Office.ShiftDesk(ctx, h.Coordinator, id)
		wantRefusal(t, err, fault.NotFound, "no such record")
	}
	_, err := h.Office.AddRosterShift(ctx, h.nan, h.shift(h.nan.Person, "2026-02-06T07:00", "2026-02-06T19:00"))
	wantRefusal(t, err, fault.Forbidden, "")
}

func TestChangingAShift(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	ctx := t.Context()
	f := h.shift(h.nan.Person, "2026-02-04T07:00", "2026-02-04T19:00")
	f.ID = "019c0000-0000-7000-8000-000000000001"
	id := must(h.Office.AddRosterShift(ctx, h.Coordinator, f))(t)
	if again := must(h.Office.AddRosterShift(ctx, h.Coordinator, f))(t); again != id || h.coverage(office.CoverageQuery{}).Counts.Shifts != 1 {
		t.Errorf("sent twice: %s", again)
	}
	f.Ends = "2026-02-04T20:00"
	_, err := h.Office.AddRosterShift(ctx, h.Coordinator, f)
	wantRefusal(t, err, fault.Conflict, "not like this")
	f.Version = h.desk(id).Version
	wantNone(t, h.Office.ChangeRosterShift(ctx, h.Coordinator, id, f))
	wantRefusal(t, h.Office.ChangeRosterShift(ctx, h.Coordinator, id, f), fault.Conflict, "changed this shift since")
	if d := h.desk(id); d.Ends.Format(time.RFC3339) != "2026-02-04T20:00:00-07:00" || d.Word != assessment.Covered {
		t.Errorf("changed: %+v", d.CoverLine)
	}
	wantRefusal(t, h.Office.RemoveRosterShift(ctx, h.Coordinator, id, f.Version), fault.Conflict, "")
	h.At(time.Date(2026, 2, 4, 15, 0, 0, 0, time.UTC)) // 08:00 there
	wantRefusal(t, h.Office.RemoveRosterShift(ctx, h.Coordinator, id, h.desk(id).Version), fault.Refused, "has begun")
	h.Day("2026-02-05")
	wantRefusal(t, h.give(id, h.ola.Person, ""), fault.Refused, "is over")
	next := h.add("", "2026-02-06T07:00", "2026-02-06T19:00")
	wantNone(t, h.Office.RemoveRosterShift(ctx, h.Coordinator, next, h.desk(next).Version))
	wantRefusal(t, h.Office.RemoveRosterShift(ctx, h.Coordinator, next, ""), fault.NotFound, "")
}

// Who is given a shift: an aide never stands in for a nurse, not even after the nurse was
// taken off it; too little rest asks for a reason. Common practice, no source.
func TestGivingAShift(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	h.Require("circuit-test", assessment.Aide)
	h.Award(h.ari, "circuit-test", h.mira)
	id := h.add(h.nan.Person, "2026-03-04T07:00", "2026-03-04T19:00")
	before := h.add(h.ola.Person, "2026-03-03T21:00", "2026-03-04T00:00")
	stale := h.desk(id).Version
	d := h.desk(id)
	if len(d.Able) != 1 || d.Able[0].Person.Name != "Ola Reed" || d.Able[0].Hours != 3*time.Hour {
		t.Errorf("who could: %+v", d.Able)
	}
	why := map[string]assessment.Hindrance{}
	for _, n := range d.Not {
		why[n.Person.Name] = n.Why
	}
	if len(why) != 2 || why["Pia Lund"] != assessment.NotHeld || why["Ari Holm"] != assessment.OtherKind {
		t.Errorf("who could not: %v", why)
	}
	wantAtPerson(t, h.give(id, h.pia.Person, ""), "not current")
	wantAtPerson(t, h.give(id, h.ari.Person, ""), "kind nurse")
	wantRefusal(t, h.give(id, h.nan.Person, ""), fault.Conflict, "already")
	wantNone(t, h.give(id, "", ""))
	if d := h.desk(id); d.Word != assessment.OpenYet || d.Kind != assessment.Nurse {
		t.Errorf("nobody is on it: %+v", d.CoverLine)
	}
	wantAtPerson(t, h.give(id, h.ari.Person, ""), "kind nurse")
	wantRefusal(t, h.Office.GiveShift(t.Context(), h.Coordinator, office.GiveForm{Shift: id, Version: stale, Person: h.ola.Person}), fault.Conflict, "changed this shift")
	wantAtField(t, h.Office.SetRest(t.Context(), h.Coordinator, "25"), "hours", "1 through 24")
	wantAtField(t, h.Office.SetRest(t.Context(), h.Coordinator, "eight"), "hours", "")
	wantNone(t, h.Office.SetRest(t.Context(), h.Coordinator, "8"))
	wantAtField(t, h.give(id, h.ola.Person, ""), "short_rest", "7 hours of rest")
	wantAtField(t, h.give(id, h.ola.Person, "because"), "short_rest", "reasons in the list")
	wantNone(t, h.give(id, h.ola.Person, "nobody else could"))
	if v := h.coverage(office.CoverageQuery{Through: civil.MustParse("2026-03-05")}); v.Counts.Clashes != 0 || v.Counts.Covered != 2 {
		t.Errorf("with a reason: %+v", v.Counts)
	}
	wantNone(t, h.Office.SetRest(t.Context(), h.Coordinator, ""))
	wantNone(t, h.give(before, h.nan.Person, ""))
}

// The first breaking shift, its mending and its proof, and several shared out at once.
func TestCoverageOfWhatLapses(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	last := h.Standing(h.nan, "humidifier", h.mira, h.Today()).Through
	h.Day(last.AddDays(-3).String())
	at := func(day civil.Date, clock string) string { return day.String() + "T" + clock }
	h.add(h.nan.Person, at(last, "07:00"), at(last, "19:00"))
	wantAtPerson(t, one(h.Office.AddRosterShift(t.Context(), h.Coordinator, h.shift(h.nan.Person, at(last, "19:00"), at(last.AddDays(1), "07:00")))), "not current")
	must(h.Office.AddPattern(t.Context(), h.Coordinator, h.pattern(h.nan.Person, "20:00", "00:00", 1, 2, 3, 4, 5, 6, 7)))(t)
	v := h.coverage(office.CoverageQuery{Through: last.AddDays(2)})
	if v.Counts != (office.CoverageCounts{Shifts: 7, Covered: 5, Breaks: 2}) || len(v.Lines) != 7 {
		t.Fatalf("counts: %+v of %d", v.Counts, len(v.Lines))
	}
	if len(v.First) != 1 || civil.DayOf(v.First[0].Starts, h.Zone) != last.AddDays(1) || v.First[0].Lacks[0].Skill.Code != "humidifier" || v.First[0].Lacks[0].With.Code != "7K" {
		t.Errorf("first: %+v", v.First)
	}
	if got := h.coverage(office.CoverageQuery{Through: last.AddDays(2), State: "breaks"}).Lines; len(got) != 2 {
		t.Errorf("those that break: %d", len(got))
	}
	first := v.First[0].ID
	if d := h.desk(first); len(d.Able) != 1 || d.Able[0].Person.Name != "Ola Reed" {
		t.Errorf("Ola was awarded a day later: %+v", d.Able)
	}
	if d := h.desk(v.Lines[6].ID); len(d.Able) != 0 || len(d.Not) != 3 {
		t.Errorf("the day after nobody can: %+v, %+v", d.Able, d.Not)
	}
	both := must(h.Office.ShareOut(t.Context(), h.Coordinator, []assessment.ShiftID{v.Lines[5].ID, v.Lines[6].ID}))(t)
	if len(both.Takes) != 1 || len(both.None) != 1 || both.Takes[0].Takes.Name != "Ola Reed" {
		t.Errorf("one person, two shifts: %+v", both)
	}
	wantNone(t, h.Office.GiveShifts(t.Context(), h.Coordinator, []office.GiveForm{{Shift: both.Takes[0].ID, Version: both.Takes[0].Version, Person: both.Takes[0].Takes.ID}}))
	if c := h.coverage(office.CoverageQuery{Through: last.AddDays(2)}).Counts; c.Breaks != 1 || c.Covered != 6 {
		t.Errorf("mended: %+v", c)
	}
	for _, ids := range [][]assessment.ShiftID{nil, {"x"}, {first + "x"}} {
		if _, err := h.Office.ShareOut(t.Context(), h.Coordinator, ids); err == nil {
			t.Errorf("shared out: %v", ids)
		}
	}
}

func one[T any](_ T, err error) error { return err }
