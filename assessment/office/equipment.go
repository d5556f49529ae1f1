package office

import (
	"context"
	"regexp"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// EquipmentForm says which type of a kind of equipment the child has from a day on.
type EquipmentForm struct {
	Kind string // such as "ventilator"
	Type string // empty: none any more
	From string // YYYY-MM-DD
}

var equipmentKind = regexp.MustCompile(`^[a-z][a-z-]*( [a-z-]+)*$`)

// SetEquipment notes a change of equipment. From its day on, what was shown with
// another type no longer counts for this child in the skills that depend on it.
func (o *Office) SetEquipment(ctx context.Context, by assessment.Actor, client assessment.ClientID, e EquipmentForm) (ClientView, error) {
	return o.changeClient(ctx, by, assessment.EditClients, client, "equipment", o.refitting(ctx, by, client, e))
}

// PreviewEquipment tells what such a change would change.
func (o *Office) PreviewEquipment(ctx context.Context, by assessment.Actor, client assessment.ClientID, e EquipmentForm) (Preview, error) {
	return o.rehearse(ctx, by, assessment.EditClients, "", o.changingClient(ctx, by, assessment.EditClients, client, "equipment", o.refitting(ctx, by, client, e)))
}

func (o *Office) refitting(ctx context.Context, by assessment.Actor, client assessment.ClientID, e EquipmentForm) func(*postgres.Tx, Moment, *postgres.Client) error {
	return func(tx *postgres.Tx, now Moment, _ *postgres.Client) error {
		n, err := e.read()
		if err != nil {
			return err
		}
		changes, err := tx.Clients.Equipment(ctx, client)
		if err != nil {
			return err
		}
		if has, _ := fitted(changes, n.Kind, n.FromOn); has == n.Type && n.Type != "" {
			return fault.Of(fault.Conflict, "The child has this type on that day already.")
		}
		n.RecordedAt = now.At
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Clients.SetEquipment(ctx, client, n, by.Person); err != nil {
			return err
		}
		return o.reindexClient(ctx, tx, now, client)
	}
}

func (e EquipmentForm) read() (postgres.Equipment, error) {
	var f form
	n := postgres.Equipment{
		Kind:   strings.ToLower(f.line("kind", e.Kind, 40, "Give the kind of equipment, such as ventilator.")),
		Type:   f.maybe("type", e.Type, 120),
		FromOn: f.day("from", e.From),
	}
	if n.Kind != "" && !equipmentKind.MatchString(n.Kind) {
		f.Add("kind", "A kind of equipment is one or more words in letters, such as tracheostomy tube.")
	}
	return n, f.Err()
}

// fitted is the type of a kind on a day and since when; of two changes for one
// day the one written down later counts.
func fitted(changes []postgres.Equipment, kind string, on civil.Date) (string, civil.Date) {
	var has string
	var since civil.Date
	for _, c := range changes {
		if c.Kind == kind && !c.FromOn.After(on) {
			has, since = c.Type, c.FromOn
		}
	}
	return has, since
}

func viewEquipment(changes []postgres.Equipment, today civil.Date) []EquipmentView {
	var views []EquipmentView
	for _, c := range changes {
		i := slices.IndexFunc(views, func(v EquipmentView) bool { return v.Kind == c.Kind })
		if i < 0 {
			has, since := fitted(changes, c.Kind, today)
			views = append(views, EquipmentView{Kind: c.Kind, Type: has, From: since})
			i = len(views) - 1
		}
		views[i].History = append(views[i].History, EquipmentChange{Type: c.Type, From: c.FromOn})
	}
	slices.SortFunc(views, func(a, b EquipmentView) int { return strings.Compare(a.Kind, b.Kind) })
	return views
}
