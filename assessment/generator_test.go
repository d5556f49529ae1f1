package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"time"
	_ "time/tzdata" // the same zones on every machine

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

func refOfCivil(d civil.Date) refDay {
	y, m, day := d.Civil()
	return refCount(refDate{y, int(m), day})
}

// invented makes policies and histories at random, small and crowded on purpose:
// the rules show at ties, at month ends and a day either side of each limit.
type invented struct {
	*rand.Rand
	zone    *time.Location
	terms   assessment.Terms
	first   civil.Date
	days    []civil.Date // days already used, to come back to
	history []assessment.Entry
}

var inventedZones = []string{"UTC", "America/New_York", "America/Denver", "Europe/London", "Asia/Kolkata",
	"Australia/Lord_Howe", "Pacific/Auckland", "America/Sao_Paulo", "Asia/Beirut", "Pacific/Apia"}

// invent makes one case from a seed.
func invent(seed uint64) *invented {
	g := &invented{Rand: rand.New(rand.NewPCG(seed, 20270115))}
	zone, err := time.LoadLocation(pick(g, inventedZones...))
	if err != nil {
		panic(err)
	}
	g.zone = zone
	g.first = pick(g, civil.MustParse("2023-12-20"), civil.MustParse("2011-12-01"), civil.MustParse("2026-01-28"),
		civil.MustParse("2024-02-25"), civil.MustParse("2018-10-20"))
	for g.terms = g.policy(); g.terms.Check() != nil; g.terms = g.policy() {
	}
	for n := 1 + g.IntN(16); len(g.history) < n; {
		g.history = append(g.history, g.entry(fmt.Sprintf("e%02d", len(g.history))))
	}
	g.Shuffle(len(g.history), func(i, j int) { g.history[i], g.history[j] = g.history[j], g.history[i] })
	return g
}

func pick[T any](g *invented, from ...T) T { return from[g.IntN(len(from))] }

func (g *invented) chance(percent int) bool { return g.IntN(100) < percent }

func (g *invented) policy() assessment.Terms {
	count := 1 + g.IntN(3)
	t := assessment.Terms{
		Award: assessment.Award{Count: count, Days: 1 + g.IntN(count), Observers: 1 + g.IntN(count), Real: g.IntN(count + 1),
			SpanDays: pick(g, 1, 10, 30, 60, 180, 366), Consecutive: g.chance(70)},
		Validity: assessment.Validity{Months: pick(g, 1, 2, 3, 6, 12), Anchor: pick(g, assessment.Anniversary, assessment.MonthEnd),
			RenewalDays: pick(g, 0, 1, 7, 20, 27, 60, 90), NoticeDays: pick(g, 0, 7, 30), AbsenceDays: pick(g, 0, 0, 10, 40)},
	}
	if g.chance(50) {
		t.Validity.LapseMonths = new(pick(g, 0, 1, 2, 6))
	}
	return t
}

// day comes back to a day already used, or lands near what the policy makes of
// one, or anywhere.
func (g *invented) day() civil.Date {
	d := g.first.AddDays(g.IntN(420))
	if len(g.days) > 0 && g.chance(75) {
		d = g.near(g.days[g.IntN(len(g.days))])
	}
	if g.chance(10) {
		d = d.MonthEnd()
	}
	g.days = append(g.days, d)
	return d
}

func (g *invented) near(d civil.Date) civil.Date {
	v := g.terms.Validity
	switch g.IntN(7) {
	case 0:
		return d
	case 1:
		return d.AddDays(g.IntN(5) - 2)
	case 2: // where it ends
		return g.ends(d).AddDays(g.IntN(3) - 1)
	case 3: // where its renewal window opens
		return g.ends(d).AddDays(g.IntN(3) - 1 - v.RenewalDays)
	case 4: // where its lapse limit is reached
		if v.LapseMonths != nil {
			return g.ends(d).AddMonths(*v.LapseMonths).AddDays(g.IntN(3) - 1)
		}
		return d.AddDays(g.terms.Award.SpanDays + g.IntN(3) - 1)
	case 5:
		return d.AddDays(v.AbsenceDays + g.IntN(3) - 1)
	}
	return d.AddDays(g.IntN(40))
}

func (g *invented) ends(d civil.Date) civil.Date {
	end := d.AddMonths(g.terms.Validity.Months)
	if g.terms.Validity.Anchor == assessment.MonthEnd {
		end = end.MonthEnd()
	}
	return end
}

// at is an instant on a day: few hours, so that ties are common, and both ends
// of the day.
func (g *invented) at(d civil.Date) time.Time {
	y, m, day := d.Civil()
	hour := pick(g, 0, 0, 9, 12, 12, 12, 23)
	minute := 0
	if hour == 23 {
		minute = 59
	}
	return time.Date(y, m, day, hour, minute, 0, 0, g.zone)
}

func (g *invented) instant() time.Time { return g.at(g.day()) }

func (g *invented) entry(id string) assessment.Entry {
	e := assessment.Entry{ID: id, Kind: assessment.DemonstrationEntry}
	switch n := g.IntN(100); {
	case n < 8:
		e.Kind, e.At, e.Until = assessment.WithdrawalEntry, g.instant(), pick(g, assessment.Redemonstrated, assessment.Reinstated)
	case n < 14 && g.has(assessment.WithdrawalEntry):
		e.Kind, e.At, e.Of = assessment.ReinstatementEntry, g.instant(), g.one(assessment.WithdrawalEntry)
	case n < 19:
		e.Kind, e.On = assessment.WaiverEntry, g.day()
		e.Through = e.On.AddDays(g.IntN(90))
	case n < 25:
		e.Kind, e.Revision = assessment.RecheckEntry, 1+g.IntN(3)
		day := g.day()
		e.At, e.By = g.at(day), day.AddDays(g.IntN(60))
	case n < 34:
		e.Kind, e.On = assessment.PracticeEntry, g.day()
	case n < 37:
		e.Kind, e.On = assessment.TeachingEntry, g.day()
	case n < 45 && len(g.history) > 0:
		if of := g.history[g.IntN(len(g.history))]; of.Kind != assessment.CorrectionEntry {
			e.Kind, e.At, e.Of = assessment.CorrectionEntry, g.instant(), of.ID
			return e
		}
		fallthrough
	default:
		g.demonstration(&e)
	}
	return e
}

func (g *invented) has(k assessment.EntryKind) bool { return g.one(k) != "" }

func (g *invented) one(k assessment.EntryKind) string {
	var ids []string
	for _, e := range g.history {
		if e.Kind == k {
			ids = append(ids, e.ID)
		}
	}
	if len(ids) == 0 {
		return ""
	}
	return ids[g.IntN(len(ids))]
}

func (g *invented) demonstration(e *assessment.Entry) {
	day := g.day()
	e.At, e.Outcome = g.at(day), assessment.Competent
	if g.chance(22) {
		e.Outcome = pick(g, assessment.NotYetCompetent, assessment.StoppedForSafety)
	}
	e.Observer, e.Real, e.Formal, e.Revision = pick(g, "o1", "o1", "o2", "o3"), g.chance(70), g.chance(85), 1+g.IntN(3)
	e.ObserverSigned, e.LearnerSigned = g.signed(day, e.At), g.signed(day, e.At)
}

// signed: mostly at once, now and then late, never, or by a clock that is wrong.
func (g *invented) signed(day civil.Date, at time.Time) time.Time {
	switch n := g.IntN(100); {
	case n < 75:
		return at.Add(10 * time.Minute)
	case n < 90:
		return g.at(day.AddDays(g.IntN(60)))
	case n < 95:
		return at.Add(-26 * time.Hour)
	}
	return time.Time{}
}

func (g *invented) oneCase() *assessment.Case {
	return mustCase(g.zone, g.terms, g.history)
}

func mustCase(zone *time.Location, terms assessment.Terms, history []assessment.Entry) *assessment.Case {
	c, err := assessment.NewCase(zone, assessment.Book{Default: terms}, nil, history)
	if err != nil {
		panic(err)
	}
	return c
}

func (g *invented) reference() refWorld { return refWorld{g.zone, g.terms, g.history} }
