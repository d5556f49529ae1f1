package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// nameBook finds people by what is written of them.
type nameBook struct {
	today  Moment
	people []postgres.Person
	exact  map[string][]postgres.Person // by the name as it is written
	names  []intake.Name
	asked  map[string]*ImportQuestion // by what is written
	found  map[string]postgres.Person
}

func readNames(ctx context.Context, tx *postgres.Tx, now Moment) (*nameBook, error) {
	people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
	if err != nil {
		return nil, fmt.Errorf("read people: %w", err)
	}
	b := &nameBook{today: now, people: people, exact: map[string][]postgres.Person{}, asked: map[string]*ImportQuestion{}, found: map[string]postgres.Person{}}
	for _, p := range people {
		n := intake.NewName(p.Name)
		b.names = append(b.names, n)
		b.exact[n.String()] = append(b.exact[n.String()], p)
	}
	return b, nil
}

// byEmail is who has an address, whatever the case of its letters.
func (b *nameBook) byEmail(address string) (postgres.Person, bool) {
	for _, p := range b.people {
		if p.Email != "" && strings.EqualFold(p.Email, address) {
			return p, true
		}
	}
	return postgres.Person{}, false
}

// alike are those whose names are the same as one or like it, the same first.
func (b *nameBook) alike(name string) []postgres.Person {
	n := intake.NewName(name)
	all := slices.Clone(b.exact[n.String()])
	for i, p := range b.people {
		if like := n.Like(b.names[i]); like == intake.Alike || like == intake.Near {
			all = append(all, p)
		}
	}
	return all
}

// choice says who somebody is, so that two of one name are told apart.
func (b *nameBook) choice(p postgres.Person) ImportChoice {
	says := p.Name
	if p.Kind != "" {
		says += ", " + string(p.Kind)
	}
	if p.Email != "" {
		says += ", " + p.Email
	}
	if gone(p.LeftOn, b.today.Today) {
		says += ", left on " + p.LeftOn.String()
	}
	return ImportChoice{p.ID, says}
}

func (b *nameBook) choices(people []postgres.Person) []ImportChoice {
	var all []ImportChoice
	for _, p := range people {
		all = append(all, b.choice(p))
	}
	return all
}

// answered is the choice that was made among those offered; what was not offered is no answer.
func (p *importPlan) answered(q *ImportQuestion) {
	switch answer := p.answers[q.Rows[0]]; {
	case answer == AnotherPerson:
		q.Answer = answer
	default:
		for _, c := range q.Choices {
			if string(c.ID) == answer {
				q.Answer = answer
			}
		}
	}
}

// who is the person whom a cell names, by address or name. Nobody is taken for another: where
// a name is only like somebody's, or several have it, it asks; false: it asks, or there is a fault.
func (b *nameBook) who(p *importPlan, r *ImportRow, column string) (postgres.Person, bool) {
	written := r.Cells[column]
	if one, known := b.found[written]; known {
		return one, true
	}
	q, asked := b.asked[written]
	if asked {
		q.Rows = append(q.Rows, r.Number)
	} else {
		if strings.Contains(written, "@") {
			if one, found := b.byEmail(written); found {
				b.found[written] = one
				return one, true
			}
			p.wrong(r, column, "Nobody here has the address %s. Write the one that stands on their page, or their name.", written)
			return postgres.Person{}, false
		}
		if same := b.exact[intake.NewName(written).String()]; len(same) == 1 {
			b.found[written] = same[0]
			return same[0], true
		}
		like := b.alike(written)
		if len(like) == 0 {
			p.wrong(r, column, "There is nobody here by the name %s. Write the name as it stands on their page, or bring in the list of people first.", written)
			return postgres.Person{}, false
		}
		q = &ImportQuestion{Written: written, Rows: []int{r.Number}, Choices: b.choices(like), Another: "Nobody of these"}
		p.answered(q)
		b.asked[written] = q
	}
	p.saw(r, "asks", q.Choices)
	switch q.Answer {
	case "":
		if r.Does = ImportAsks; q.Rows[0] == r.Number {
			r.Ask = q
		}
		return postgres.Person{}, false
	case AnotherPerson:
		p.wrong(r, column, "There is nobody here by the name %s. Bring in the list of people first, or mend the name.", written)
		if q.Rows[0] == r.Number {
			r.Ask = q
		}
		return postgres.Person{}, false
	}
	if q.Rows[0] == r.Number {
		r.Ask = q
	}
	for _, one := range b.people {
		if one.ID == assessment.PersonID(q.Answer) {
			r.Notes = append(r.Notes, written+" is "+one.Name)
			return one, true
		}
	}
	return postgres.Person{}, false
}
