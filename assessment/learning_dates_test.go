package assessment_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// A worked example, by hand. Suctioning takes 3 days, bagging 2, changing the tube 5: ten
// days. From 1 to 21 June there are 20 days, so that each day of learning has two:
// suctioning by day 6, bagging by day 10, changing the tube by day 20.
func TestDatesOfLearningByHand(t *testing.T) {
	today, target := civil.MustParse("2026-06-01"), civil.MustParse("2026-06-21")
	order := []assessment.ToLearn{{Skill: "suction", Title: "Suctioning", Days: 3}, {Skill: "bagging", Title: "Bagging", Days: 2},
		{Skill: "tube-change", Title: "Changing the tube", Days: 5, First: []string{"suction", "bagging"}}}
	p := assessment.LearningDatesFor(order, today, target, nil)
	wantDates(t, p, "2026-06-07", "2026-06-11", "2026-06-21")
	if p.Needed != 10 || p.Short != 0 || p.Past || p.Enough != civil.MustParse("2026-06-11") {
		t.Errorf("%+v", p)
	}

	// Six days for ten: four lack, and the shares are 1.8, 1.2 and 3 days.
	p = assessment.LearningDatesFor(order, today, civil.MustParse("2026-06-07"), nil)
	wantDates(t, p, "2026-06-02", "2026-06-04", "2026-06-07")
	if p.Short != 4 {
		t.Errorf("short by %d days; 10 are planned and 6 are left", p.Short)
	}

	// Changing the tube is wanted by 9 June: its five days are kept free before, so that
	// both others are held by 4 June. Ten days are planned and eight are left.
	p = assessment.LearningDatesFor(order, today, target, map[string]civil.Date{"tube-change": civil.MustParse("2026-06-09")})
	wantDates(t, p, "2026-06-04", "2026-06-04", "2026-06-09")
	if last := p.Dates[2]; !last.Chosen || last.Short != 2 {
		t.Errorf("%+v", last)
	}

	// Bagging is chosen for a day after what builds on it: it stays, and is told.
	p = assessment.LearningDatesFor(order, today, target, map[string]civil.Date{"bagging": civil.MustParse("2026-06-30")})
	wantDates(t, p, "2026-06-07", "2026-06-30", "2026-06-21")
	if p.Dates[1].After != "Changing the tube" {
		t.Errorf("%+v", p.Dates[1])
	}

	// The target was ten days ago.
	p = assessment.LearningDatesFor(order, today, civil.MustParse("2026-05-22"), nil)
	wantDates(t, p, "2026-05-22", "2026-05-22", "2026-05-22")
	if !p.Past || p.Short != 20 || !p.Dates[0].Late {
		t.Errorf("%+v", p)
	}

	// Today itself is not past, and leaves no time.
	p = assessment.LearningDatesFor(order, today, today, nil)
	wantDates(t, p, "2026-06-01", "2026-06-01", "2026-06-01")
	if p.Past || p.Short != 10 || p.Dates[0].Late {
		t.Errorf("%+v", p)
	}
	if p := assessment.LearningDatesFor(nil, today, target, nil); p.Short != 0 || len(p.Dates) != 0 {
		t.Errorf("%+v", p)
	}
}

func wantDates(t *testing.T, p assessment.LearningDates, days ...string) {
	t.Helper()
	var got []string
	for _, d := range p.Dates {
		got = append(got, d.By.String())
	}
	if !slices.Equal(got, days) {
		t.Errorf("dates %v, want %v", got, days)
	}
}

// Properties of random plans: without chosen days the dates go up with the order, the
// last is the target, each skill has at least its planned days where there is time, and
// none has a day more than its share. With chosen days, nothing that was not chosen comes
// after what builds on it.
func TestPropertiesOfDatesOfLearning(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 41))
	today := civil.MustParse("2026-06-01")
	for range 20000 {
		order := randomOrder(t, random)
		target := today.AddDays(random.IntN(90) - 10)
		p := assessment.LearningDatesFor(order, today, target, nil)
		left, before := target.Sub(today), today
		for i, d := range p.Dates {
			share := d.By.Sub(before)
			switch {
			case d.By.Before(before) && left >= 0, d.By.After(target):
				t.Fatalf("%+v: the order of days is not that of learning", p)
			case p.Short == 0 && share < d.Days:
				t.Fatalf("%+v: %s has %d days of its %d", p, d.Skill, share, d.Days)
			case left >= 0 && p.Needed*share > left*d.Days+p.Needed:
				t.Fatalf("%+v: %s has %d days, more than its share of %d", p, d.Skill, share, left)
			case i == len(order)-1 && d.By != target:
				t.Fatalf("%+v: the last day is not the target", p)
			}
			before = d.By
		}
		if enough := assessment.LearningDatesFor(order, today, p.Enough, nil); enough.Short != 0 || assessment.LearningDatesFor(order, today, p.Enough.AddDays(-1), nil).Short != 1 {
			t.Fatalf("%+v: %s is not the first day with enough time", p, p.Enough)
		}
		chosenDays(t, random, order, today, target)
	}
}

func chosenDays(t *testing.T, random *rand.Rand, order []assessment.ToLearn, today, target civil.Date) {
	t.Helper()
	chosen := map[string]civil.Date{}
	for _, s := range order {
		if random.IntN(3) == 0 {
			chosen[s.Skill] = today.AddDays(random.IntN(80) - 5)
		}
	}
	p := assessment.LearningDatesFor(order, today, target, chosen)
	by := map[string]assessment.LearningDate{}
	for _, d := range p.Dates {
		by[d.Skill] = d
	}
	for _, d := range p.Dates {
		if want, ok := chosen[d.Skill]; ok != d.Chosen || ok && want != d.By {
			t.Fatalf("%+v: the day that was chosen for %s is %s", p, d.Skill, want)
		}
		for _, code := range d.First {
			first := by[code]
			if first.By.After(d.By) && (!first.Chosen || first.After == "") {
				t.Fatalf("%+v: %s comes before %s and is later, untold", p, code, d.Skill)
			}
			if first.Skill != "" && d.Chosen && !first.Chosen && d.By.Sub(today) >= d.Days && d.By.Sub(first.By) < d.Days {
				t.Fatalf("%+v: %s leaves no time for %s", p, code, d.Skill)
			}
		}
	}
}

// randomOrder is some skills in an order that is right.
func randomOrder(t *testing.T, random *rand.Rand) []assessment.ToLearn {
	t.Helper()
	n := 1 + random.IntN(5)
	skills := make([]assessment.ToLearn, n)
	for i := range skills {
		skills[i] = assessment.ToLearn{Skill: letters[i], Title: letters[i], Days: 1 + random.IntN(7)}
		for f := range i {
			if random.IntN(2) == 0 {
				skills[i].First = append(skills[i].First, letters[f])
			}
		}
	}
	order, err := assessment.LearningOrder(skills)
	if err != nil {
		t.Fatal(err)
	}
	return order
}
