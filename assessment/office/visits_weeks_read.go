package office

import (
	"cmp"
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// visitWeeks reads how educators' weeks are, and how long the ways.
func (o *Office) visitWeeks(ctx context.Context, tx *postgres.Tx, now Moment, b *visitBook, panel *panel) error {
	weeks, err := tx.Visits.Availabilities(ctx)
	if err != nil {
		return fmt.Errorf("read availability: %w", err)
	}
	b.weeks = map[assessment.PersonID]postgres.Availability{}
	for _, w := range weeks {
		b.weeks[w.Person] = w
	}
	off, err := tx.Visits.DaysOff(ctx, now.Today)
	if err != nil {
		return fmt.Errorf("read days off: %w", err)
	}
	for i, seen := range panel.seen {
		e := assessment.VisitEducator{Person: seen.Observer, Name: panel.names[i], Observes: map[string][]assessment.DaySpan{}, PerDay: UsualPerDay, DaysOff: weekdays(UsualDaysOff), Taken: map[civil.Date]int{}}
		if w, set := b.weeks[e.Person]; set {
			e.PerDay, e.Base, e.DaysOff = w.PerDay, string(w.Base), nil
			for _, d := range w.DaysOff {
				e.DaysOff = append(e.DaysOff, time.Weekday(d%7))
			}
		}
		for _, d := range off {
			if d.Person == e.Person {
				e.Off = append(e.Off, assessment.DaySpan{From: d.FromOn, Through: d.ThroughOn})
			}
		}
		b.educators = append(b.educators, e)
	}
	if b.ways, err = tx.Visits.TravelTimes(ctx); err != nil {
		return fmt.Errorf("read the ways: %w", err)
	}
	b.distances.Unknown = UsualMinutes
	for _, w := range b.ways {
		b.distances.Set(string(w.Client), cmp.Or(string(w.Other), string(w.Base)), w.Minutes)
	}
	return nil
}

func weekdays(iso []int) []time.Weekday {
	var days []time.Weekday
	for _, d := range iso {
		days = append(days, time.Weekday(d%7))
	}
	return days
}

// makeObservers says on which days each educator may observe each skill that is due,
// their own standings on those days included.
func (b *visitBook) makeObservers(now Moment, book *casebook, panel *panel) error {
	var codes []string
	for _, w := range b.windows {
		codes = append(codes, w.Need.Skill)
	}
	held := map[assessment.PersonID]map[assessment.SkillID][]assessment.CaseKey{}
	for _, key := range book.keys() {
		if held[key.Person] == nil {
			held[key.Person] = map[assessment.SkillID][]assessment.CaseKey{}
		}
		held[key.Person][key.Skill] = append(held[key.Person][key.Skill], key)
	}
	for i, seen := range panel.seen {
		for _, code := range distinct(codes) {
			skill := b.skill(code)
			own, err := book.lines(held[seen.Observer][skill.ID])
			if err != nil {
				return err
			}
			seen.Skill, seen.Title = code, skill.Title
			left := b.left(seen.Observer)
			var spans []assessment.DaySpan
			for day := now.Today; !day.After(b.horizon); day = day.AddDays(1) {
				seen.Standing = standsOn(own, day)
				if gone(left, day) || seen.MayObserve(day) != nil {
					continue
				}
				if n := len(spans); n > 0 && spans[n-1].Through.AddDays(1) == day {
					spans[n-1].Through = day
				} else {
					spans = append(spans, assessment.DaySpan{From: day, Through: day})
				}
			}
			if len(spans) > 0 {
				b.educators[i].Observes[code] = spans
			}
		}
	}
	return nil
}

// lines are the standings of cases over all days: of somebody in a skill, with each child by
// whom anything is known.
func (b *casebook) lines(keys []assessment.CaseKey) ([][]assessment.Segment, error) {
	var all [][]assessment.Segment
	for _, key := range keys {
		c, err := b.caseOf(key)
		if err != nil {
			return nil, err
		}
		all = append(all, c.Timeline())
	}
	return all, nil
}

// standsOn is what standings with several children come to on a day.
func standsOn(lines [][]assessment.Segment, on civil.Date) assessment.StandingWord {
	var words []assessment.StandingWord
	for _, line := range lines {
		word := assessment.NotStarted
		for _, s := range line {
			if !s.From.After(on) {
				word = s.Word
			}
		}
		words = append(words, word)
	}
	return withAny(words)
}

// version is a hash of all that a plan depends on.
func (b *visitBook) version(now Moment) string {
	facts := []any{now.Today, b.until, b.windows, b.ways, b.kept}
	for _, e := range b.educators {
		facts = append(facts, e.Person, e.Observes, e.Off, e.DaysOff, e.PerDay, e.Base)
	}
	return hashed(facts...)
}
