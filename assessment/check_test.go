package assessment

import (
	"strings"
	"testing"
)

// sound is a checklist without problems; each case below breaks one thing.
func sound() Checklist {
	low, high := MustNumber("80"), MustNumber("120")
	return Checklist{
		Code: "suction", Title: "Suctioning", Scope: ClientSpecific, Safety: []string{"The child's orders come first."},
		Fitted: []string{"tracheostomy tube"}, Prerequisites: []string{"bagging"},
		Parameters: []Parameter{{Name: "depth", Says: "depth", Unit: "cm"}, {Name: "pressure_high", Says: "pressure", Unit: "mmHg"}},
		Sections: []Section{{Title: "Do", Steps: []Step{
			{No: 1, Text: "Clean hands", Kind: Done, Weight: 1, Critical: true, Because: "infection", Least: Independent},
			{No: 2, Text: "Read the pressure", Kind: Measured, Weight: 1, Measures: []Measure{
				{Name: "pressure", Unit: "mmHg", Low: &Bound{Value: low}, High: &Bound{Value: high}, Magnitude: true}}},
			{No: 3, Text: "Choose one", Kind: Measured, Weight: 1, Measures: []Measure{
				{Name: "rub", Unit: "s", Low: &Bound{Value: Whole(20)}, Either: "hands"}, {Name: "wash", Unit: "s", Low: &Bound{Value: Whole(40)}, Either: "hands"}}},
		}}},
		Policy: Policy{
			Scoring:  Scoring{Credits: DefaultCredits(), PassMark: MustNumber("95/100")},
			Award:    Award{Count: 3, Days: 2, Observers: 1, SpanDays: 180, Consecutive: true},
			Validity: Validity{Months: 12, Anchor: Anniversary, RenewalDays: 60, NoticeDays: 30},
		},
	}
}

func TestSoundChecklistHasNoProblems(t *testing.T) {
	if problems := sound().Check(); len(problems) != 0 {
		t.Fatalf("problems: %v", problems)
	}
}

func TestCheckNamesWhatIsWrong(t *testing.T) {
	step := func(c *Checklist, n int) *Step { return &c.Sections[0].Steps[n] }
	cases := []struct {
		name   string
		spoil  func(*Checklist)
		path   string
		saying string
	}{
		{"a code with a space", func(c *Checklist) { c.Code = "tube out" }, "code", "lower-case"},
		{"no caution", func(c *Checklist) { c.Safety = nil }, "safety", "no caution"},
		{"itself first", func(c *Checklist) { c.Prerequisites = []string{"suction"} }, "prerequisites[0]", "its own"},
		{"one prerequisite twice", func(c *Checklist) { c.Prerequisites = []string{"bagging", "bagging"} }, "prerequisites[1]", "twice"},
		{"equipment of a general skill", func(c *Checklist) { c.Scope = General }, "fitted", "client-specific"},
		{"steps out of order", func(c *Checklist) { step(c, 1).No = 5 }, "sections[0].steps[1].no", "2 comes next"},
		{"critical without a reason", func(c *Checklist) { step(c, 0).Because = " " }, "sections[0].steps[0].because", "why"},
		{"a critical step that accepts not met", func(c *Checklist) { step(c, 0).Least = NotMet }, "sections[0].steps[0].least", "independent, cued or assisted"},
		{"no weight", func(c *Checklist) { step(c, 0).Weight = 0 }, "sections[0].steps[0].weight", "1 to 100"},
		{"an empty range", func(c *Checklist) { step(c, 1).Measures[0].Low = &Bound{Value: Whole(200)} }, "sections[0].steps[1].measures[0]", "empty"},
		{"a parameter nobody declared", func(c *Checklist) { step(c, 1).Measures[0].High = &Bound{Parameter: "unheard_of"} }, "sections[0].steps[1].measures[0].high", "no parameter"},
		{"a length where a pressure belongs", func(c *Checklist) { step(c, 1).Measures[0].High = &Bound{Parameter: "depth"} }, "sections[0].steps[1].measures[0].high", "cannot be turned"},
		{"a factor of nothing", func(c *Checklist) {
			n := Whole(0)
			step(c, 1).Measures[0].High = &Bound{Parameter: "pressure_high", Times: &n}
		}, "sections[0].steps[1].measures[0].high", "more than 0"},
		{"a unitless range of two kinds", func(c *Checklist) {
			step(c, 1).Measures[0] = Measure{Name: "x", Low: &Bound{Parameter: "depth"}, High: &Bound{Parameter: "pressure_high"}}
		}, "sections[0].steps[1].measures[0]", "cannot be turned"},
		{"a choice of one", func(c *Checklist) { step(c, 2).Measures = step(c, 2).Measures[:1] }, "sections[0].steps[2].measures[0].either", "no other"},
		{"a measured step without a value", func(c *Checklist) { step(c, 1).Measures = nil }, "sections[0].steps[1].measures", "needs a value"},
		{"a seen step with a value", func(c *Checklist) { step(c, 1).Kind = Said }, "sections[0].steps[1].kind", "records no values"},
		{"braces around nothing known", func(c *Checklist) { step(c, 0).Note = "as {unheard_of} says" }, "sections[0].steps[0]", "no parameter"},
		{"a credit that rises as marks worsen", func(c *Checklist) {
			c.Policy.Scoring.Credits = map[Mark]Number{Independent: MustNumber("1/2"), Cued: Whole(1)}
		}, "policy", "never rise"},
		{"windows that would stack", func(c *Checklist) { c.Policy.Validity.RenewalDays = 336 }, "policy", "stack"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			list := sound()
			c.spoil(&list)
			for _, p := range list.Check() {
				if p.Path == c.path && strings.Contains(p.Says, c.saying) {
					return
				}
			}
			t.Errorf("no problem at %s saying %q: %v", c.path, c.saying, list.Check())
		})
	}
}
