package office

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// learningBook is what a plan is worked out from.
type learningBook struct {
	person   assessment.PersonID
	today    civil.Date
	book     *casebook
	names    names
	needs    []assessment.Need
	clients  []assessment.ClientID // whose team they are on, by code
	days     map[assessment.SkillID]int
	chosen   []postgres.LearningChoice
	sessions []postgres.TeachingSession
	runs     []postgres.PracticeRun
	taught   map[assessment.CaseKey]bool // as written down on their page
	asked    map[assessment.SkillID]bool // skills that have a knowledge check
	checks   map[assessment.SkillID]bool // knowledge checks that are passed and hold
}

func (o *Office) learningBook(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (*learningBook, error) {
	b := &learningBook{person: person, today: now.Today, days: map[assessment.SkillID]int{}, taught: map[assessment.CaseKey]bool{}}
	var err error
	if b.book, err = o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{person}}); err != nil {
		return nil, err
	}
	if b.names, err = o.names(ctx, tx); err != nil {
		return nil, err
	}
	d, err := o.demands(ctx, tx, now.Today, postgres.TeamFilter{})
	if err != nil {
		return nil, err
	}
	b.needs = d.byPerson()[person]
	for _, m := range d.members {
		if m.Person == person && !slices.Contains(b.clients, m.Client) {
			b.clients = append(b.clients, m.Client)
		}
	}
	slices.SortFunc(b.clients, func(x, y assessment.ClientID) int { return compareCodes(b.names.clients[x], b.names.clients[y]) })
	return b, b.read(ctx, tx)
}

func (b *learningBook) read(ctx context.Context, tx *postgres.Tx) error {
	days, err := tx.Learning.Days(ctx)
	if err != nil {
		return fmt.Errorf("read days of learning: %w", err)
	}
	for _, d := range days {
		b.days[d.Skill] = d.Days
	}
	if b.chosen, err = tx.Learning.Choices(ctx, b.person); err != nil {
		return fmt.Errorf("read what was chosen in a plan: %w", err)
	}
	if b.sessions, err = tx.Teaching.Of(ctx, b.person); err != nil {
		return fmt.Errorf("read what was taught: %w", err)
	}
	if b.runs, err = tx.PracticeRuns.Of(ctx, b.person); err != nil {
		return fmt.Errorf("read what was practised: %w", err)
	}
	for key, entries := range b.book.rows {
		b.taught[key] = key.Person == b.person && slices.ContainsFunc(entries, func(e assessment.Entry) bool {
			return e.Kind == assessment.TeachingEntry && !slices.ContainsFunc(entries, func(c assessment.Entry) bool { return c.Kind == assessment.CorrectionEntry && c.Of == e.ID })
		})
	}
	return nil
}

// learnKey names a skill in a plan: per child where it is held so.
func learnKey(s *skillbook, client assessment.ClientID) string {
	if s.Scope == assessment.General || client == "" {
		return s.Code
	}
	return s.Code + " " + string(client)
}

// unit is a skill of a plan, with the child that it is held for.
type unit struct {
	skill  *skillbook
	client assessment.ClientID
}

// units are all that could be learnt, in teaching order; those held per child once for
// each child of theirs.
func (b *learningBook) units() ([]assessment.ToLearn, map[string]unit) {
	var all []assessment.ToLearn
	by := map[string]unit{}
	for _, s := range b.inOrder() {
		with := b.clients
		if s.Scope == assessment.General {
			with = []assessment.ClientID{""}
		}
		for _, c := range with {
			u := unit{s, c}
			key := learnKey(s, c)
			by[key] = u
			all = append(all, assessment.ToLearn{Skill: key, Title: b.title(u), First: b.first(u), Days: b.planned(s)})
		}
	}
	return all, by
}

// inOrder lists the skills in teaching order.
func (b *learningBook) inOrder() []*skillbook {
	skills := slices.Collect(maps.Values(b.book.skills))
	slices.SortFunc(skills, func(x, y *skillbook) int { return x.Position - y.Position })
	return skills
}

func (b *learningBook) planned(s *skillbook) int {
	if days, ok := b.days[s.ID]; ok {
		return days
	}
	return assessment.PlannedDays(s.Code)
}

// title names a unit: with the child only where there are several.
func (b *learningBook) title(u unit) string {
	if u.client == "" || len(b.clients) < 2 {
		return u.skill.Title
	}
	return u.skill.Title + ", " + b.names.clients[u.client].Code
}

// first lists what comes before a unit: for the same child what is held per child.
func (b *learningBook) first(u unit) []string {
	var all []string
	if u.skill.newest == nil {
		return nil
	}
	for _, code := range u.skill.newest.Prerequisites {
		if s, ok := b.book.byCode[code]; ok {
			all = append(all, learnKey(s, u.client))
		}
	}
	return all
}

func (b *learningBook) key(u unit) assessment.CaseKey {
	return assessment.CaseKey{Person: b.person, Skill: u.skill.ID, Client: u.client}
}
