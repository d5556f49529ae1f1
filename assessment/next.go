package assessment

import (
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

// Next is what is needed to hold the skill (again), in numbers. All zero means
// nothing.
type Next struct {
	Demonstrations int  // competent, formal
	OnOtherDays    int  // of them on days not yet used
	ByOthers       int  // of them seen by observers not yet counted
	WithClient     int  // of them with the real client
	Reinstatement  bool // somebody entitled must reinstate first
	LaterDay       bool // not on the day of the withdrawal
	Card           bool // a current resuscitation card
}

func (f *fold) next(s Standing) Next {
	var n Next
	if f.rules.CardNeeded {
		end, _ := f.card(civil.Date{})
		n.Card = end.Sub(s.On) <= f.rules.NoticeDays
	}
	for _, b := range f.bars {
		n.Reinstatement = n.Reinstatement || b.until == Reinstated
		n.LaterDay = n.LaterDay || b.until == Redemonstrated && !s.On.After(b.day)
	}
	switch {
	case f.holding == nil || f.overTooLong(s.On):
		f.wholeAward(s, &n)
	case f.oneMore(s):
		n.Demonstrations = 1
	}
	return n
}

// oneMore: with a holding, one demonstration lifts a bar or renews what has run
// out or soon will. A card that has run out is no reason for one.
func (f *fold) oneMore(s Standing) bool {
	for _, b := range f.bars {
		if b.until != Reinstated {
			return true
		}
	}
	rest := *f
	rest.rules.CardNeeded = false
	through, _ := rest.effectiveThrough()
	return through.Sub(s.On) <= f.rules.NoticeDays
}

// wholeAward counts what the run so far still lacks. A holding that has been
// over for too long leaves nothing to build on.
func (f *fold) wholeAward(s Standing, n *Next) {
	award := f.c.book.of(f.newestRevision(s)).Award
	var within []dated
	for _, d := range f.run {
		if f.holding == nil && !d.day.Before(s.On.AddDays(-award.SpanDays)) {
			within = append(within, d)
		}
	}
	t := tally(within)
	n.OnOtherDays = max(0, award.Days-max(1, t.days)) // the first one is on no other day
	n.ByOthers = max(0, award.Observers-max(1, t.observers))
	n.WithClient = max(0, award.Real-t.real)
	n.Demonstrations = max(1, award.Count-t.shown, n.OnOtherDays, n.ByOthers, n.WithClient)
}

func (f *fold) newestRevision(s Standing) int {
	revision := 0
	for i, p := range f.c.book.InForce {
		if i == 0 || !p.From.After(s.On) {
			revision = p.Revision
		}
	}
	return revision
}

// InWords says what is needed, in English; empty for nothing.
func (n Next) InWords() string { return n.Phrase().String() }

// Phrase says what is needed, for the person who reads it; nothing for nothing.
func (n Next) Phrase() phrase.Phrase {
	var all phrase.Phrase
	and := func(p phrase.Phrase) {
		if all.IsZero() {
			all = p
			return
		}
		all = phrase.Of("%s and %s", all, p)
	}
	if n.Reinstatement {
		and(phrase.Of("reinstatement by someone entitled"))
	}
	if n.Card {
		and(phrase.Of("a current resuscitation card"))
	}
	if n.Demonstrations > 0 {
		and(n.demonstrations())
	}
	return all
}

func (n Next) demonstrations() phrase.Phrase {
	words := phrase.Count(n.Demonstrations, "one competent demonstration", "%d competent demonstrations")
	with := func(p phrase.Phrase) { words = phrase.Of("%s, %s", words, p) }
	if k := n.OnOtherDays; k > 0 {
		with(n.some(k, phrase.Count(k, "on another day", "on %d other days")))
	}
	if k := n.ByOthers; k > 0 {
		with(n.some(k, phrase.Count(k, "seen by another observer", "seen by %d other observers")))
	}
	if k := n.WithClient; k > 0 {
		with(n.some(k, phrase.Of("with the child")))
	}
	if n.LaterDay {
		with(phrase.Of("not before tomorrow"))
	}
	return words
}

// some names k of the demonstrations that are needed, where it is not all.
func (n Next) some(k int, which phrase.Phrase) phrase.Phrase {
	switch {
	case k == n.Demonstrations:
		return which
	case k == 1:
		return phrase.Of("one of them %s", which)
	}
	return phrase.Of("%d of them %s", k, which)
}
