package knowledge_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
)

// The last instant is in, the next is not, and a try that was forgotten was over when its time
// was; how long it took across a clock that was set right nobody knows (common practice, no
// source).
func TestWhenASittingIsOver(t *testing.T) {
	begun := time.Date(2026, 3, 2, 22, 50, 0, 0, time.UTC)
	item := knowledge.Item{ID: "a", Kind: knowledge.Single, Right: []int{1}, Texts: map[string]knowledge.Text{"en": {Options: []string{"x", "y"}}}}
	right := []knowledge.Answer{{Item: "a", Chosen: []int{1}}}
	for _, c := range []struct {
		open, took time.Duration
		late       bool
		ended      time.Duration
	}{
		{30 * time.Minute, 30 * time.Minute, false, 30 * time.Minute},
		{30 * time.Minute, 30*time.Minute + time.Nanosecond, true, 30 * time.Minute},
		{30 * time.Minute, 21 * 24 * time.Hour, true, 30 * time.Minute},
		{30 * time.Minute, time.Minute, false, time.Minute},
		{30 * time.Minute, -time.Minute, true, -time.Minute}, // a clock that ran ahead was set right meanwhile
		{0, 21 * 24 * time.Hour, false, 21 * 24 * time.Hour}, // from before there were ends
	} {
		rule := knowledge.Rule{PassMark: assessment.MustNumber("0.9"), Open: c.open}
		at := begun.Add(c.took)
		v := rule.Judge([]knowledge.Item{item}, right, begun, at)
		if v.Late != c.late || v.Passed == c.late || v.Right != 1 || !rule.Ended(begun, at).Equal(begun.Add(c.ended)) {
			t.Errorf("open for %s, handed in after %s: %+v, over %s", c.open, c.took, v, rule.Ended(begun, at))
		}
	}
}

// Who could read what is asked needs somebody's word that a trainer was there, and counts from
// then on; everybody else counts at once (rule of this house, no published source).
func TestFromWhenAPassCounts(t *testing.T) {
	passed := time.Date(2026, 3, 2, 10, 0, 0, 0, time.UTC)
	said := passed.Add(time.Hour)
	for _, c := range []struct {
		name   string
		reader bool
		said   time.Time
		since  time.Time
	}{{"nobody asks", false, time.Time{}, passed}, {"nobody needs it", false, said, passed}, {"nobody says so", true, time.Time{}, time.Time{}}, {"somebody says so later", true, said, said}, {"said before", true, passed.Add(-time.Hour), passed}} {
		p := knowledge.Pass{HandedIn: passed, Reader: c.reader, Watched: c.said}
		if !p.Since().Equal(c.since) || p.Unwatched(said.Add(time.Hour)) != c.since.IsZero() || p.Unwatched(passed) != (c.since != passed) {
			t.Errorf("%s: it counts from %s", c.name, p.Since())
		}
	}
}

// Who passed by a rule that asked less, in number, share or time, is asked again (rule of this
// house, no published source).
func TestAnEasierPassDoesNotSuffice(t *testing.T) {
	rule := knowledge.Rule{Length: 10, PassMark: assessment.MustNumber("0.9"), Open: time.Hour}
	for _, c := range []struct {
		pass knowledge.Pass
		want bool
	}{
		{knowledge.Pass{Right: 9, Of: 10, Took: time.Hour}, true}, {knowledge.Pass{Right: 8, Of: 10, Took: time.Minute}, false}, {knowledge.Pass{Right: 9, Of: 9, Took: time.Minute}, false},
		{knowledge.Pass{Right: 10, Of: 10, Took: time.Hour + time.Second}, false}, {knowledge.Pass{Right: 10, Of: 10, Took: -time.Second}, false}, {knowledge.Pass{}, false},
	} {
		if rule.Suffices(c.pass) != c.want {
			t.Errorf("%+v suffices: %v", c.pass, !c.want)
		}
	}
	if rule.Open = 0; !rule.Suffices(knowledge.Pass{Right: 10, Of: 10, Took: 900 * time.Hour}) {
		t.Error("without an end nothing takes too long")
	}
}
