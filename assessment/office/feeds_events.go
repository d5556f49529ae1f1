package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/url"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/calendar"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// How far calendars look, in days: back, ahead to shifts, and ahead to what ends. Common
// practice, no source.
const (
	feedBack   = 7
	feedShifts = 28
	feedEnds   = 90
)

// feedWords are the words of a calendar in a language. Those of the agency's are English.
type feedWords struct{ lastDay, over, shift, visit, comes, skillsDay string }

var feedLanguages = map[string]feedWords{
	"en": {"Last day: %s", "Over: %s", "Shift%s", "Visit%s", "An educator comes%s", "Skills day: %s"},
	"es": {"Último día: %s", "Vencida: %s", "Turno%s", "Visita%s", "Viene una persona educadora%s", "Jornada de competencias: %s"},
}

// uid is the same for the same thing, and tells nothing of it.
func (o *Office) uid(kind string, ids ...string) string {
	sum := sha256.Sum256([]byte(kind + " " + strings.Join(ids, " ")))
	host := "wellshown.invalid"
	if u, err := url.Parse(o.opt.BaseURL); err == nil && u.Hostname() != "" {
		host = u.Hostname()
	}
	return kind + "-" + hex.EncodeToString(sum[:12]) + "@" + host
}

// ownEvents are one's own last days, shifts, visits and skills days. A child is named by
// the code alone, and nobody else at all.
func (o *Office) ownEvents(ctx context.Context, tx *postgres.Tx, now Moment, p postgres.Person) ([]calendar.Event, error) {
	words, known := feedLanguages[p.Language]
	if !known {
		words = feedLanguages["en"]
	}
	t, err := o.table(ctx, tx, now.Today, []assessment.PersonID{p.ID})
	if err != nil {
		return nil, err
	}
	events := o.lastDays(t, p, words)
	shifts, err := o.ownShifts(ctx, tx, now, t, p, words)
	if err != nil {
		return nil, err
	}
	visits, err := o.visitEvents(ctx, tx, now, t, &p, words)
	if err != nil {
		return nil, err
	}
	days, err := o.skillsDayEvents(ctx, tx, now, &p, words)
	if err != nil {
		return nil, err
	}
	return slices.Concat(events, shifts, visits, days), nil
}

// code is a child in a calendar.
func (t *table) code(id assessment.ClientID) string {
	if c, known := t.names.clients[id]; known {
		return ": " + c.Code
	}
	return ""
}

func (o *Office) lastDays(t *table, p postgres.Person, words feedWords) []calendar.Event {
	var events []calendar.Event
	for _, h := range holdings(t) {
		if h.Person != p.ID || !h.Word.Holds() && h.Word != assessment.Lapsed {
			continue
		}
		i := slices.IndexFunc(t.skills, func(s postgres.Skill) bool { return s.ID == h.Skill })
		called, _ := wording.In(wording.Of(p.Language)).Theirs(t.skills[i].Title)
		what := called + strings.Replace(t.code(h.Client), ": ", ", ", 1)
		e := calendar.Event{UID: o.uid("due", string(h.Person), string(h.Skill), string(h.Client)), On: h.Through, Summary: fmt.Sprintf(words.lastDay, what)}
		if h.Word == assessment.Lapsed {
			e.On, e.Summary = h.Through.AddDays(1), fmt.Sprintf(words.over, what)
		}
		events = append(events, e)
	}
	return events
}

func (o *Office) ownShifts(ctx context.Context, tx *postgres.Tx, now Moment, t *table, p postgres.Person, words feedWords) ([]calendar.Event, error) {
	kept, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
	if err != nil {
		return nil, fmt.Errorf("read children: %w", err)
	}
	clients := map[assessment.ClientID]postgres.Client{}
	for _, c := range kept {
		clients[c.ID] = c
	}
	roster, err := o.rosterBook(ctx, tx, now, now.Today.AddDays(-feedBack), now.Today.AddDays(feedShifts), postgres.RosterFilter{Person: p.ID}, clients)
	if err != nil {
		return nil, err
	}
	var events []calendar.Event
	for _, s := range roster.shifts {
		if s.Person == p.ID {
			events = append(events, calendar.Event{UID: o.uid("shift", string(s.ID)), Starts: s.Starts, Ends: s.Ends, Summary: fmt.Sprintf(words.shift, t.code(s.Client))})
		}
	}
	return events, nil
}

// visitEvents are visits: all of them for nobody, else those that somebody makes, and those
// to the homes of children whose team they are on.
func (o *Office) visitEvents(ctx context.Context, tx *postgres.Tx, now Moment, t *table, p *postgres.Person, words feedWords) ([]calendar.Event, error) {
	visits, err := tx.Visits.From(ctx, now.Today.AddDays(-feedBack))
	if err != nil {
		return nil, fmt.Errorf("read visits: %w", err)
	}
	var events []calendar.Event
	for _, v := range visits {
		says := words.visit
		if p != nil && v.Person != p.ID {
			on := func(m postgres.Member) bool { return m.Person == p.ID && m.Client == v.Client }
			if says = words.comes; !slices.ContainsFunc(t.demands.members, on) {
				continue
			}
		}
		events = append(events, calendar.Event{UID: o.uid("visit", string(v.ID)), On: v.FallsOn, Summary: fmt.Sprintf(says, t.code(v.Client))})
	}
	return events, nil
}

// skillsDayEvents are skills days to come: all of them for nobody, else those that
// somebody comes to or observes at.
func (o *Office) skillsDayEvents(ctx context.Context, tx *postgres.Tx, now Moment, p *postgres.Person, words feedWords) ([]calendar.Event, error) {
	days, err := tx.SkillsDays.From(ctx, now.Today.AddDays(-feedBack))
	if err != nil {
		return nil, fmt.Errorf("read skills days: %w", err)
	}
	var events []calendar.Event
	for _, d := range days {
		calledOff := d.EndedAt != nil && civil.DayOf(*d.EndedAt, now.Zone).Before(d.HeldOn)
		if calledOff {
			continue
		}
		if p != nil {
			there, err := isThere(ctx, tx, d.ID, p.ID)
			if err != nil {
				return nil, err
			}
			if !there {
				continue
			}
		}
		events = append(events, calendar.Event{UID: o.uid("skills-day", string(d.ID)), On: d.HeldOn, Summary: fmt.Sprintf(words.skillsDay, d.Name)})
	}
	return events, nil
}

func isThere(ctx context.Context, tx *postgres.Tx, day assessment.SkillsDayID, who assessment.PersonID) (bool, error) {
	learners, err := tx.SkillsDays.Learners(ctx, day)
	if err != nil {
		return false, fmt.Errorf("read who comes to a skills day: %w", err)
	}
	stations, err := tx.SkillsDays.Stations(ctx, day)
	if err != nil {
		return false, fmt.Errorf("read stations: %w", err)
	}
	return slices.ContainsFunc(learners, func(l postgres.DayLearner) bool { return l.PersonID == who }) ||
		slices.ContainsFunc(stations, func(s postgres.Station) bool { return s.ObserverID == who }), nil
}

// agencyEvents are what an agency has to look after: how much ends on a day, shifts that
// break or are open, visits and skills days. It names no caregiver and no educator.
func (o *Office) agencyEvents(ctx context.Context, tx *postgres.Tx, now Moment) ([]calendar.Event, error) {
	words := feedLanguages["en"]
	t, err := o.table(ctx, tx, now.Today, nil)
	if err != nil {
		return nil, err
	}
	events := o.endings(t)
	cover, err := o.coverage(ctx, tx, now, CoverageQuery{Through: now.Today.AddDays(feedShifts), State: "trouble"})
	if err != nil {
		return nil, err
	}
	for _, l := range cover.Lines {
		says := "Shift breaks"
		switch {
		case l.Word == assessment.OpenYet:
			says = "Open shift"
		case l.Word == assessment.Covered:
			says = "Shift clashes"
		}
		events = append(events, calendar.Event{UID: o.uid("shift", string(l.ID)), Starts: l.Starts, Ends: l.Ends, Summary: says + ": " + l.Client.Code})
	}
	visits, err := o.visitEvents(ctx, tx, now, t, nil, words)
	if err != nil {
		return nil, err
	}
	days, err := o.skillsDayEvents(ctx, tx, now, nil, words)
	return slices.Concat(events, visits, days), err
}

// endings are, of each day on which something ends, how much of how many people.
func (o *Office) endings(t *table) []calendar.Event {
	skills, people := map[civil.Date]int{}, map[civil.Date]map[assessment.PersonID]bool{}
	var days []civil.Date
	for _, h := range holdings(t) {
		if !h.Word.Holds() || h.Through.Sub(t.on) > feedEnds {
			continue
		}
		if skills[h.Through]++; people[h.Through] == nil {
			people[h.Through] = map[assessment.PersonID]bool{}
			days = append(days, h.Through)
		}
		people[h.Through][h.Person] = true
	}
	slices.SortFunc(days, civil.Date.Compare)
	var events []calendar.Event
	for _, d := range days {
		events = append(events, calendar.Event{UID: o.uid("ends", d.String()), On: d, Summary: fmt.Sprintf("Last day of %s of %s", counted(skills[d], "skill", "skills"), counted(len(people[d]), "person", "people"))})
	}
	return events
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
