package assessment_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
)

// washing is a small checklist; each call makes a new one.
func washing() assessment.Checklist {
	two := 2
	return assessment.Checklist{
		Code: "wash-hands", Title: "Wash hands", Scope: assessment.General, Safety: []string{"Orders come first."},
		Equipment: []string{"soap", "towel"}, Prerequisites: []string{"greeting"},
		Parameters: []assessment.Parameter{{Name: "wash_min", Says: "shortest wash", Unit: "s"}},
		Policy: assessment.Policy{
			Scoring:  assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.MustNumber("95/100"), CueLimit: &two},
			Award:    assessment.Award{Count: 3, Days: 2, Observers: 1, SpanDays: 180, Consecutive: true},
			Validity: assessment.Validity{Months: 12, Anchor: assessment.Anniversary, RenewalDays: 60, NoticeDays: 30},
		},
		Sections: []assessment.Section{
			{Title: "Before", Steps: []assessment.Step{
				{No: 1, Text: "Say why hands are washed", Kind: assessment.Said, Weight: 1},
				{No: 2, Text: "Take rings off", Kind: assessment.Done, Weight: 1, MayNotApply: "None are worn."},
			}},
			{Title: "Wash", Steps: []assessment.Step{
				{No: 3, Text: "Wet both hands", Kind: assessment.Done, Weight: 1},
				{No: 4, Text: "Rub palms, backs and thumbs", Kind: assessment.Timed, Weight: 1, Critical: true, Because: "Infection",
					Least: assessment.Independent, Measures: []assessment.Measure{{Name: "time", Unit: "s", Low: &assessment.Bound{Parameter: "wash_min"}}}},
				{No: 5, Text: "Dry with a clean towel", Kind: assessment.Done, Weight: 1},
			}},
		},
		Sources: []string{"WHO 2009"},
	}
}

// steps puts other steps in place of a section's and numbers all of them again.
func steps(c assessment.Checklist, section int, with ...assessment.Step) assessment.Checklist {
	c.Sections[section].Steps = with
	no := 0
	for _, s := range c.Sections {
		for i := range s.Steps {
			no++
			s.Steps[i].No = no
		}
	}
	return c
}

func told(changes []assessment.Change) string {
	var lines []string
	for _, c := range changes {
		lines = append(lines, fmt.Sprintf("%s, %s: %q → %q", c.Where, c.Called(), c.Before, c.After))
	}
	return strings.Join(lines, "\n")
}

func TestNoDifference(t *testing.T) {
	if got := assessment.Diff(washing(), washing()); len(got) > 0 {
		t.Errorf("between two of the same:\n%s", told(got))
	}
}

func TestAnInsertedStepIsOneChange(t *testing.T) {
	new := washing()
	new = steps(new, 0, new.Sections[0].Steps[0], assessment.Step{Text: "Roll sleeves up", Kind: assessment.Done, Weight: 1}, new.Sections[0].Steps[1])
	want := `Step 2, added: "" → "Roll sleeves up; done; not critical; always applies"`
	if got := told(assessment.Diff(washing(), new)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	want = `Old step 2, removed: "Roll sleeves up; done; not critical; always applies" → ""`
	if got := told(assessment.Diff(new, washing())); got != want {
		t.Errorf("the other way got\n%s\nwant\n%s", got, want)
	}
}

func TestARewordedStepIsOneChangeThoughOthersCome(t *testing.T) {
	new := washing()
	first := new.Sections[0].Steps[0]
	first.Text = "Say why and when hands are washed"
	new = steps(new, 0, assessment.Step{Text: "Greet the child", Kind: assessment.Said, Weight: 1}, first, new.Sections[0].Steps[1])
	want := `Step 1, added: "" → "Greet the child; said aloud; not critical; always applies"` + "\n" +
		`Step 2, text: "Say why hands are washed" → "Say why and when hands are washed"`
	if got := told(assessment.Diff(washing(), new)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestAStepWrittenAnewInItsPlaceIsOneChange(t *testing.T) {
	new := washing()
	new.Sections[1].Steps[0].Text = "Run warm water"
	want := `Step 3, text: "Wet both hands" → "Run warm water"`
	if got := told(assessment.Diff(washing(), new)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestAMovedStepIsToldAsMoved(t *testing.T) {
	new := washing()
	wet, rub, dry := new.Sections[1].Steps[0], new.Sections[1].Steps[1], new.Sections[1].Steps[2]
	new = steps(new, 1, rub, dry, wet)
	want := `Step 5, moved: "step 3" → "Step 5"`
	if got := told(assessment.Diff(washing(), new)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestEachPartOfAStepIsCompared(t *testing.T) {
	step := func(c assessment.Checklist) *assessment.Step { return &c.Sections[1].Steps[1] }
	for _, row := range []struct {
		change func(s *assessment.Step)
		want   string
	}{
		{func(s *assessment.Step) { s.Kind = assessment.Measured }, `Step 4, kind: "timed" → "measured"`},
		{func(s *assessment.Step) { s.Critical, s.Because, s.Least = false, "", "" }, `Step 4, critical: "critical (Infection), at least independent" → "not critical"`},
		{func(s *assessment.Step) { s.Because = "Germs" }, `Step 4, critical: "critical (Infection), at least independent" → "critical (Germs), at least independent"`},
		{func(s *assessment.Step) { s.Least = assessment.Cued }, `Step 4, critical: "critical (Infection), at least independent" → "critical (Infection), at least cued"`},
		{func(s *assessment.Step) { s.Weight = 2 }, `Step 4, weight: "1" → "2"`},
		{func(s *assessment.Step) { s.MayNotApply = "Gloves" }, `Step 4, not applicable: "always applies" → "may not apply: Gloves"`},
		{func(s *assessment.Step) { s.Note = "Count aloud." }, `Step 4, note: "" → "Count aloud."`},
		{func(s *assessment.Step) { s.Measures[0].Low = fixedAt("40") }, `Step 4, accepted range of time: "at least {wash_min} s" → "at least 40 s"`},
		{func(s *assessment.Step) { s.Measures[0].Exclusive = true }, `Step 4, accepted range of time: "at least {wash_min} s" → "above {wash_min} s"`},
		{func(s *assessment.Step) { s.Measures[0].Unit = "min" }, `Step 4, unit of time: "s" → "min"`},
		{func(s *assessment.Step) { s.Measures[0].Either = "hands" }, `Step 4, accepted range of time: "at least {wash_min} s" → "at least {wash_min} s (one of \"hands\")"`},
		{func(s *assessment.Step) {
			s.Measures = append(s.Measures, assessment.Measure{Name: "water", Unit: "degC"})
		}, `Step 4, value added: "" → "water: recorded, not judged"`},
		{func(s *assessment.Step) { s.Measures[0].Name = "rub" }, `Step 4, value removed: "time: at least {wash_min} s" → ""`},
	} {
		new := washing()
		row.change(step(new))
		got := told(assessment.Diff(washing(), new))
		lines := strings.Split(got, "\n")
		if !slices.Contains(lines, row.want) {
			t.Errorf("got\n%s\nwant\n%s", got, row.want)
		}
	}
}

func TestEachPartOfAChecklistIsCompared(t *testing.T) {
	months, one := 24, 1
	for _, row := range []struct {
		change func(c *assessment.Checklist)
		want   string
	}{
		{func(c *assessment.Checklist) { c.Title = "Hands" }, `Checklist, title: "Wash hands" → "Hands"`},
		{func(c *assessment.Checklist) { c.Scope = assessment.ClientSpecific }, `Checklist, scope: "general" → "client-specific"`},
		{func(c *assessment.Checklist) { c.ManikinOnly = true }, `Checklist, manikin only: "no" → "yes"`},
		{func(c *assessment.Checklist) { c.CardNeeded = true }, `Checklist, resuscitation card needed: "no" → "yes"`},
		{func(c *assessment.Checklist) { c.Purpose = "Fewer germs." }, `Checklist, purpose: "" → "Fewer germs."`},
		{func(c *assessment.Checklist) { c.Safety = append(c.Safety, "Warm water only.") }, `Safety, added: "" → "Warm water only."`},
		{func(c *assessment.Checklist) { c.Equipment = []string{"towel", "soap"} }, `Equipment, order: "soap; towel" → "towel; soap"`},
		{func(c *assessment.Checklist) { c.Equipment = c.Equipment[:1] }, `Equipment, removed: "towel" → ""`},
		{func(c *assessment.Checklist) { c.Fitted = []string{"tap"} }, `Equipment types, added: "" → "tap"`},
		{func(c *assessment.Checklist) { c.Prerequisites = nil }, `Prerequisites, removed: "greeting" → ""`},
		{func(c *assessment.Checklist) { c.Related = []string{"greeting"} }, `Related skills, added: "" → "greeting"`},
		{func(c *assessment.Checklist) { c.Parameters[0].Says = "time" }, `Parameter wash_min, meaning: "shortest wash" → "time"`},
		{func(c *assessment.Checklist) { c.Parameters[0].Unit = "min" }, `Parameter wash_min, unit: "s" → "min"`},
		{func(c *assessment.Checklist) {
			c.Parameters[0].Default = &assessment.Quantity{Value: assessment.Whole(40), Unit: "s"}
		}, `Parameter wash_min, value if unset: "none" → "40 s"`},
		{func(c *assessment.Checklist) { c.Parameters = nil }, `Parameter wash_min, removed: "shortest wash (s)" → ""`},
		{func(c *assessment.Checklist) {
			c.Parameters = append(c.Parameters, assessment.Parameter{Name: "plan", Says: "the plan"})
		}, `Parameter plan, added: "" → "the plan (in words)"`},
		{func(c *assessment.Checklist) { c.Policy.Scoring.PassMark = assessment.MustNumber("9/10") },
			`Policy, pass mark: "A sheet passes at a score of 95 % or more, with each critical step shown and nothing unsafe." → "A sheet passes at a score of 90 % or more, with each critical step shown and nothing unsafe."`},
		{func(c *assessment.Checklist) { c.Policy.Scoring.CueLimit = &one }, `Policy, cue limit: "At most 2 steps may be cued." → "At most 1 step may be cued."`},
		{func(c *assessment.Checklist) { c.Policy.Validity.LapseMonths = &months },
			`Policy, lapse limit: "One competent demonstration renews, however long it has been over." → "Over for longer than 24 months: all the demonstrations again; until then one renews."`},
		{func(c *assessment.Checklist) { c.Policy.Validity.Anchor = assessment.MonthEnd },
			`Policy, validity: "Holds for 12 months, through the same day of the month." → "Holds for 12 months, through the end of that month."`},
		{func(c *assessment.Checklist) { c.Sections[0].Title = "First" }, `Sections, removed: "Before" → ""`},
		{func(c *assessment.Checklist) { c.Sources = nil }, `Sources, removed: "WHO 2009" → ""`},
	} {
		new := washing()
		row.change(&new)
		got := told(assessment.Diff(washing(), new))
		if !slices.Contains(strings.Split(got, "\n"), row.want) {
			t.Errorf("got\n%s\nwant\n%s", got, row.want)
		}
	}
}

// A step that stays where it is in the order can still come under another
// heading.
func TestAStepUnderAnotherHeadingIsTold(t *testing.T) {
	new := washing()
	rings := new.Sections[0].Steps[1]
	new.Sections[0].Steps = new.Sections[0].Steps[:1:1]
	new.Sections[1].Steps = append([]assessment.Step{rings}, new.Sections[1].Steps...)
	want := `Step 2, section: "Before" → "Wash"`
	if got := told(assessment.Diff(washing(), new)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Far longer lists than any checklist are compared by number, not at the square
// of their length.
func TestVeryLongListsAreCompared(t *testing.T) {
	long := func(n int) assessment.Checklist {
		c := washing()
		var all []assessment.Step
		for i := range n {
			all = append(all, assessment.Step{Text: fmt.Sprintf("Step of the kind %d", i), Kind: assessment.Done, Weight: 1})
		}
		return steps(c, 1, all...)
	}
	if got := assessment.Diff(long(3000), long(3001)); len(got) != 1 || got[0].How != assessment.Adds {
		t.Errorf("one more step gives %d changes", len(got))
	}
}

func BenchmarkDiff(b *testing.B) {
	new := washing()
	new = steps(new, 0, new.Sections[0].Steps[0], assessment.Step{Text: "Roll sleeves up", Kind: assessment.Done, Weight: 1}, new.Sections[0].Steps[1])
	for b.Loop() {
		assessment.Diff(washing(), new)
	}
}
