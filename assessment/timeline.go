package assessment

import "wellshown/assessment/civil"

// Segment is a run of days with one answer, the last one open-ended: what an
// index of standings holds. It tells the future as far as time alone decides it.
type Segment struct {
	From    civil.Date
	Word    StandingWord
	Through civil.Date // of the holding, as in Standing
	Since   civil.Date
	Because []string
}

// Timeline lists the segments in order. Before the first one the standing is
// not started.
func (c *Case) Timeline() []Segment {
	var line []Segment
	for i, start := range c.starts {
		f := c.walk(start)
		for _, day := range f.turns(start) {
			if i+1 < len(c.starts) && !day.Before(c.starts[i+1]) {
				break
			}
			line = grow(line, f.answer(day))
		}
	}
	return line
}

// turns lists the days from start on at which the passing of time alone can
// change the answer.
func (f *fold) turns(start civil.Date) []civil.Date {
	days := []civil.Date{start}
	if f.holding == nil {
		return days
	}
	through, _ := f.effectiveThrough()
	for _, d := range []civil.Date{through.AddDays(-f.rules.NoticeDays), through.AddDays(1)} {
		if d.After(start) {
			days = append(days, d)
		}
	}
	return days
}

func grow(line []Segment, s Standing) []Segment {
	next := Segment{From: s.On, Word: s.Word, Through: s.Through, Since: s.On, Because: s.Because}
	if next.Word == NotStarted {
		next.Since = civil.Date{}
	} else if n := len(line); n > 0 && line[n-1].Word.as() == next.Word.as() {
		next.Since = line[n-1].Since
	}
	return append(line, next)
}
