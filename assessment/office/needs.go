package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// demands is what decides on one day who must hold what.
type demands struct {
	on        civil.Date
	rules     []assessment.Requirement
	scopes    map[string]assessment.Scope
	members   []postgres.Member
	equipment map[assessment.ClientID][]postgres.EquipmentChange
}

// demands reads what is required on a day, of the team of one client, or of all
// for the empty id.
func (o *Office) demands(ctx context.Context, tx *postgres.Tx, on civil.Date, f postgres.TeamFilter) (*demands, error) {
	kept, err := tx.Requirements.List(ctx)
	if err != nil {
		return nil, fmt.Errorf("read requirements: %w", err)
	}
	members, err := tx.Teams.List(ctx, f)
	if err != nil {
		return nil, fmt.Errorf("read teams: %w", err)
	}
	changes, err := tx.History.Equipment(ctx)
	if err != nil {
		return nil, fmt.Errorf("read equipment: %w", err)
	}
	return demandsOn(on, kept, members, changes), nil
}

// demandsOn puts together what decides on a day, of members those who are here then.
func demandsOn(on civil.Date, kept []postgres.Requirement, members []postgres.Member, changes []postgres.EquipmentChange) *demands {
	d := &demands{on: on, scopes: map[string]assessment.Scope{}, equipment: map[assessment.ClientID][]postgres.EquipmentChange{}}
	for _, r := range kept {
		d.rules = append(d.rules, r.Rule())
		d.scopes[r.Skill] = r.Scope
	}
	for _, m := range members {
		if hereOn(m, on) {
			d.members = append(d.members, m)
		}
	}
	for _, c := range changes {
		d.equipment[c.Client] = append(d.equipment[c.Client], c)
	}
	return d
}

// cared is what requirements look at in a client.
func (d *demands) cared(client assessment.ClientID) assessment.Cared {
	has := assessment.Fitted{}
	for _, c := range d.equipment[client] {
		if !c.From.After(d.on) {
			has[c.Kind] = c.Type
		}
	}
	c := assessment.Cared{ID: client}
	for kind, of := range has {
		if of != "" {
			c.Equipment = append(c.Equipment, kind)
		}
	}
	return c
}

// of lists what a caregiver of a kind needs for some clients.
func (d *demands) of(kind assessment.CaregiverKind, clients ...assessment.ClientID) []assessment.Need {
	var cared []assessment.Cared
	for _, c := range clients {
		cared = append(cared, d.cared(c))
	}
	return assessment.Needed(d.on, kind, cared, d.rules, func(skill string) assessment.Scope { return d.scopes[skill] })
}

// byPerson lists what each member of the teams needs: all that they need for each of
// their clients, once. What a kind needs for a client is worked out once for all.
func (d *demands) byPerson() map[assessment.PersonID][]assessment.Need {
	type looked struct {
		kind   assessment.CaregiverKind
		client assessment.ClientID
	}
	known := map[looked][]assessment.Need{}
	needs := map[assessment.PersonID][]assessment.Need{}
	with := map[assessment.PersonID][]assessment.ClientID{}
	for _, m := range d.members {
		key := looked{m.Kind, m.Client}
		asked, ok := known[key]
		if !ok {
			asked = d.of(m.Kind, m.Client)
			known[key] = asked
		}
		before := with[m.Person]
		with[m.Person] = append(before, m.Client)
		switch {
		case slices.Contains(before, m.Client): // on the team twice: it is the same
		case needs[m.Person] != nil:
			needs[m.Person] = union(needs[m.Person], asked)
		case len(asked) > 0:
			needs[m.Person] = slices.Clip(asked)
		}
	}
	return needs
}

// union adds to some needs those for another client that are not among them: what is held for
// that client alone cannot be.
func union(mine, others []assessment.Need) []assessment.Need {
	before := mine
	for _, n := range others {
		if n.Client != "" || !slices.ContainsFunc(before, func(m assessment.Need) bool { return m.Client == "" && m.Skill == n.Skill }) {
			mine = append(mine, n)
		}
	}
	return mine
}

// needsOfAll lists what everybody must hold on a day; who must hold nothing is
// left out.
func (o *Office) needsOfAll(ctx context.Context, tx *postgres.Tx, on civil.Date) (map[assessment.PersonID][]assessment.Need, error) {
	d, err := o.demands(ctx, tx, on, postgres.TeamFilter{})
	if err != nil {
		return nil, err
	}
	return d.byPerson(), nil
}
