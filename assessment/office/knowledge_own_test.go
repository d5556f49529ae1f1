package office

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/knowledge"
)

// A pass of who could read what is asked, and of which nobody says that a trainer was there,
// never held: it neither holds, nor is it said to have held once it is old. Once somebody says
// so it is a pass like others (rule of this house, no published source; see knowledge.Pass).
func TestAPassThatNeverCountedIsNotSaidToHaveHeld(t *testing.T) {
	now := Moment{At: time.Date(2027, 6, 1, 12, 0, 0, 0, time.UTC), Today: civil.MustParse("2027-06-01"), Zone: time.UTC}
	core := knowledge.Rule{Length: 10, PassMark: assessment.MustNumber("0.9"), Months: 12}
	pass := func(daysAgo int, watched bool) knowledge.Pass {
		p := knowledge.Pass{HandedIn: now.At.AddDate(0, 0, -daysAgo), Right: 10, Of: 10, Reader: true}
		if watched {
			p.Watched = p.HandedIn
		}
		return p
	}
	for _, c := range []struct {
		name              string
		passes            []knowledge.Pass
		holds, waits, ran bool
	}{
		{"old, unwatched", []knowledge.Pass{pass(500, false)}, false, false, false},
		{"old, watched", []knowledge.Pass{pass(500, true)}, false, false, true},
		{"new, unwatched", []knowledge.Pass{pass(5, false)}, false, true, false},
		{"old watched, new unwatched", []knowledge.Pass{pass(500, true), pass(5, false)}, false, true, true},
		{"new unwatched, then watched", []knowledge.Pass{pass(9, false), pass(5, true)}, true, false, false},
		{"new watched, then unwatched", []knowledge.Pass{pass(9, true), pass(5, false)}, true, false, false},
	} {
		var own OwnCheck
		for _, p := range c.passes {
			own.weigh(core, p, civil.DayOf(p.HandedIn, time.UTC), now)
		}
		if own.Holds() != c.holds || own.Waits != c.waits || own.Ran.IsZero() == c.ran || own.Easier {
			t.Errorf("%s: %+v", c.name, own)
		}
	}
}
