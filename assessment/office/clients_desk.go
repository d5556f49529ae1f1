package office

import (
	"context"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// ClientSummary is a child in a list.
type ClientSummary struct {
	WayHome
	Team int // people on the care team today
}

// ClientsDesk lists children like Clients, with their ways home.
func (o *Office) ClientsDesk(ctx context.Context, by assessment.Actor, find string) ([]ClientSummary, error) {
	var views []ClientSummary
	err := o.as(ctx, by, assessment.ReadClients, func(tx *postgres.Tx, now Moment) error {
		var f form
		q := postgres.ClientFilter{Find: f.maybe("find", find, 60), On: now.Today}
		if err := f.Err(); err != nil {
			return err
		}
		switch by.Reach(assessment.ReadClients) {
		case assessment.Own:
			q.TeamOf = by.Person
		case assessment.Named:
			q.TeamOf, q.Among = by.Person, append([]assessment.ClientID{}, by.Survey.Clients...)
		}
		clients, err := tx.Clients.List(ctx, q)
		if err != nil {
			return err
		}
		ways, err := o.ways(ctx, tx, now, clients)
		if err != nil {
			return err
		}
		members, err := tx.Teams.List(ctx, postgres.TeamFilter{})
		if err != nil {
			return err
		}
		views = nil
		for _, w := range ways {
			s := ClientSummary{WayHome: w}
			for _, m := range members {
				if m.Client == w.Client.ID && hereOn(m, now.Today) {
					s.Team++
				}
			}
			views = append(views, s)
		}
		return nil
	})
	return views, err
}

// ClientDesk is one child with who looks after it and what they must hold.
type ClientDesk struct {
	ClientView
	Way     WayHome
	Team    []CarerView // today and planned, by name
	Needs   []NeedView
	Missing []string    // values that a required skill judges by, and that are not set
	Others  []PersonRef // who could join the team; only for who may change it
	Kinds   []string    // of equipment, that are known
	Today   string      // YYYY-MM-DD
}

// CarerView is somebody on the team with how they stand in what this child needs.
type CarerView struct {
	TeamView
	Summary
}

// NeedView is a skill that carers of a child must hold, and by which requirement.
type NeedView struct {
	Skill         SkillRef
	Kind          assessment.CaregiverKind // empty: everybody
	ForClient     bool                     // required for this child by name
	EquipmentKind string                   // by equipment; empty: whatever the child has
}

// ClientDesk is one child. Caregivers see only their own; any other was never there.
func (o *Office) ClientDesk(ctx context.Context, by assessment.Actor, id assessment.ClientID) (ClientDesk, error) {
	var v ClientDesk
	err := o.as(ctx, by, assessment.ReadClients, func(tx *postgres.Tx, now Moment) error {
		if err := mayForClient(ctx, tx, now, by, assessment.ReadClients, id); err != nil {
			return err
		}
		kept, err := tx.Clients.Get(ctx, id)
		if err != nil {
			return err
		}
		v = ClientDesk{Today: now.Today.String()}
		if v.ClientView, err = o.viewClient(ctx, tx, now, id); err != nil {
			return err
		}
		ways, err := o.ways(ctx, tx, now, []postgres.Client{kept})
		if err != nil {
			return err
		}
		v.Way = ways[0]
		if err := o.carers(ctx, tx, now, &v); err != nil {
			return err
		}
		if err := o.needed(ctx, tx, now, &v); err != nil {
			return err
		}
		return o.couldJoin(ctx, tx, now, by, &v)
	})
	return v, err
}

func (o *Office) carers(ctx context.Context, tx *postgres.Tx, now Moment, v *ClientDesk) error {
	t, err := o.table(ctx, tx, now.Today, nil)
	if err != nil {
		return err
	}
	for _, m := range v.ClientView.Team {
		if !m.Through.IsZero() && m.Through.Before(now.Today) {
			continue
		}
		carer := CarerView{TeamView: m}
		if m.Here {
			carer.Summary = t.summary(m.Person, v.ID)
		}
		v.Team = append(v.Team, carer)
	}
	return nil
}

// needed lists what is required for the child today, in teaching order, and which
// ordered values are missing for it.
func (o *Office) needed(ctx context.Context, tx *postgres.Tx, now Moment, v *ClientDesk) error {
	d, err := o.demands(ctx, tx, now.Today, postgres.TeamFilter{Client: v.ID})
	if err != nil {
		return err
	}
	b := &casebook{zone: now.Zone}
	if err := o.readSkills(ctx, tx, b); err != nil {
		return err
	}
	cared := d.cared(v.ID)
	set := map[string]bool{}
	for _, p := range v.Parameters {
		set[p.Name] = p.Set
	}
	for _, r := range d.rules {
		kinds := assessment.CaregiverKinds
		if r.Kind != "" {
			kinds = []assessment.CaregiverKind{r.Kind}
		}
		asks := slices.ContainsFunc(kinds, func(k assessment.CaregiverKind) bool {
			return len(assessment.Needed(d.on, k, []assessment.Cared{cared}, []assessment.Requirement{r}, func(string) assessment.Scope { return d.scopes[r.Skill] })) > 0
		})
		if !asks {
			continue
		}
		skill := b.byCode[r.Skill]
		v.Needs = append(v.Needs, NeedView{skill.ref(), r.Kind, r.Client != "", r.EquipmentKind})
		if skill.newest != nil {
			v.lack(*skill.newest, set)
		}
	}
	v.Kinds, err = o.equipmentKinds(ctx, tx, b)
	return err
}

// lack notes the values that a checklist judges by and that are not set.
func (v *ClientDesk) lack(list assessment.Checklist, set map[string]bool) {
	for _, p := range list.Parameters {
		if p.Default == nil && p.Unit != "" && !set[p.Name] && list.Judges(p.Name) && !slices.Contains(v.Missing, p.Says) {
			v.Missing = append(v.Missing, p.Says)
		}
	}
}

func (o *Office) couldJoin(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v *ClientDesk) error {
	if by.May(assessment.EditClients) != nil {
		return nil
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{On: now.Today})
	if err != nil {
		return err
	}
	for _, p := range people {
		here := slices.ContainsFunc(v.Team, func(c CarerView) bool { return c.Person == p.ID && c.Through.IsZero() })
		if p.Kind != "" && !here {
			v.Others = append(v.Others, PersonRef{p.ID, p.Name, p.Kind, p.Relation})
		}
	}
	return nil
}

// usualKinds are kinds of equipment that many children have at home (common
// practice, no source); others come with checklists and children.
var usualKinds = []string{"circuit", "cough assist", "humidifier", "nebuliser", "oxygen source", "pulse oximeter", "suction unit", "tracheostomy tube", "ventilator"}

// equipmentKinds lists the kinds that are known: the usual ones, those that a
// checklist depends on, and those that some child has or had.
func (o *Office) equipmentKinds(ctx context.Context, tx *postgres.Tx, b *casebook) ([]string, error) {
	kinds := slices.Clone(usualKinds)
	for _, s := range b.skills {
		if s.newest != nil {
			kinds = append(kinds, s.newest.Fitted...)
		}
	}
	changes, err := tx.History.Equipment(ctx)
	if err != nil {
		return nil, err
	}
	for _, c := range changes {
		kinds = append(kinds, c.Kind)
	}
	slices.SortFunc(kinds, strings.Compare)
	return slices.Compact(kinds), nil
}
