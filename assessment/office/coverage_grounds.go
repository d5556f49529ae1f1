package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// coverBook is what shifts are judged by, read once.
type coverBook struct {
	*rosterBook
	people  map[assessment.PersonID]postgres.Person
	order   []assessment.PersonID // by name
	clients map[assessment.ClientID]postgres.Client
	skills  map[string]postgres.Skill
	demands *assessment.Demands
	rules   []string // codes that anybody may have to hold
}

// coverBook reads who there is, what is required and the roster, or that of one person,
// from a day through another; standings are read for those whom judging asks about.
func (o *Office) coverBook(ctx context.Context, tx *postgres.Tx, now Moment, from, through civil.Date, f postgres.RosterFilter) (*coverBook, error) {
	b := &coverBook{people: map[assessment.PersonID]postgres.Person{}, clients: map[assessment.ClientID]postgres.Client{}, skills: map[string]postgres.Skill{}}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
	if err != nil {
		return nil, fmt.Errorf("read people: %w", err)
	}
	for _, p := range people {
		b.people[p.ID] = p
		b.order = append(b.order, p.ID)
	}
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
	if err != nil {
		return nil, fmt.Errorf("read children: %w", err)
	}
	for _, c := range clients {
		b.clients[c.ID] = c
	}
	if err := b.readDemands(ctx, tx); err != nil {
		return nil, err
	}
	if b.rosterBook, err = o.rosterBook(ctx, tx, now, from, through, f, b.clients); err != nil {
		return nil, err
	}
	for i, s := range b.shifts {
		if usual := b.told[s.ID].usual; s.Kind == "" && usual != "" && s.Person != usual {
			b.shifts[i].Kind = b.people[usual].Kind // a day that somebody else takes asks for the kind of who usually does
		}
	}
	return b, nil
}

func (b *coverBook) readDemands(ctx context.Context, tx *postgres.Tx) error {
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return fmt.Errorf("read skills: %w", err)
	}
	for _, s := range skills {
		b.skills[s.Code] = s
	}
	kept, err := tx.Requirements.List(ctx)
	if err != nil {
		return fmt.Errorf("read requirements: %w", err)
	}
	var rules []assessment.Requirement
	for _, r := range kept {
		rules = append(rules, r.Rule())
		if !slices.Contains(b.rules, r.Skill) {
			b.rules = append(b.rules, r.Skill)
		}
	}
	changes, err := tx.History.Equipment(ctx)
	if err != nil {
		return fmt.Errorf("read equipment: %w", err)
	}
	has := &casebook{equipment: map[assessment.ClientID][]postgres.EquipmentChange{}}
	for _, c := range changes {
		has.equipment[c.Client] = append(has.equipment[c.Client], c)
	}
	fittings := map[assessment.ClientID][]assessment.Fitting{}
	for client := range has.equipment {
		fittings[client] = has.fittings(client)
	}
	b.demands = assessment.NewDemands(rules, func(code string) assessment.Scope { return b.skills[code].Scope }, fittings)
	return nil
}

// judge makes coverage of some shifts, by the index of standings of these people alone: of
// each of them on each shift, where everybody is asked about, or else of who is on it.
func (b *coverBook) judge(ctx context.Context, tx *postgres.Tx, now Moment, shifts []assessment.Shift, people []assessment.PersonID, everybody bool) (*assessment.Coverage, error) {
	g := assessment.Grounds{Zone: now.Zone, Needs: b.demands.On, Rest: b.rest}
	for _, id := range people {
		p := b.people[id]
		g.Hands = append(g.Hands, assessment.Hand{Person: id, Name: p.Name, Kind: p.Kind, Left: p.LeftOn})
	}
	lines, err := b.lines(ctx, tx, now, shifts, people, everybody)
	if err != nil {
		return nil, err
	}
	g.Stands = lines.On
	return assessment.NewCoverage(g, b.shifts), nil
}

// lines reads the index of some people in all that some shifts may ask for.
func (b *coverBook) lines(ctx context.Context, tx *postgres.Tx, now Moment, shifts []assessment.Shift, people []assessment.PersonID, everybody bool) (assessment.StandingLines, error) {
	lines := assessment.StandingLines{}
	if len(shifts) == 0 || len(people) == 0 {
		return lines, nil
	}
	codes := slices.Clone(b.rules)
	var first, last civil.Date
	seen := map[assessment.OnTeam]bool{}
	var with []assessment.OnTeam
	for _, s := range shifts {
		starts, ends := civil.DayOf(s.Starts, now.Zone), civil.DayOf(s.Ends, now.Zone)
		if first.IsZero() || starts.Before(first) {
			first = starts
		}
		last = civil.Later(last, ends)
		whom := people
		if !everybody {
			whom = []assessment.PersonID{s.Person}
		}
		for _, p := range whom {
			if w := (assessment.OnTeam{Person: p, Client: s.Client}); p != "" && !seen[w] {
				seen[w] = true
				with = append(with, w)
			}
		}
		for _, n := range s.Also {
			if !slices.Contains(codes, n.Skill) {
				codes = append(codes, n.Skill)
			}
		}
	}
	var skills []assessment.SkillID
	byID := map[assessment.SkillID]string{}
	for _, code := range codes {
		if s, known := b.skills[code]; known {
			skills = append(skills, s.ID)
			byID[s.ID] = code
		}
	}
	kept, err := tx.Segments.Lines(ctx, with, skills, first, last)
	if err != nil {
		return nil, fmt.Errorf("read the index of standings: %w", err)
	}
	for key, line := range kept {
		if lines[key.Person] == nil {
			lines[key.Person] = map[assessment.Need][]assessment.Segment{}
		}
		lines[key.Person][assessment.Need{Skill: byID[key.Skill], Client: key.Client}] = line
	}
	return lines, nil
}

// on are the people who are on some shifts, each once.
func on(shifts []assessment.Shift) []assessment.PersonID {
	var people []assessment.PersonID
	seen := map[assessment.PersonID]bool{}
	for _, s := range shifts {
		if !s.Open() && !seen[s.Person] {
			seen[s.Person] = true
			people = append(people, s.Person)
		}
	}
	return people
}

// caregivers are all who are somebody's caregiver and had not left before a day, by name.
func (b *coverBook) caregivers(by civil.Date) []assessment.PersonID {
	var all []assessment.PersonID
	for _, id := range b.order {
		if p := b.people[id]; p.Kind != "" && !gone(p.LeftOn, by) {
			all = append(all, id)
		}
	}
	return all
}

func (b *coverBook) person(id assessment.PersonID) PersonRef {
	p := b.people[id]
	return PersonRef{p.ID, p.Name, p.Kind, p.Relation}
}

func (b *coverBook) client(id assessment.ClientID) ClientRef {
	c := b.clients[id]
	return ClientRef{c.ID, c.Code, c.FirstName}
}
