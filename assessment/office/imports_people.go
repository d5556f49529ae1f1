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

var personColumnsOf = map[string]string{"email": "e-mail"}

// planPeople finds out who of a list is new. What is known of those who are here is not changed.
func (o *Office) planPeople(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, p *importPlan) error {
	book, err := readNames(ctx, tx, now)
	if err != nil {
		return err
	}
	var roles []string
	if by.May(assessment.GiveRoles) == nil {
		roles = []string{string(assessment.Caregiver)}
	}
	twice := inList{map[string]int{}, map[string][]namedRow{}}
	for i := range p.Rows {
		r := &p.Rows[i]
		form := PersonForm{Name: r.Cells["name"], Kind: strings.ToLower(r.Cells["kind"]), Relation: r.Cells["relation"], Email: r.Cells["e-mail"], Language: strings.ToLower(r.Cells["language"])}
		if form.Kind != "" {
			form.Roles = roles
		}
		n, err := form.read()
		if err := p.take(r, err, personColumnsOf); err != nil {
			return err
		}
		if form.Name != "" {
			twice.check(p, r, n)
		}
		if r.Does == ImportFault {
			continue
		}
		if book.match(p, r, n); r.Does != ImportNew || r.Ask != nil && r.Ask.Answer == "" {
			continue
		}
		p.keep = append(p.keep, func() error {
			if n.ID, err = newID[assessment.PersonID](o, now.At); err != nil {
				return err
			}
			return o.addPerson(ctx, tx, now, by, n, "")
		})
	}
	return nil
}

// inList finds the same person twice in one list.
type inList struct {
	emails map[string]int
	names  map[string][]namedRow // by the plain name
}

type namedRow struct {
	number  int
	address string
}

// check refuses a row that speaks of somebody whom an earlier one speaks of. Two of one name
// are told apart by their addresses alone.
func (l inList) check(p *importPlan, r *ImportRow, n postgres.Person) {
	plain, address := intake.Plain(n.Name), strings.ToLower(n.Email)
	before := l.names[plain]
	if row := l.emails[address]; address != "" && row != 0 {
		p.wrong(r, "e-mail", "Row %d has this address already. Keep one of the two rows, or give each their own.", row)
	} else if i := slices.IndexFunc(before, func(b namedRow) bool { return b.address == "" || address == "" }); i >= 0 {
		p.wrong(r, "name", "Row %d has this name already. Keep one of the two rows; if they are two people, give both an e-mail address.", before[i].number)
	} else if len(before) > 0 {
		r.Notes = append(r.Notes, fmt.Sprintf("row %d has the same name and another address: two people", before[0].number))
	}
	l.names[plain] = append(before, namedRow{r.Number, address})
	if l.emails[address] == 0 {
		l.emails[address] = r.Number
	}
}

// match finds whom a row speaks of among those who are here.
func (b *nameBook) match(p *importPlan, r *ImportRow, n postgres.Person) {
	var may []postgres.Person
	owner, owned := postgres.Person{}, false
	if n.Email != "" {
		owner, owned = b.byEmail(n.Email)
	}
	same := b.exact[intake.NewName(n.Name).String()]
	switch {
	case owned && intake.NewName(owner.Name).Like(intake.NewName(n.Name)) == intake.SameName:
		b.isThere(r, n, owner)
		p.saw(r, "there", owner.ID)
		return
	case owned:
		may = []postgres.Person{owner}
	case len(same) == 1 && same[0].Kind == n.Kind && n.Email == "" && !gone(same[0].LeftOn, b.today.Today):
		b.isThere(r, n, same[0])
		p.saw(r, "there", same[0].ID)
		return
	default:
		may = b.alike(n.Name)
	}
	if len(may) == 0 {
		p.saw(r, "new")
		return
	}
	r.Ask = &ImportQuestion{Written: n.Name, Rows: []int{r.Number}, Choices: b.choices(may), Another: "Another person: add them"}
	p.answered(r.Ask)
	p.saw(r, "asks", r.Ask.Choices)
	switch {
	case r.Ask.Answer == AnotherPerson && owned:
		p.wrong(r, "e-mail", "%s has this address. Two people cannot have one: give another, or leave it empty.", owner.Name)
	case r.Ask.Answer != "" && r.Ask.Answer != AnotherPerson:
		for _, one := range may {
			if string(one.ID) == r.Ask.Answer {
				b.isThere(r, n, one)
			}
		}
	}
}

// isThere says who a row speaks of, and what it says otherwise than is known of them.
func (b *nameBook) isThere(r *ImportRow, n, p postgres.Person) {
	var other []string
	for what, differ := range map[string]bool{"name": n.Name != p.Name, "kind": n.Kind != p.Kind, "e-mail": n.Email != "" && !strings.EqualFold(n.Email, p.Email), "relation": n.Relation != "" && n.Relation != p.Relation} {
		if differ {
			other = append(other, what)
		}
	}
	switch {
	case gone(p.LeftOn, b.today.Today):
		r.there("%s left on %s and stays so; whoever comes back is added anew", p.Name, p.LeftOn)
	case len(other) > 0:
		r.there("%s is here; the file says another %s, and what is known stays. Change it on their page", p.Name, inOrderOf(other))
	default:
		r.there("")
	}
}
