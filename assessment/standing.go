package assessment

import (
	"slices"

	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

// StandingWord is the answer in one word.
type StandingWord string

// The seven standings. Due is current for every purpose but reminders.
const (
	NotStarted StandingWord = "not started"
	Learning   StandingWord = "learning"
	Current    StandingWord = "current"
	Due        StandingWord = "due"
	Lapsed     StandingWord = "lapsed"
	Withdrawn  StandingWord = "withdrawn"
	Waived     StandingWord = "waived"
)

// Holds reports whether somebody of this standing may do the skill alone.
func (w StandingWord) Holds() bool { return w == Current || w == Due }

// Phrase says the standing to whoever reads it.
func (w StandingWord) Phrase() phrase.Phrase {
	switch w {
	case NotStarted:
		return phrase.Of("not started")
	case Learning:
		return phrase.Of("learning")
	case Current:
		return phrase.Of("current")
	case Due:
		return phrase.Of("due")
	case Lapsed:
		return phrase.Of("lapsed")
	case Withdrawn:
		return phrase.Of("withdrawn")
	case Waived:
		return phrase.Of("waived")
	}
	return phrase.Text(string(w))
}

// as folds current and due into one, for counting unbroken days.
func (w StandingWord) as() StandingWord {
	if w == Due {
		return Current
	}
	return w
}

// Standing is the answer for one caregiver, one skill and one civil date.
type Standing struct {
	On       civil.Date
	Word     StandingWord
	Through  civil.Date // last day of the holding as it stands; zero where there is none
	Since    civil.Date // first of the unbroken days of this standing; zero for not started
	DaysLeft int        // from On to Through where current or due, else 0
	Because  []string   // ids of what made it so
	Next     Next       // what is needed
}

// On answers for day x. Nothing that comes into effect after x changes it.
func (c *Case) On(x civil.Date) Standing {
	f := c.walk(x)
	s := f.answer(x)
	s.Since = c.since(x, f, s.Word)
	s.Next = f.next(s)
	return s
}

// Holds reports whether the caregiver may do the skill alone on day x.
func (c *Case) Holds(x civil.Date) bool {
	return c.walk(x).answer(x).Word.Holds()
}

func (f *fold) answer(x civil.Date) Standing {
	s := Standing{On: x}
	through, ended := f.effectiveThrough()
	if f.holding != nil {
		s.Through = through
	}
	switch {
	case len(f.bars) > 0:
		s.Word = Withdrawn
		for _, b := range f.bars {
			s.Because = append(s.Because, b.id)
		}
	case f.holding != nil && !x.After(through):
		s.Word, s.DaysLeft = Current, through.Sub(x)
		if s.DaysLeft <= f.rules.NoticeDays {
			s.Word = Due
		}
		s.Because = f.holding.made
	case f.waiver != "":
		s.Word, s.Because = Waived, []string{f.waiver}
	case f.holding != nil:
		s.Word, s.Because = Lapsed, append(slices.Clone(f.holding.made), ended...)
	case f.ever:
		s.Word, s.Because = Lapsed, f.lastMade
	case len(f.seen) > 0:
		s.Word, s.Because = Learning, f.seen
	default:
		s.Word = NotStarted
	}
	return s
}

// effectiveThrough is the earliest end of the holding: its own, a recheck it has
// not met, an absence, a resuscitation card; with the ids of what cut it short.
func (f *fold) effectiveThrough() (civil.Date, []string) {
	h := f.holding
	if h == nil {
		return civil.Date{}, nil
	}
	through, cut := h.through, []string(nil)
	for _, k := range f.rechecks {
		if k.Revision > h.revision && k.By.Before(through) {
			through, cut = k.By, []string{k.ID}
		}
	}
	if a := f.rules.AbsenceDays; a > 0 {
		if idle := h.last.AddDays(a); idle.Before(through) {
			through, cut = idle, nil
		}
	}
	if f.rules.CardNeeded {
		if end, id := f.card(h.anchor.AddDays(-1)); end.Before(through) {
			through, cut = end, id
		}
	}
	return through, cut
}

// card is the last day of the longest-lasting card on file, with its id; none
// where there is no card, so that a holding without one never began to count.
func (f *fold) card(none civil.Date) (civil.Date, []string) {
	end, id := none, []string(nil)
	for _, k := range f.cards {
		if id == nil || k.Through.After(end) {
			end, id = k.Through, []string{k.ID}
		}
	}
	return end, id
}

// since walks back over the days on which the answer was the same. Within one
// stretch between breaks only one thing can happen: the holding runs out.
func (c *Case) since(x civil.Date, f *fold, word StandingWord) civil.Date {
	if word == NotStarted {
		return civil.Date{}
	}
	first := x
	for day := x; ; {
		start, ok := c.stretch(day)
		if !ok {
			return first
		}
		through, _ := f.effectiveThrough()
		ranOut := through.AddDays(1)
		if f.holding != nil && ranOut.After(start) && !ranOut.After(day) {
			if f.answer(day).Word.as() != f.answer(through).Word.as() {
				return ranOut
			}
		}
		first, day = start, start.AddDays(-1)
		f = c.walk(day)
		if f.answer(day).Word.as() != word.as() {
			return first
		}
	}
}

// stretch is the first day of the unbroken stretch that holds x.
func (c *Case) stretch(x civil.Date) (civil.Date, bool) {
	i, found := slices.BinarySearchFunc(c.starts, x, civil.Date.Compare)
	if found {
		return x, true
	}
	if i == 0 {
		return civil.Date{}, false
	}
	return c.starts[i-1], true
}
