package office_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// whoWas lists who was on each shift from a day through another.
func (h *home) whoWas(from, through string) string {
	h.t.Helper()
	var all []string
	for _, l := range h.coverage(office.CoverageQuery{From: civil.MustParse(from), Through: civil.MustParse(through)}).Lines {
		all = append(all, l.Starts.Format("02T15:04")+" "+l.Person.Name)
	}
	return strings.Join(all, ", ")
}

// evening is a day at 20:00.
func (h *home) evening(day string) { h.At(civil.MustParse(day).In(h.Zone).Add(20 * time.Hour)) }

// Whoever changes or ends a pattern in the evening does not change who was there that day. No
// source: what a packet later tells of that day is what was.
func TestWhatBeganTodayStaysWhereItsPatternChanges(t *testing.T) {
	t.Parallel()
	for what, act := range map[string]func(h *home, id assessment.PatternID, version string) error{
		"changed": func(h *home, id assessment.PatternID, version string) error {
			f := h.pattern(h.ola.Person, "06:00", "18:00", 1, 2, 3, 4, 5, 6, 7)
			f.Version = version
			return one(h.Office.ChangePattern(t.Context(), h.Coordinator, id, f))
		},
		"ended": func(h *home, id assessment.PatternID, version string) error {
			return h.Office.EndPattern(t.Context(), h.Coordinator, id, version)
		},
	} {
		for _, first := range []string{"2026-02-01", "2026-02-03"} { // begun days ago, and today
			t.Run(fmt.Sprint(what, " ", first), func(t *testing.T) {
				t.Parallel()
				h := newHome(t)
				f := h.pattern(h.nan.Person, "07:00", "19:00", 1, 2, 3, 4, 5, 6, 7)
				f.FromOn = first
				id := must(h.Office.AddPattern(t.Context(), h.Coordinator, f))(t)
				h.evening("2026-02-03")
				version := must(h.Office.ClientRoster(t.Context(), h.Coordinator, h.mira))(t).Patterns[0].Version
				wantNone(t, act(h, id, version))
				h.Day("2026-02-04") // of today only what is not over is told
				if got := h.whoWas("2026-02-03", "2026-02-03"); got != "03T07:00 Nan Orme" {
					t.Errorf("that day: %s", got)
				}
				want := map[string]string{"changed": "04T06:00 Ola Reed", "ended": ""}[what]
				if got := h.whoWas("2026-02-04", "2026-02-04"); got != want {
					t.Errorf("the day after: %s", got)
				}
			})
		}
	}
}

// Nor does a single day that is over change.
func TestADayOfAPatternThatIsOverStays(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	ctx := t.Context()
	id := must(h.Office.AddPattern(ctx, h.Coordinator, h.pattern(h.nan.Person, "07:00", "19:00", 2)))(t)
	version := must(h.Office.ClientRoster(ctx, h.Coordinator, h.mira))(t).Patterns[0].Version
	day := office.PatternDayForm{Version: version, On: "2026-02-03", Person: h.ola.Person, From: "07:00", Until: "19:00"}
	wantNone(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, day))
	h.evening("2026-02-03")
	for what, change := range map[string]func(*office.PatternDayForm){
		"left out": func(f *office.PatternDayForm) { f.LeftOut = true }, "open": func(f *office.PatternDayForm) { f.Person = "" },
		"another": func(f *office.PatternDayForm) { f.Person = h.nan.Person }, "later": func(f *office.PatternDayForm) { f.From, f.Until = "21:00", "23:00" },
	} {
		f := day
		change(&f)
		if err := h.Office.SetPatternDay(ctx, h.Coordinator, id, f); fault.KindOf(err) != fault.Refused {
			t.Errorf("%s: %v", what, err)
		}
	}
	wantRefusal(t, h.Office.LiftPatternDay(ctx, h.Coordinator, id, civil.MustParse("2026-02-03")), fault.Refused, "stays as it was")
	h.Day("2026-02-04")
	if got := h.whoWas("2026-02-03", "2026-02-03"); got != "03T07:00 Ola Reed" {
		t.Errorf("that day: %s", got)
	}
}

// A day that somebody else takes goes on being theirs where the pattern changes, and so is no
// clash of whoever usually is on it.
func TestAPatternChangesAroundADayThatSomebodyElseTakes(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	ctx := t.Context()
	tam := h.Client("8K", "Tam")
	h.Award(h.nan, "humidifier", tam)
	id := must(h.Office.AddPattern(ctx, h.Coordinator, h.pattern(h.nan.Person, "07:00", "19:00", 1, 3)))(t)
	version := func() string {
		all := must(h.Office.ClientRoster(ctx, h.Coordinator, h.mira))(t).Patterns
		return all[slices.IndexFunc(all, func(p office.PatternView) bool { return p.ID == id })].Version
	}
	wantNone(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, office.PatternDayForm{Version: version(), On: "2026-02-09", Person: h.ola.Person, From: "07:00", Until: "19:00"}))
	must(h.Office.AddRosterShift(ctx, h.Coordinator, office.RosterShiftForm{Client: tam, Person: h.nan.Person, Starts: "2026-02-09T07:00", Ends: "2026-02-09T19:00"}))(t)
	f := h.pattern(h.nan.Person, "08:00", "19:00", 1, 3)
	f.Version = version()
	id = must(h.Office.ChangePattern(ctx, h.Coordinator, id, f))(t)
	if got := h.whoWas("2026-02-08", "2026-02-11"); got != "09T07:00 Nan Orme, 09T07:00 Ola Reed, 11T08:00 Nan Orme" && got != "09T07:00 Ola Reed, 09T07:00 Nan Orme, 11T08:00 Nan Orme" {
		t.Errorf("%s", got)
	}
	wantNone(t, h.Office.SetPatternDay(ctx, h.Coordinator, id, office.PatternDayForm{Version: version(), On: "2026-02-16", Person: h.ola.Person, From: "07:00", Until: "19:00"}))
	g := h.pattern(h.ola.Person, "06:00", "12:00", 1)
	wantAtPerson(t, one(h.Office.AddPattern(ctx, h.Coordinator, g)), "another shift then") // what others take on such days is in their way all the same
}
