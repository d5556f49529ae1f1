package office

import (
	"context"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/handover"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// NeighbourView is an agency elsewhere as people see it.
type NeighbourView struct {
	postgres.Neighbour
	Fingerprint string
	Known       bool // agreed to and not ended: what it signed may be carried in
}

// NeighboursView is the page of neighbours, with what a neighbour is told of this agency.
type NeighboursView struct {
	Zone        *time.Location
	Agency      string
	Line        string // what the other agency enters: our key and our id; empty where nothing can be signed here
	Fingerprint string
	All         []NeighbourView
}

// NeighbourForm enters one.
type NeighbourForm struct {
	Name string
	Line string // as their page of neighbours shows it: the key, a space and the agency's id
}

// Neighbours lists the agencies elsewhere whose files are known by their key.
func (o *Office) Neighbours(ctx context.Context, by assessment.Actor) (NeighboursView, error) {
	var v NeighboursView
	err := o.as(ctx, by, assessment.ReadNeighbours, func(tx *postgres.Tx, now Moment) error {
		v = NeighboursView{Zone: now.Zone, Agency: now.Agency.Name}
		if o.opt.Ledger != nil {
			keys := o.opt.Ledger.Public()
			key := keys[len(keys)-1]
			v.Line, v.Fingerprint = key+" "+string(now.Agency.ID), handover.Fingerprint(key, string(now.Agency.ID))
		}
		kept, err := tx.Neighbours.List(ctx)
		for _, n := range kept {
			v.All = append(v.All, viewNeighbour(n))
		}
		return err
	})
	return v, err
}

func viewNeighbour(n postgres.Neighbour) NeighbourView {
	return NeighbourView{n, handover.Fingerprint(n.PublicKey, n.House), n.AgreedAt != nil && n.EndedAt == nil}
}

// EnterNeighbour enters an agency elsewhere. It is known only once a second person has agreed.
func (o *Office) EnterNeighbour(ctx context.Context, by assessment.Actor, f NeighbourForm) error {
	return o.as(ctx, by, assessment.EnterNeighbour, func(tx *postgres.Tx, now Moment) error {
		n, err := f.read(by, now)
		if err != nil {
			return err
		}
		if err := tx.Neighbours.Lock(ctx); err != nil {
			return err
		}
		known, err := tx.Neighbours.List(ctx)
		if err != nil {
			return err
		}
		for _, k := range known {
			if k.EndedAt == nil && k.PublicKey == n.PublicKey && k.House == n.House {
				return faultAt("line", "This agency stands on the list already, as "+k.Name+".")
			}
		}
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Neighbours.Enter(ctx, n); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EnterNeighbour, "neighbour", string(n.ID))
	})
}

func (n NeighbourForm) read(by assessment.Actor, now Moment) (postgres.Neighbour, error) {
	var f form
	one := postgres.Neighbour{Name: f.line("name", n.Name, 200, "Give the agency's name, as you call it."), EnteredBy: by.Person, EnteredAt: now.At}
	words := strings.Fields(n.Line)
	if len(words) != 2 {
		f.Add("line", "Paste the whole line from the other agency's page of neighbours: its key, a space and its id.")
		return one, f.Err()
	}
	key, err := ledger.ReadPublicLine(words[0])
	if err != nil {
		f.Add("line", "The key in this line is not whole. Copy the line again, from its first letter to its last.")
	}
	house, err := assessment.ParseID[string](words[1])
	if err != nil {
		f.Add("line", "The agency's id at the end of this line is not whole. Copy the line again, from its first letter to its last.")
	}
	if house == string(now.Agency.ID) {
		f.Add("line", "This is the line of your own agency. Ask the other agency for theirs.")
	}
	one.PublicKey, one.House = key, house
	return one, f.Err()
}

// AgreeNeighbour is the second person's word, after the fingerprint was compared.
func (o *Office) AgreeNeighbour(ctx context.Context, by assessment.Actor, id assessment.RecordID, compared bool) error {
	return o.onNeighbour(ctx, by, assessment.AgreeNeighbour, id, "neighbour agreed to", func(tx *postgres.Tx, now Moment, n postgres.Neighbour) error {
		switch {
		case n.AgreedAt != nil:
			return fault.Of(fault.Conflict, "%s has agreed to it already.", n.Agreer)
		case n.EnteredBy == by.Person:
			return fault.Of(fault.Refused, "You have entered it, so somebody else agrees.")
		case !compared:
			return faultAt("compared", "Compare the fingerprint with the other agency first, by telephone, at a number that you know from elsewhere.")
		}
		if err := secondPerson(ctx, tx, now, by.Person, n.EnteredBy, n.EnteredAt, "You cannot agree to what "+n.Enterer+" has entered"); err != nil {
			return err
		}
		return tx.Neighbours.Say(ctx, id, "agreed", "", by.Person, now.At)
	})
}

// EndNeighbour has a neighbour be known no more. One person is enough: it takes trust away.
func (o *Office) EndNeighbour(ctx context.Context, by assessment.Actor, id assessment.RecordID, reason string) error {
	return o.onNeighbour(ctx, by, assessment.AgreeNeighbour, id, "neighbour ended", func(tx *postgres.Tx, now Moment, n postgres.Neighbour) error {
		var f form
		why := f.words("reason", reason, 500)
		if !assessment.Says(why) {
			f.Add("reason", "Say why. It stays with the neighbour.")
		}
		if err := f.Err(); err != nil {
			return err
		}
		return tx.Neighbours.Say(ctx, id, "ended", why, by.Person, now.At)
	})
}

// onNeighbour does something to a neighbour that was not ended.
func (o *Office) onNeighbour(ctx context.Context, by assessment.Actor, act assessment.Act, id assessment.RecordID, kind string, change func(*postgres.Tx, Moment, postgres.Neighbour) error) error {
	return o.as(ctx, by, act, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Neighbours.Lock(ctx); err != nil {
			return err
		}
		n, err := tx.Neighbours.Get(ctx, id)
		if err != nil {
			return err
		}
		if n.EndedAt != nil {
			return fault.Of(fault.Conflict, "%s has ended it already.", n.Ender)
		}
		if err := change(tx, now, n); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, act, kind, string(id))
	})
}
