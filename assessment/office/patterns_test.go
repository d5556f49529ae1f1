package office_test

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// A pattern, what is otherwise on one day, and what changes from a day on. What was stays.
func TestPatterns(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	ctx := t.Context()
	id := must(h.Office.AddPattern(ctx, h.Coordinator, h.pattern(h.nan.Person, "19:00", "07:00", 1, 3)))(t) // Monday 2 and Wednesday 4 February
	view := func() office.PatternView {
		v := must(h.Office.ClientRoster(ctx, h.Coordinator, h.mira))(t)
		if len(v.Patterns) == 0 {
			return office.PatternView{}
		}
		return v.Patterns[0]
	}
	day := func(on, from, until string, who assessment.PersonID) office.PatternDayForm {
		return office.PatternDayForm{Version: view().Version, On: on, Person: who, From: from, Until: until}
	}
	wantAtField(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, day("2026-02-03", "19:00", "07:00", h.ola.Person)), "on", "no shift that begins")
	wantAtField(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, day("2026-02-31", "19:00", "07:00", h.ola.Person)), "on", "")
	wantAtField(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, day("2026-02-04", "19:00", "24:00", h.ola.Person)), "until", "")
	wantAtPerson(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, day("2026-02-04", "19:00", "07:00", h.pia.Person)), "not current")
	wantAtPerson(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, day("2026-02-04", "19:00", "07:00", h.ari.Person)), "kind nurse")
	wantNone(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, day("2026-02-04", "20:00", "06:00", h.ola.Person)))
	wantNone(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, office.PatternDayForm{Version: view().Version, On: "2026-02-09", LeftOut: true}))
	var got []string
	for _, l := range h.coverage(office.CoverageQuery{}).Lines {
		got = append(got, l.Starts.Format("02T15:04")+"-"+l.Ends.Format("02T15:04")+" "+l.Person.Name)
	}
	if want := "02T19:00-03T07:00 Nan Orme, 04T20:00-05T06:00 Ola Reed, 11T19:00-12T07:00 Nan Orme"; strings.Join(got, ", ") != want {
		t.Errorf("shifts: %s", strings.Join(got, ", "))
	}
	_, err := h.Office.AddPattern(ctx, h.Coordinator, h.pattern(h.nan.Person, "06:00", "12:00", 2))
	wantAtPerson(t, err, "another shift then: Mira, from 2 February 2026, 19:00 until 07:00")
	h.Day("2026-02-05")
	f := h.pattern(h.nan.Person, "18:00", "07:00", 1, 3)
	f.Version, f.FromOn = view().Version, ""
	next := must(h.Office.ChangePattern(ctx, h.Coordinator, id, f))(t)
	if next == id || len(view().Exceptions) != 1 || view().Exceptions[0].On.String() != "2026-02-09" || view().FromOn != h.Today() {
		t.Errorf("what goes on: %+v", view())
	}
	past := h.coverage(office.CoverageQuery{From: civil.MustParse("2026-02-01"), Through: civil.MustParse("2026-02-11")})
	got = nil
	for _, l := range past.Lines {
		got = append(got, l.Starts.Format("02T15:04")+" "+l.Person.Name)
	}
	if want := "02T19:00 Nan Orme, 04T20:00 Ola Reed, 11T18:00 Nan Orme"; strings.Join(got, ", ") != want {
		t.Errorf("what was stays: %s", strings.Join(got, ", "))
	}
	wantRefusal(t, h.Office.EndPattern(ctx, h.Coordinator, next, f.Version), fault.Conflict, "changed this pattern")
	wantNone(t, h.Office.LiftPatternDay(ctx, h.Coordinator, next, civil.MustParse("2026-02-09")))
	wantRefusal(t, h.Office.LiftPatternDay(ctx, h.Coordinator, next, civil.MustParse("2026-02-09")), fault.NotFound, "")
	wantNone(t, h.Office.EndPattern(ctx, h.Coordinator, next, view().Version))
	if c := h.coverage(office.CoverageQuery{}).Counts; c.Shifts != 0 {
		t.Errorf("ended: %+v", c)
	}
}

// Patterns that are none.
func TestPatternsThatAreRefused(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	for field, change := range map[string]func(*office.PatternForm){
		"weekdays":   func(f *office.PatternForm) { f.Weekdays = nil },
		"from":       func(f *office.PatternForm) { f.From = "7:00" },
		"until":      func(f *office.PatternForm) { f.Until = "24:00" },
		"from_on":    func(f *office.PatternForm) { f.FromOn = "2026-01-31" },
		"through_on": func(f *office.PatternForm) { f.ThroughOn = "2026-01-31" },
		"kind":       func(f *office.PatternForm) { f.Kind = "doctor" },
		"short_rest": func(f *office.PatternForm) { f.ShortRest = "x" },
		"client":     func(f *office.PatternForm) { f.Client = "" },
	} {
		f := h.pattern(h.nan.Person, "07:00", "19:00", 1)
		change(&f)
		wantAtField(t, one(h.Office.AddPattern(t.Context(), h.Coordinator, f)), field, "")
	}
	f := h.pattern(h.nan.Person, "07:00", "19:00", 1, 8)
	wantAtField(t, one(h.Office.AddPattern(t.Context(), h.Coordinator, f)), "weekdays", "from 1, Monday")
	f.Weekdays, f.Kind = []int{1}, "aide"
	wantAtPerson(t, one(h.Office.AddPattern(t.Context(), h.Coordinator, f)), "kind aide")
	f.Kind, f.Person = "", h.Coordinator.Person
	wantAtPerson(t, one(h.Office.AddPattern(t.Context(), h.Coordinator, f)), "no caregiver")
	wantNone(t, h.Office.SetRest(t.Context(), h.Coordinator, "13"))
	f.Person, f.Weekdays = h.nan.Person, []int{1, 2}
	wantAtField(t, one(h.Office.AddPattern(t.Context(), h.Coordinator, f)), "short_rest", "12 hours of rest")
	f.ShortRest = "they asked for it"
	must(h.Office.AddPattern(t.Context(), h.Coordinator, f))(t)
	if c := h.coverage(office.CoverageQuery{}).Counts; c.Clashes != 0 || c.Shifts != 4 {
		t.Errorf("with a reason: %+v", c)
	}
}
