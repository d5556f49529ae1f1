package assessment_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// histories is how many random histories each property is tried on; where every
// single day of a history is worked out anew, a quarter of them.
const histories = 1600

// spanOf is every day worth asking about: from a little before the first thing
// that happened until everything has run out.
func (g *invented) spanOf() (civil.Date, civil.Date) {
	from, to := g.days[0], g.days[0]
	for _, d := range g.days {
		from, to = civil.Earlier(from, d), civil.Later(to, d)
	}
	return from.AddDays(-3), to.AddMonths(g.terms.Validity.Months + 2).AddDays(95)
}

// everyDay answers by the second implementation for each day in a row; since is
// the first of the unbroken days of one answer.
func (w refWorld) everyDay(from, to civil.Date) ([]refAnswer, []civil.Date) {
	var answers []refAnswer
	var since []civil.Date
	for d := from; !d.After(to); d = d.AddDays(1) {
		a := w.on(refOfCivil(d))
		first := d
		if n := len(answers); n > 0 && refGroup(answers[n-1].word) == refGroup(a.word) {
			first = since[n-1]
		}
		answers, since = append(answers, a), append(since, first)
	}
	return answers, since
}

func refGroup(word string) string {
	if word == "due" {
		return "current"
	}
	return word
}

// agrees holds one answer of the core against the second implementation.
func agrees(t *testing.T, seed uint64, day civil.Date, word assessment.StandingWord, through, since civil.Date, want refAnswer, wantSince civil.Date) {
	t.Helper()
	if want.word == "not started" {
		wantSince = civil.Date{}
	}
	sameThrough := through.IsZero() && !want.held || !through.IsZero() && want.held && refOfCivil(through) == want.through
	if string(word) != want.word || !sameThrough || since != wantSince {
		t.Fatalf("seed %d on %s: the core says %s through %q since %q; the rules say %s, held %v through %v since %s",
			seed, day, word, through, since, want.word, want.held, refName(want.through), wantSince)
	}
}

// TestSecondImplementation: on thousands of random histories and days the core
// and an implementation written anew from the rules give the same standing and
// last day.
func TestSecondImplementation(t *testing.T) {
	t.Parallel()
	for seed := range uint64(4 * histories) {
		g := invent(seed)
		c, w := g.oneCase(), g.reference()
		from, to := g.spanOf()
		for range 5 {
			day := from.AddDays(g.IntN(to.Sub(from)))
			s, want := c.On(day), w.on(refOfCivil(day))
			since := s.Since
			agrees(t, seed, day, s.Word, s.Through, since, want, since)
		}
	}
}

// TestSecondImplementationEveryDay: the same on every single day of a history,
// the first day of each standing included; by On on days at random and by the
// timeline on all of them.
func TestSecondImplementationEveryDay(t *testing.T) {
	t.Parallel()
	words := map[string]int{}
	for seed := range uint64(histories / 4) {
		g := invent(seed)
		c := g.oneCase()
		from, to := g.spanOf()
		want, since := g.reference().everyDay(from, to)
		line := c.Timeline()
		for i, w := range want {
			day := from.AddDays(i)
			words[w.word]++
			s := segmentOn(line, day)
			agrees(t, seed, day, s.Word, s.Through, s.Since, w, since[i])
		}
		for range 12 {
			i := g.IntN(len(want))
			s := c.On(from.AddDays(i))
			agrees(t, seed, s.On, s.Word, s.Through, s.Since, want[i], since[i])
		}
	}
	for _, w := range []string{"not started", "learning", "current", "due", "lapsed", "withdrawn", "waived"} {
		if words[w] < 500 {
			t.Errorf("only %d of the days tried were %s: the histories do not try enough", words[w], w)
		}
	}
}

func segmentOn(line []assessment.Segment, day civil.Date) assessment.Segment {
	found := assessment.Segment{Word: assessment.NotStarted}
	for _, s := range line {
		if !s.From.After(day) {
			found = s
		}
	}
	return found
}

// on is the answer for day x without "since".
func (w refWorld) on(x refDay) refAnswer {
	seen := w.seenOn(x)
	s := w.fold(w.walked(seen))
	effective, waived, learning := s.through, false, false
	if a := w.terms.Validity.AbsenceDays; a > 0 {
		effective = min(effective, s.practised+refDay(a))
	}
	for _, e := range seen {
		switch e.Kind {
		case "recheck":
			if e.Revision > s.revision {
				effective = min(effective, refOfCivil(e.By))
			}
		case "waiver":
			waived = waived || refOfCivil(e.Through) >= x
		case "demonstration", "teaching", "practice":
			learning = true
		}
	}
	answer := refAnswer{held: s.holding}
	if s.holding {
		answer.through = effective
	}
	switch {
	case len(s.bars) > 0:
		answer.word = "withdrawn"
	case s.holding && x <= effective && int(effective-x) <= w.terms.Validity.NoticeDays:
		answer.word = "due"
	case s.holding && x <= effective:
		answer.word = "current"
	case waived:
		answer.word = "waived"
	case s.ever:
		answer.word = "lapsed"
	case learning:
		answer.word = "learning"
	default:
		answer.word = "not started"
	}
	return answer
}
