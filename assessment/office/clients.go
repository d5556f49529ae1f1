package office

import (
	"context"
	"regexp"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// ClientForm is what is said of a child: no more than this.
type ClientForm struct {
	Code      string // up to 12 capital letters, digits and hyphens, such as 7K
	FirstName string
	Since     string // first day on which the agency looks after them, YYYY-MM-DD; empty: not said
}

// ClientView is a child as people see it. A short one, as in lists, has no
// parameters, equipment or team.
type ClientView struct {
	ID         assessment.ClientID
	Code       string
	FirstName  string
	LeftOn     civil.Date // first day on which the agency no longer looks after them; zero while it does
	SinceOn    civil.Date // first day on which it does; zero: not said
	Parameters []ParameterView
	Equipment  []EquipmentView
	Team       []TeamView
}

// ParameterView is one value that can be ordered for the child.
type ParameterView struct {
	Name    string
	Says    string // what it is, in words
	Set     bool   // else the rest is empty but for Unit and Default
	Value   string // exact number; empty where it is put in words
	Unit    string // of the value; of what is to be ordered where nothing is set
	Words   string
	Default string    // what counts where nothing is set; empty: nothing does
	SetAt   time.Time // when it was ordered
	SetBy   string    // name
}

// EquipmentView is one kind of equipment: what the child has today and had before.
type EquipmentView struct {
	Kind    string
	Type    string            // today; empty: none
	From    civil.Date        // since when; zero: it is still to come
	History []EquipmentChange // oldest first, the planned ones too
}

// EquipmentChange says which type counts from a day on; an empty one is none.
type EquipmentChange struct {
	Type string
	From civil.Date
}

var clientCode = regexp.MustCompile(`^[A-Z0-9-]{1,12}$`)

func (c ClientForm) read() (postgres.Client, error) {
	var f form
	n := postgres.Client{
		Code:      strings.ToUpper(f.line("code", c.Code, 12, "Give a short code, such as 7K.")),
		FirstName: f.line("first_name", c.FirstName, 60, "Give the first name."),
		SinceOn:   f.maybeDay("since", c.Since),
	}
	if !clientCode.MatchString(n.Code) {
		f.Add("code", "A child's code is up to 12 letters, digits and hyphens, such as 7K.")
	}
	return n, f.Err()
}

// AddClient adds a child.
func (o *Office) AddClient(ctx context.Context, by assessment.Actor, c ClientForm) (ClientView, error) {
	return o.changeClient(ctx, by, assessment.EditClients, "", "child", func(tx *postgres.Tx, now Moment, n *postgres.Client) error {
		var err error
		if *n, err = c.read(); err != nil {
			return err
		}
		if n.ID, err = newID[assessment.ClientID](o, now.At); err != nil {
			return err
		}
		return tx.Clients.Add(ctx, *n, now.At)
	})
}

// EditClient changes a child's code and first name.
func (o *Office) EditClient(ctx context.Context, by assessment.Actor, id assessment.ClientID, c ClientForm) (ClientView, error) {
	return o.changeClient(ctx, by, assessment.EditClients, id, "child", func(tx *postgres.Tx, _ Moment, n *postgres.Client) error {
		typed, err := c.read()
		if err != nil {
			return err
		}
		n.Code, n.FirstName, n.SinceOn = typed.Code, typed.FirstName, typed.SinceOn
		return tx.Clients.Save(ctx, *n)
	})
}

// ClientLeaves says from which day on the agency no longer looks after a child.
// From then on nobody needs to hold anything for them.
func (o *Office) ClientLeaves(ctx context.Context, by assessment.Actor, id assessment.ClientID, on civil.Date) (ClientView, error) {
	return o.changeClient(ctx, by, assessment.EditClients, id, "leaving", func(tx *postgres.Tx, _ Moment, n *postgres.Client) error {
		if on.IsZero() {
			return faultAt("on", "Give the first day on which the agency no longer looks after them, as YYYY-MM-DD.")
		}
		n.LeftOn = on
		return tx.Clients.Save(ctx, *n)
	})
}

// changeClient does something to a child, which others who change them wait for,
// and shows the child after it. An empty id is a new child.
func (o *Office) changeClient(ctx context.Context, by assessment.Actor, act assessment.Act, id assessment.ClientID, kind string, change func(*postgres.Tx, Moment, *postgres.Client) error) (ClientView, error) {
	var v ClientView
	err := o.as(ctx, by, act, func(tx *postgres.Tx, now Moment) error {
		c, err := o.changedClient(ctx, tx, now, by, act, id, kind, change)
		if err != nil {
			return err
		}
		v, err = o.viewClient(ctx, tx, now, c)
		return err
	})
	return v, err
}

// changingClient is the change alone.
func (o *Office) changingClient(ctx context.Context, by assessment.Actor, act assessment.Act, id assessment.ClientID, kind string, change func(*postgres.Tx, Moment, *postgres.Client) error) func(*postgres.Tx, Moment) error {
	return func(tx *postgres.Tx, now Moment) error {
		_, err := o.changedClient(ctx, tx, now, by, act, id, kind, change)
		return err
	}
}

func (o *Office) changedClient(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act, id assessment.ClientID, kind string, change func(*postgres.Tx, Moment, *postgres.Client) error) (assessment.ClientID, error) {
	var c postgres.Client
	if id != "" {
		var err error
		if c, err = tx.Clients.Lock(ctx, id); err != nil {
			return "", err
		}
	}
	if err := change(tx, now, &c); err != nil {
		return "", err
	}
	return c.ID, o.note(ctx, tx, now, by, act, kind, string(c.ID))
}

// Client is one child. Caregivers see only their own; any other was never there.
func (o *Office) Client(ctx context.Context, by assessment.Actor, id assessment.ClientID) (ClientView, error) {
	var v ClientView
	err := o.as(ctx, by, assessment.ReadClients, func(tx *postgres.Tx, now Moment) error {
		if err := mayForClient(ctx, tx, now, by, assessment.ReadClients, id); err != nil {
			return err
		}
		var err error
		v, err = o.viewClient(ctx, tx, now, id)
		return err
	})
	return v, err
}

// mayForClient refuses what lies outside the actor's reach: for some that is all
// but the children on whose team they are today.
func mayForClient(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act, id assessment.ClientID) error {
	switch by.Reach(act) {
	case assessment.Own, assessment.Named:
	default:
		return by.May(act)
	}
	if by.Reach(act) == assessment.Named && by.Survey.MaySee(id) {
		return nil
	}
	own, err := tx.Teams.Has(ctx, id, by.Person, now.Today)
	if err != nil {
		return err
	}
	return by.MayFor(act, "", own)
}

func (o *Office) viewClient(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.ClientID) (ClientView, error) {
	c, err := tx.Clients.Get(ctx, id)
	if err != nil {
		return ClientView{}, err
	}
	v := shortClient(c)
	if v.Parameters, err = o.parameters(ctx, tx, now, id); err != nil {
		return v, err
	}
	changes, err := tx.Clients.Equipment(ctx, id)
	if err != nil {
		return v, err
	}
	v.Equipment = viewEquipment(changes, now.Today)
	v.Team, err = team(ctx, tx, now.Today, id)
	return v, err
}

func shortClient(c postgres.Client) ClientView {
	return ClientView{ID: c.ID, Code: c.Code, FirstName: c.FirstName, LeftOn: c.LeftOn, SinceOn: c.SinceOn}
}

// Clients lists the children that the agency looks after, by first name; find is
// a part of the name or code. Caregivers see only their own.
func (o *Office) Clients(ctx context.Context, by assessment.Actor, find string) ([]ClientView, error) {
	var views []ClientView
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
		found, err := tx.Clients.List(ctx, q)
		if err != nil {
			return err
		}
		views = nil
		for _, c := range found {
			views = append(views, shortClient(c))
		}
		return nil
	})
	return views, err
}
