package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// table is the index on one day beside what is required then. There may be a hundred
// thousand standings in it: they lie by person, small, with numbers in place of ids.
type table struct {
	on      civil.Date
	names   names
	skills  []postgres.Skill
	people  []postgres.Person
	demands *demands // on that day, of everybody
	needs   map[assessment.PersonID][]assessment.Need

	clients  []ClientRef                        // by number; the first is none
	left     map[assessment.ClientID]civil.Date // of children who leave: from which day on they are not here
	numbers  map[assessment.ClientID]int32
	position map[assessment.SkillID]int16 // in skills
	byCode   map[string]int16             // position of the skill with a code
	held     map[assessment.PersonID][]stood
}

// stood is where somebody stands in one skill, for one child where it is held per child. It
// holds no pointer, so that nobody has to go through a hundred thousand of them to find some.
type stood struct {
	skill   int16
	rank    int8 // of the word in severity
	client  int32
	through civil.Date
}

// notStarted is where somebody stands of whom the index says nothing.
func notStarted(skill int16, client int32) stood {
	return stood{skill: skill, client: client, rank: rankOf(assessment.NotStarted)}
}

// word is the standing in words; a word that is not known holds nothing.
func (s stood) word() assessment.StandingWord {
	if s.rank < 0 {
		return ""
	}
	return severity[s.rank]
}

// table reads the index of some people on a day, or of all for none, and all that is
// required then.
func (o *Office) table(ctx context.Context, tx *postgres.Tx, on civil.Date, people []assessment.PersonID) (*table, error) {
	d, err := tx.Segments.Day(ctx, on, people)
	if err != nil {
		return nil, err
	}
	t := &table{on: on, people: d.People, skills: d.Skills, demands: demandsOn(on, d.Requirements, d.Members, d.Equipment),
		names: names{make(map[assessment.PersonID]PersonRef, len(d.People)), make(map[assessment.ClientID]ClientRef, len(d.Clients))}}
	for _, p := range d.People {
		t.names.people[p.ID] = PersonRef{p.ID, p.Name, p.Kind, p.Relation}
	}
	t.number(d)
	t.needs = t.demands.byPerson()
	t.hold(d.Index)
	return t, nil
}

// number gives skills and children their numbers.
func (t *table) number(d postgres.Day) {
	t.clients, t.numbers, t.left = []ClientRef{{}}, map[assessment.ClientID]int32{"": 0}, map[assessment.ClientID]civil.Date{}
	for _, c := range d.Clients {
		ref := ClientRef{c.ID, c.Code, c.FirstName}
		t.names.clients[c.ID], t.numbers[c.ID] = ref, int32(len(t.clients))
		t.clients = append(t.clients, ref)
		if !c.LeftOn.IsZero() {
			t.left[c.ID] = c.LeftOn
		}
	}
	t.position, t.byCode = map[assessment.SkillID]int16{}, map[string]int16{}
	for i, s := range d.Skills {
		t.position[s.ID], t.byCode[s.Code] = int16(i), int16(i)
	}
}

// hold sorts what the index says by person.
func (t *table) hold(index postgres.Indexed) {
	skills, clients, ranks := make([]int16, len(index.Skills)), make([]int32, len(index.Clients)), make([]int8, len(index.Words))
	for i, id := range index.Skills {
		skills[i] = t.position[id]
	}
	for i, id := range index.Clients {
		clients[i] = t.numbers[id]
	}
	for i, w := range index.Words {
		ranks[i] = rankOf(w)
	}
	begins := make([]int, len(index.People)+1) // where each person's begin
	for _, r := range index.Rows {
		begins[r.Person+1]++
	}
	for i := range index.People {
		begins[i+1] += begins[i]
	}
	all, next := make([]stood, len(index.Rows)), slices.Clone(begins)
	for _, r := range index.Rows {
		all[next[r.Person]] = stood{skills[r.Skill], ranks[r.Word], clients[r.Client], r.Through}
		next[r.Person]++
	}
	t.held = make(map[assessment.PersonID][]stood, len(index.People))
	for i, id := range index.People {
		t.held[id] = all[begins[i]:begins[i+1]]
	}
}

// with lists the children with whom somebody has any standing in a skill: none for all.
func (t *table) with(person assessment.PersonID, skill assessment.SkillID) []assessment.ClientID {
	position, known := t.position[skill]
	var clients []assessment.ClientID
	for _, s := range t.held[person] {
		if known && s.skill == position {
			clients = append(clients, t.clients[s.client].ID)
		}
	}
	slices.Sort(clients)
	return clients
}

// standing is where somebody stands in a skill with a child, or with all for the empty
// id: not started where the index says nothing.
func (t *table) standing(person assessment.PersonID, skill int16, client int32) stood {
	return among(t.held[person], skill, client)
}

// among finds one of a person's standings.
func among(held []stood, skill int16, client int32) stood {
	for _, s := range held {
		if s.skill == skill && s.client == client {
			return s
		}
	}
	return notStarted(skill, client)
}

func (t *table) one(person assessment.PersonID, skill SkillRef, client assessment.ClientID, required bool) GridCell {
	position, known := t.position[skill.ID]
	number, there := t.numbers[client]
	if !known || !there {
		return GridCell{Required: required, Known: true, Word: assessment.NotStarted}
	}
	return t.cellOf(t.standing(person, position, number), required)
}

// cellOf is a standing as it is shown.
func (t *table) cellOf(s stood, required bool) GridCell {
	cell := GridCell{Required: required, Known: true, Word: s.word(), Through: s.through, Client: t.clients[s.client]}
	if cell.Word.Holds() {
		cell.DaysLeft = s.through.Sub(t.on)
	}
	return cell
}

// skill names the skill with a code; the zero one where there is none.
func (t *table) skill(code string) SkillRef {
	position, ok := t.byCode[code]
	if !ok {
		return SkillRef{}
	}
	s := t.skills[position]
	return SkillRef{s.ID, s.Code, s.Title}
}
