package office

import (
	"cmp"
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// SkillRef, ClientRef and PersonRef name things on pages and papers.
type (
	// SkillRef is a skill by id, code and title.
	SkillRef struct {
		ID    assessment.SkillID
		Code  string
		Title string
	}
	// ClientRef is a child by id, code and first name; empty for general skills.
	ClientRef struct {
		ID        assessment.ClientID
		Code      string
		FirstName string
	}
	// PersonRef is a person by id and name, with what sort of caregiver they are.
	PersonRef struct {
		ID       assessment.PersonID
		Name     string
		Kind     assessment.CaregiverKind
		Relation string
	}
)

// StandingView is the answer for one person, one skill and, where it is held per
// child, one client, on one day.
type StandingView struct {
	Person   PersonRef
	Skill    SkillRef
	Client   ClientRef
	Required bool
	assessment.Standing
}

// PersonStandings is everything that one person holds or has to hold on a day.
type PersonStandings struct {
	Person PersonView
	On     civil.Date
	Today  civil.Date
	Rows   []StandingView
	Part   bool // what is held for other children is left out: the reader was not let in for them
}

// names finds people and clients by id.
type names struct {
	people  map[assessment.PersonID]PersonRef
	clients map[assessment.ClientID]ClientRef
}

func (o *Office) names(ctx context.Context, tx *postgres.Tx) (names, error) {
	n := names{map[assessment.PersonID]PersonRef{}, map[assessment.ClientID]ClientRef{}}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
	if err != nil {
		return n, err
	}
	for _, p := range people {
		n.people[p.ID] = PersonRef{p.ID, p.Name, p.Kind, p.Relation}
	}
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
	if err != nil {
		return n, err
	}
	for _, c := range clients {
		n.clients[c.ID] = ClientRef{c.ID, c.Code, c.FirstName}
	}
	return n, nil
}

// Standing folds one case for one day. The zero day is today.
func (o *Office) Standing(ctx context.Context, by assessment.Actor, person assessment.PersonID, skillCode string, client assessment.ClientID, on civil.Date) (StandingView, error) {
	var v StandingView
	err := o.as(ctx, by, assessment.ReadStandings, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.ReadStandings, person, false); err != nil {
			return err
		}
		if on.IsZero() {
			on = now.Today
		}
		skill, err := tx.Checklists.SkillByCode(ctx, skillCode)
		if err != nil {
			return err
		}
		if skill.Scope == assessment.General {
			client = ""
		}
		if err := by.MayForCase(assessment.ReadStandings, person, client); err != nil {
			return err
		}
		n, err := o.names(ctx, tx)
		if err != nil {
			return err
		}
		ref, known := n.people[person]
		if _, hasClient := n.clients[client]; !known || client != "" && !hasClient {
			return notFound()
		}
		c, err := o.caseOf(ctx, tx, now, assessment.CaseKey{Person: person, Skill: skill.ID, Client: client})
		if err != nil {
			return err
		}
		needs, err := o.needsOfAll(ctx, tx, on)
		if err != nil {
			return err
		}
		v = StandingView{ref, SkillRef{skill.ID, skill.Code, skill.Title}, n.clients[client],
			slices.Contains(needs[person], assessment.Need{Skill: skillCode, Client: client}), c.On(on)}
		return nil
	})
	return v, err
}

// StandingsOf folds everything that one person holds or has to hold on a day.
func (o *Office) StandingsOf(ctx context.Context, by assessment.Actor, person assessment.PersonID, on civil.Date) (PersonStandings, error) {
	var v PersonStandings
	err := o.as(ctx, by, assessment.ReadStandings, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.ReadStandings, person, false); err != nil {
			return err
		}
		if on.IsZero() {
			on = now.Today
		}
		kept, err := tx.People.Get(ctx, person)
		if err != nil {
			return err
		}
		p := viewPerson(kept)
		v = PersonStandings{Person: p, On: on, Today: now.Today, Part: seenClients(by, assessment.ReadStandings, person) != nil}
		v.Rows, err = o.foldPerson(ctx, tx, now, p, on)
		v.Rows = within(by, assessment.ReadStandings, person, v.Rows, StandingView.of)
		return err
	})
	return v, err
}

func (o *Office) foldPerson(ctx context.Context, tx *postgres.Tx, now Moment, p PersonView, on civil.Date) ([]StandingView, error) {
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: []assessment.PersonID{p.ID}})
	if err != nil {
		return nil, err
	}
	n, err := o.names(ctx, tx)
	if err != nil {
		return nil, err
	}
	needs, err := o.needsOfAll(ctx, tx, on)
	if err != nil {
		return nil, err
	}
	keys := b.keys()
	required := map[assessment.CaseKey]bool{}
	for _, need := range needs[p.ID] {
		skill, ok := b.byCode[need.Skill]
		if !ok { // added since the skills were read
			continue
		}
		key := assessment.CaseKey{Person: p.ID, Skill: skill.ID, Client: need.Client}
		required[key] = true
		if !slices.Contains(keys, key) {
			keys = append(keys, key)
		}
	}
	var rows []StandingView
	for _, key := range keys {
		c, err := b.caseOf(key)
		if err != nil {
			return nil, err
		}
		rows = append(rows, StandingView{n.people[p.ID], b.skills[key.Skill].ref(), n.clients[key.Client], required[key], c.On(on)})
	}
	b.sort(rows)
	return rows, nil
}

func (s *skillbook) ref() SkillRef { return SkillRef{s.ID, s.Code, s.Title} }

// sort orders rows by person, teaching order and client.
func (b *casebook) sort(rows []StandingView) {
	slices.SortStableFunc(rows, func(x, y StandingView) int {
		return cmp.Or(
			cmp.Compare(x.Person.Name, y.Person.Name), cmp.Compare(x.Person.ID, y.Person.ID),
			cmp.Compare(b.skills[x.Skill.ID].Position, b.skills[y.Skill.ID].Position),
			cmp.Compare(x.Client.Code, y.Client.Code))
	})
}
