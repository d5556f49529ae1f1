package assessment

import (
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

// family: at least so many family caregivers, each current in each skill. Nurses
// do not count (ATS 2016, recommendation 3b: two specifically trained family
// caregivers).
func (f Facts) family(l *Line, on civil.Date) {
	c := l.Criterion
	if c.Count < 1 || len(c.Skills) == 0 {
		l.lacks(phrase.Of("Set how many family caregivers and which skills: the plan does not say."))
		return
	}
	var able []Relative
	var lacks []Todo
	for _, r := range f.Family {
		missing := f.missing(r, c.Skills)
		if len(missing) == 0 {
			able = append(able, r)
		}
		lacks = append(lacks, missing...)
	}
	f.enough(l, len(able), lacks)
	if len(l.Left) > 0 {
		return
	}
	for _, r := range able {
		l.Evidence = append(l.Evidence, phrase.Of("%s is current in all of this", r.Name))
		f.soon(l, r, on)
	}
}

func (f Facts) enough(l *Line, able int, lacks []Todo) {
	short := l.Criterion.Count - able
	if short <= 0 {
		return
	}
	l.lacks(phrase.Count(short, "One more family caregiver.", "%d more family caregivers."))
	l.Left = append(l.Left, lacks...)
}

func (f Facts) missing(r Relative, skills []string) []Todo {
	var missing []Todo
	for _, code := range skills {
		s := r.Standings[code]
		if s.Word.Holds() {
			continue
		}
		next := s.Next.Phrase()
		if next.IsZero() {
			next = phrase.Of("not shown yet")
		}
		missing = append(missing, Todo{Phrase: phrase.Of("%s · %s: %s", r.Name, f.title(code), next), Who: FamilySees, Name: r.Name})
	}
	return missing
}

// soon flags what is met today and not tomorrow.
func (f Facts) soon(l *Line, r Relative, on civil.Date) {
	for _, code := range l.Criterion.Skills {
		if s := r.Standings[code]; s.Through == on {
			l.Flags = append(l.Flags, phrase.Of("%s · %s ends today, %s", r.Name, f.title(code), on))
		}
	}
}

func (f Facts) title(code string) string {
	if t := f.Titles[code]; t != "" {
		return t
	}
	return code
}

func (f Facts) cards(l *Line, on civil.Date) {
	able := 0
	var lacks []Todo
	lacking := func(r Relative, words phrase.Phrase) {
		lacks = append(lacks, Todo{Phrase: words, Who: FamilySees, Name: r.Name})
	}
	for _, r := range f.Family {
		switch {
		case r.CardEnds.IsZero():
			lacking(r, phrase.Of("%s: no resuscitation card on file", r.Name))
		case r.CardEnds.Before(on):
			lacking(r, phrase.Of("%s: the resuscitation card ended on %s", r.Name, r.CardEnds))
		default:
			able++
			l.Evidence = append(l.Evidence, phrase.Of("%s: card through %s", r.Name, r.CardEnds))
		}
	}
	if l.Criterion.Count < 1 {
		l.lacks(phrase.Of("Set how many family caregivers need a card: the plan does not say."))
		return
	}
	f.enough(l, able, lacks)
}

// hours: one unbroken stretch at least as long as planned. Guidelines give 24 to
// 48 hours for the equipment trial and none for the stay (ATS 2016, table 5), so
// a number that is not set is never assumed. A second start begins a new stretch,
// and "not met" takes back all before it: the reading that withholds.
func (f Facts) hours(l *Line, known []Evidence) {
	planned := l.Criterion.Hours
	if planned < 1 {
		l.lacks(phrase.Of("The planned hours are not set. Enter the number that the team has decided."))
		return
	}
	var start *Evidence
	best := time.Duration(0)
	for i, e := range known {
		switch {
		case e.Word == EvidenceStarted:
			start = &known[i]
			f.rest(l, e)
		case e.Word == EvidenceEnded && start != nil:
			best = max(best, e.At.Sub(start.At))
			start = nil
			f.rest(l, e)
		case e.Word == EvidenceNotMet:
			best, start = 0, nil
			f.rest(l, e)
		}
	}
	if start != nil {
		best = max(best, f.underWay().Sub(start.At))
	}
	if best < time.Duration(planned)*time.Hour {
		l.lacks(phrase.Of("%s of %d hours without a break so far.", hoursAndMinutes(best), planned))
	}
}

// underWay is until when a stretch that has not ended is known to last: nobody
// knows today that it will go on until a later day.
func (f Facts) underWay() time.Time {
	if f.Known.IsZero() {
		return f.At
	}
	return earliest(f.At, f.Known)
}

func hoursAndMinutes(d time.Duration) phrase.Phrase {
	h, m := int(d.Hours()), int(d.Minutes())%60
	if m == 0 {
		return phrase.Of("%d h", h)
	}
	return phrase.Of("%d h %d min", h, m)
}

// items: each delivered and checked, or waived by name; the newest word on an
// item counts.
func (f Facts) items(l *Line, known []Evidence) {
	if len(l.Criterion.Items) == 0 {
		l.lacks(phrase.Of("The list of equipment is empty."))
	}
	waived := false
	for _, item := range l.Criterion.Items {
		last := newestOn(known, item)
		switch {
		case last == nil:
			l.lacks(phrase.Of("%s: not delivered yet", l.Criterion.Item(item)))
		case last.Word == EvidenceMet:
			f.rest(l, *last)
		case last.Word == EvidenceWaived:
			waived = true
			f.rest(l, *last)
		case last.Word == EvidenceDelivered:
			l.lacks(phrase.Of("%s: delivered, not checked yet", l.Criterion.Item(item)))
		default:
			l.lacks(phrase.Of("%s: %s", l.Criterion.Item(item), last.reason()))
		}
	}
	if waived && len(l.Left) == 0 {
		l.State = StateWaived
	}
}

// reason is the word with what was noted beside it.
func (e Evidence) reason() phrase.Phrase {
	if e.Note == "" {
		return e.Word.Phrase()
	}
	return phrase.Of("%s, %s", e.Word.Phrase(), phrase.Typed(e.Note))
}

func newestOn(known []Evidence, item string) *Evidence {
	var last *Evidence
	for i, e := range known {
		if e.Item == item {
			last = &known[i]
		}
	}
	return last
}

func (f Facts) shifts(l *Line) {
	if len(f.Shifts) == 0 {
		l.lacks(phrase.Of("No early shift is planned yet."))
	}
	for _, s := range f.Shifts {
		if len(s.Lacks) == 0 {
			l.Evidence = append(l.Evidence, phrase.Of("%s: current in all", s.Label))
		}
		for _, skill := range s.Lacks {
			l.lacks(phrase.Of("%s: not current in %s", s.Label, skill))
		}
	}
}

func (f Facts) attested(l *Line, known []Evidence) {
	var last *Evidence
	for i, e := range known {
		if e.Word == EvidenceMet || e.Word == EvidenceNotMet {
			last = &known[i]
		}
	}
	switch {
	case last == nil:
		l.lacks(phrase.Of("Nobody has confirmed this yet."))
	case last.Word == EvidenceNotMet && last.Note == "":
		l.lacks(phrase.Of("Not met."))
		f.rest(l, *last)
	case last.Word == EvidenceNotMet:
		l.lacks(phrase.Of("Not met, %s.", phrase.Typed(last.Note)))
		f.rest(l, *last)
	default:
		f.rest(l, *last)
	}
}

func earliest(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}
