package postgres

import (
	"context"
	"fmt"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Day is all that a table of people and skills on one day is made of.
type Day struct {
	People       []Person // gone ones too, by name; without e-mail and whether the password must change
	Clients      []Client // gone ones too
	Skills       []Skill  // in teaching order
	Requirements []Requirement
	Members      []Member // whose stretch holds the day, by name
	Equipment    []EquipmentChange
	Index        Indexed
}

const peopleOfDay = `
	select p.id, p.name, p.kind, p.relation, p.language, p.left_on, coalesce(r.roles, '{}') as roles
	from person p
	left join (select agency_id, person_id, array_agg(role order by role) as roles
		from person_role where ended_at is null group by agency_id, person_id) r
		on r.agency_id = p.agency_id and r.person_id = p.id
	order by lower(p.name), p.id`

const membersOfDay = `
	select t.id, t.client_id as client, t.person_id as person, t.from_on, t.through_on
	from care_team t
	where t.from_on <= $1 and (t.through_on is null or t.through_on >= $1)
	order by t.from_on, t.id`

// Day reads all of it in one go, the index of these people only, or of all for none.
func (s Segments) Day(ctx context.Context, on civil.Date, people []assessment.PersonID) (Day, error) {
	batch := &pgx.Batch{}
	batch.Queue(peopleOfDay)
	batch.Queue(`select` + clientColumns + `from client c`)
	batch.Queue(allSkills)
	batch.Queue(allRequirements)
	batch.Queue(membersOfDay, on)
	batch.Queue(equipmentQuery)
	sql, args := onlyOf(people)
	batch.Queue(sql, append([]any{on}, args...)...)
	answers := s.tx.SendBatch(ctx, batch)
	day, err := readDay(answers, len(people))
	if closed := answers.Close(); err == nil {
		err = closed
	}
	return day, err
}

// readDay reads the answers to Day, the index of so many people, or of all for none.
func readDay(answers pgx.BatchResults, asked int) (Day, error) {
	var d Day
	var err error
	if d.People, err = next(answers, pgx.RowToStructByNameLax[Person]); err != nil {
		return d, fmt.Errorf("read people: %w", err)
	}
	if d.Clients, err = next(answers, pgx.RowToStructByName[Client]); err != nil {
		return d, fmt.Errorf("read children: %w", err)
	}
	if d.Skills, err = next(answers, pgx.RowToStructByName[Skill]); err != nil {
		return d, fmt.Errorf("read skills: %w", err)
	}
	if d.Requirements, err = next(answers, pgx.RowToStructByName[Requirement]); err != nil {
		return d, fmt.Errorf("read requirements: %w", err)
	}
	if d.Members, err = next(answers, pgx.RowToStructByNameLax[Member]); err != nil {
		return d, fmt.Errorf("read teams: %w", err)
	}
	if d.Equipment, err = next(answers, pgx.RowToStructByName[EquipmentChange]); err != nil {
		return d, fmt.Errorf("read equipment: %w", err)
	}
	rows, err := answers.Query()
	if err != nil {
		return d, fmt.Errorf("read the index of standings: %w", err)
	}
	if asked == 0 {
		asked = len(d.People)
	}
	if d.Index, err = readIndexed(rows, asked*len(d.Skills)); err != nil {
		return d, fmt.Errorf("read the index of standings: %w", err)
	}
	d.name()
	return d, nil
}

// name fills in of members what people and children say of themselves, and orders them by name.
func (d *Day) name() {
	people, clients := make(map[assessment.PersonID]int, len(d.People)), make(map[assessment.ClientID]int, len(d.Clients))
	for i, p := range d.People {
		people[p.ID] = i
	}
	for i, c := range d.Clients {
		clients[c.ID] = i
	}
	for i := range d.Members {
		m := &d.Members[i]
		p, c := d.People[people[m.Person]], d.Clients[clients[m.Client]]
		m.Name, m.Kind, m.Relation, m.PersonLeft = p.Name, p.Kind, p.Relation, p.LeftOn
		m.Code, m.FirstName, m.ClientLeft = c.Code, c.FirstName, c.LeftOn
	}
	d.Members = byPlace(d.Members, len(d.People), func(m Member) int { return people[m.Person] })
}

// byPlace puts what belongs to each place together, in the order it had; a sort would move
// what is large many times.
func byPlace[T any](all []T, places int, of func(T) int) []T {
	next := make([]int, places+1)
	for _, one := range all {
		next[of(one)+1]++
	}
	for i := range places {
		next[i+1] += next[i]
	}
	ordered := make([]T, len(all))
	for _, one := range all {
		place := of(one)
		ordered[next[place]], next[place] = one, next[place]+1
	}
	return ordered
}
