package catalog_test

import (
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
)

// content is what the twelve lists must hold, taken down apart from the files:
// the kind of each step by its first letter (said aloud, done, timed,
// measured), the critical steps, and those that may not apply. A change of a
// file that is meant changes its row too.
var content = []struct {
	code               string
	kinds              string
	critical, mayNot   []int
	cueLimit, months   int
	scope              assessment.Scope
	manikin, card      bool
	award              assessment.Award
	prerequisites      []string
	related, equipment []string
}{
	{code: "bagging", kinds: "ssddsmtddmdsssdsdd", critical: []int{1, 3, 4, 7, 8, 9, 10, 12, 13, 15, 17}, mayNot: []int{6, 11, 14},
		months: 12, scope: assessment.General, award: three(0), related: []string{"decannulation", "blocked-tube", "alarms-power", "cpr-trach"}},
	{code: "suction", kinds: "stmmmmdsddddtttdsssddm", critical: []int{2, 3, 4, 5, 10, 11, 13, 14, 15, 19}, mayNot: []int{7, 9, 17, 20},
		cueLimit: 2, months: 12, scope: assessment.ClientSpecific, award: three(1), prerequisites: []string{"bagging"},
		related: []string{"tube-change", "blocked-tube"}, equipment: []string{"tracheostomy tube"}},
	{code: "decannulation", kinds: "tsddtdttddddsdsmts", critical: []int{1, 2, 3, 5, 7, 8, 9, 10, 11, 13, 14, 15, 16}, mayNot: []int{4, 6, 12},
		months: 6, scope: assessment.General, manikin: true, award: three(0), prerequisites: []string{"bagging"},
		related: []string{"tube-change", "blocked-tube", "cpr-trach"}},
	{code: "blocked-tube", kinds: "tsdddtdsdttddssmss", critical: []int{1, 2, 4, 6, 8, 10, 11, 12, 13, 14, 15, 16}, mayNot: []int{5},
		months: 6, scope: assessment.General, manikin: true, award: three(0), prerequisites: []string{"suction", "bagging"},
		related: []string{"tube-change", "suction", "decannulation", "cpr-trach"}},
	{code: "cpr-trach", kinds: "ddstdtdddmmdmmttsmssss", critical: []int{1, 3, 4, 6, 7, 8, 9, 10, 11, 13, 16, 18}, mayNot: []int{14, 18, 21},
		months: 6, scope: assessment.General, manikin: true, card: true, award: three(0), prerequisites: []string{"bagging"},
		related: []string{"decannulation", "blocked-tube", "bagging"}},
	{code: "stoma-ties", kinds: "sddtsmddsdddddsdmsdmsd", critical: []int{1, 2, 3, 4, 6, 8, 9, 11, 15, 17, 18, 20}, mayNot: []int{1, 14},
		cueLimit: 2, months: 12, scope: assessment.General, award: three(0), prerequisites: []string{"suction", "decannulation", "bagging"},
		related: []string{"tube-change", "decannulation"}},
	{code: "tube-change", kinds: "ssstdddddmdddsttdmmmtssdd", critical: []int{1, 2, 4, 5, 6, 7, 9, 10, 12, 15, 16, 17, 18, 20, 22, 24}, mayNot: []int{2, 7, 9, 12, 19},
		cueLimit: 2, months: 12, scope: assessment.ClientSpecific, award: three(1),
		prerequisites: []string{"stoma-ties", "suction", "decannulation", "blocked-tube", "bagging"},
		related:       []string{"stoma-ties", "decannulation", "blocked-tube"}, equipment: []string{"tracheostomy tube"}},
	{code: "humidifier", kinds: "stddddddddsdsmsdssdd", critical: []int{3, 6, 8, 9, 10, 11, 12, 13, 16, 18}, mayNot: []int{7, 13},
		cueLimit: 2, months: 12, scope: assessment.ClientSpecific, award: three(0),
		related: []string{"circuit-change", "circuit-test", "alarms-power"}, equipment: []string{"humidifier"}},
	{code: "circuit-test", kinds: "sdtddtmdsddsdssdttdsdd", critical: []int{2, 5, 6, 8, 9, 10, 12, 13, 14, 15, 17, 18, 19, 20}, mayNot: []int{2, 9, 13, 21},
		cueLimit: 2, months: 12, scope: assessment.ClientSpecific, award: three(0), prerequisites: []string{"bagging"},
		related: []string{"circuit-change", "alarms-power"}, equipment: []string{"ventilator", "circuit"}},
	{code: "alarms-power", kinds: "tssddsststsdmddmdsssdd", critical: []int{1, 2, 4, 5, 6, 7, 8, 9, 10, 12, 13, 15, 16, 18, 19, 20}, mayNot: []int{14, 16, 17},
		months: 6, scope: assessment.ClientSpecific, award: three(0), prerequisites: []string{"suction", "bagging"},
		related: []string{"circuit-change", "circuit-test", "humidifier"}, equipment: []string{"ventilator"}},
	{code: "circuit-change", kinds: "sstdmdsddddtddddststdmtdmddds",
		critical: []int{2, 3, 5, 6, 7, 10, 11, 13, 14, 15, 16, 17, 18, 20, 21, 22, 23, 24, 26, 29}, mayNot: []int{2, 9, 12, 13, 24, 25},
		cueLimit: 2, months: 12, scope: assessment.ClientSpecific, award: three(1),
		prerequisites: []string{"circuit-test", "bagging", "alarms-power", "humidifier"},
		related:       []string{"circuit-test", "alarms-power", "humidifier"}, equipment: []string{"ventilator", "circuit", "humidifier"}},
	{code: "go-bag", kinds: "sdmmdddmmmddddddmmdddssd", critical: []int{1, 3, 4, 6, 7, 8, 9, 10, 17, 18, 19, 23}, mayNot: []int{4, 12, 13, 17, 20, 22},
		cueLimit: 2, months: 12, scope: assessment.ClientSpecific, award: assessment.Award{Count: 2, Days: 2, Observers: 1, SpanDays: 180, Consecutive: true},
		related: []string{"decannulation", "blocked-tube", "alarms-power"}},
}

// three in a row on two days is the default award; some with the real client.
func three(real int) assessment.Award {
	return assessment.Award{Count: 3, Days: 2, Observers: 1, Real: real, SpanDays: 180, Consecutive: true}
}

func all(t *testing.T) []assessment.Checklist {
	t.Helper()
	lists, err := catalog.All()
	if err != nil {
		t.Fatal(err)
	}
	return lists
}

func get(t *testing.T, code string) assessment.Checklist {
	t.Helper()
	c, err := catalog.Get(code)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestEveryStepIsThereWithItsRules(t *testing.T) {
	lists := all(t)
	if len(lists) != len(content) {
		t.Fatalf("there are %d skills, want %d", len(lists), len(content))
	}
	for i, want := range content {
		c := lists[i]
		var kinds string
		var critical, mayNot []int
		for _, s := range c.Steps() {
			kinds += string(s.Kind)[:1]
			if s.Critical {
				critical = append(critical, s.No)
			}
			if s.MayNotApply != "" {
				mayNot = append(mayNot, s.No)
			}
		}
		if c.Code != want.code || kinds != want.kinds {
			t.Errorf("%s: kinds are %s, want %s %s", c.Code, kinds, want.code, want.kinds)
		}
		if !slices.Equal(critical, want.critical) {
			t.Errorf("%s: critical are %v, want %v", c.Code, critical, want.critical)
		}
		if !slices.Equal(mayNot, want.mayNot) {
			t.Errorf("%s: not applicable may be %v, want %v", c.Code, mayNot, want.mayNot)
		}
	}
}

func TestEverySkillHasItsPolicy(t *testing.T) {
	for i, c := range all(t) {
		want := content[i]
		p, v := c.Policy, c.Policy.Validity
		if p.Scoring.CueLimit == nil || *p.Scoring.CueLimit != want.cueLimit || p.Scoring.PassMark.Cmp(assessment.MustNumber("95/100")) != 0 {
			t.Errorf("%s: scoring is %+v, want %d cues", c.Code, p.Scoring, want.cueLimit)
		}
		for mark, credit := range assessment.DefaultCredits() {
			if p.Scoring.Credits[mark].Cmp(credit) != 0 {
				t.Errorf("%s: %s earns %s", c.Code, mark, p.Scoring.Credits[mark])
			}
		}
		if p.Award != want.award {
			t.Errorf("%s: the award is %+v, want %+v", c.Code, p.Award, want.award)
		}
		if v.LapseMonths == nil || *v.LapseMonths != 24 {
			t.Errorf("%s: the lapse limit is %v", c.Code, v.LapseMonths)
		}
		v.LapseMonths = nil
		if v != (assessment.Validity{Months: want.months, Anchor: assessment.Anniversary, RenewalDays: 60, NoticeDays: 30, CardNeeded: want.card}) {
			t.Errorf("%s: the validity is %+v", c.Code, v)
		}
	}
}

func TestEverySkillHasItsPlaceAmongTheOthers(t *testing.T) {
	for i, c := range all(t) {
		want := content[i]
		if c.Scope != want.scope || c.ManikinOnly != want.manikin || c.CardNeeded != want.card {
			t.Errorf("%s: scope %s, manikin only %t, card %t", c.Code, c.Scope, c.ManikinOnly, c.CardNeeded)
		}
		if !slices.Equal(c.Prerequisites, want.prerequisites) || !slices.Equal(c.Related, want.related) || !slices.Equal(c.Fitted, want.equipment) {
			t.Errorf("%s: prerequisites %v, related %v, equipment %v", c.Code, c.Prerequisites, c.Related, c.Fitted)
		}
	}
}
