package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/civil"
)

// Renewal is when something that must be held can be shown so that it goes on being held,
// or is held again.
type Renewal struct {
	Word    StandingWord // on the day that was asked about
	Opens   civil.Date
	Through civil.Date // the last day of the holding; where it is not held, of the days asked about
	Lapses  bool       // it is held now, and over after Through
	Next    Next       // what is needed in all: one visit shows one demonstration
	Why     WhyNoVisit // empty: a demonstration in the window helps
}

// WhyNoVisit says why no demonstration helps.
type WhyNoVisit string

// The reasons.
const (
	AwaitsReinstatement WhyNoVisit = "somebody entitled must reinstate it first"
	AwaitsCard          WhyNoVisit = "a resuscitation card is missing or runs out, and nothing that is shown makes up for it"
)

// Renewal answers, as things are known on a day, for what is due on it, is over on a day
// through until, or is not held. It answers false where nothing is due, and where it is
// waived. A holding is shown again from the day from which a renewal keeps its anchor; where the
// policy knows no such days, or the holding is cut short before them, from the day on
// which it is due. Each day of the window is held to the fold: a pass on it is one by
// which the skill is held on the day after Through.
func (c *Case) Renewal(today, until civil.Date) (Renewal, bool) {
	s := c.On(today)
	if s.Word.Holds() {
		return c.beforeItIsOver(s, until)
	}
	r := Renewal{Word: s.Word, Opens: today, Through: until, Next: s.Next}
	switch {
	case s.Word == Waived:
		return r, false
	case s.Next.Reinstatement:
		r.Why = AwaitsReinstatement
	case s.Next.Demonstrations == 0:
		r.Why = AwaitsCard
	case s.Next.LaterDay:
		r.Opens = today.AddDays(1)
	}
	return r, true
}

func (c *Case) beforeItIsOver(s Standing, until civil.Date) (Renewal, bool) {
	lost := c.lostAfter(s.On)
	last := lost.AddDays(-1)
	if s.Word != Due && last.After(until) {
		return Renewal{}, false
	}
	f := c.walk(s.On)
	r := Renewal{Word: s.Word, Through: last, Lapses: true, Next: s.Next}
	r.Next.Demonstrations = max(r.Next.Demonstrations, 1)
	r.Opens = f.holding.through.AddDays(-f.rules.RenewalDays)
	if f.rules.RenewalDays == 0 || r.Opens.After(last) {
		r.Opens = last.AddDays(-f.rules.NoticeDays)
	}
	r.Opens = civil.Later(r.Opens, s.On)
	for !r.Opens.After(last) && !c.withPass(r.Opens).Holds(lost) {
		r.Opens = r.Opens.AddDays(1)
	}
	if r.Opens.After(last) { // nothing that is shown while it is held helps
		return c.afterItIsOver(r, lost, until), true
	}
	return r, true
}

// afterItIsOver is for a holding that no renewal saves: a card runs out, or the child's
// equipment changes, and what is shown with the new one counts from then on.
func (c *Case) afterItIsOver(r Renewal, lost, until civil.Date) Renewal {
	r.Opens, r.Lapses, r.Next = lost, false, c.On(lost).Next
	if r.Through = civil.Later(until, lost); r.Next.Demonstrations == 0 {
		r.Why = AwaitsCard
	}
	return r
}

// lostAfter is the first day after one on which it is held that it is not held any more, as
// far as time alone decides it.
func (c *Case) lostAfter(x civil.Date) civil.Date {
	line := c.Timeline()
	i := slices.IndexFunc(line, func(s Segment) bool { return s.From.After(x) && !s.Word.Holds() })
	return line[i].From // every holding ends
}

// withPass is the case as it would be with one more pass on a day, by the revision in
// force then and with the equipment of that day, signed by both on it.
func (c *Case) withPass(on civil.Date) *Case {
	at := on.In(c.zone).Add(12 * time.Hour)
	f := &fold{c: c}
	e := Entry{Kind: DemonstrationEntry, ID: "a pass", At: at, Outcome: Competent, Observer: "somebody", Real: true, Formal: true,
		Revision: f.newestRevision(Standing{On: on}), ObserverSigned: at, LearnerSigned: at, Fitted: c.fittedOn(on)}
	with := &Case{zone: c.zone, book: c.book, fittings: c.fittings, entries: slices.Clone(c.entries)}
	with.entries = append(with.entries, c.place(e, on))
	with.order()
	return with
}
