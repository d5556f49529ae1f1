package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// Printable is what papers can be asked for.
type Printable struct {
	Today     civil.Date
	Clients   []ClientRef
	People    []PersonRef
	Revisions []RevisionView // in force and drafts
	Recent    []postgres.Certificate
}

// mostRecent is how many certificates the list of the latest shows.
const mostRecent = 12

// Printable lists it.
func (o *Office) Printable(ctx context.Context, by assessment.Actor) (Printable, error) {
	var v Printable
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		v = Printable{Today: now.Today}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		for _, c := range clients {
			v.Clients = append(v.Clients, ClientRef{c.ID, c.Code, c.FirstName})
		}
		people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
		if err != nil {
			return err
		}
		for _, p := range people {
			if p.Kind != "" {
				v.People = append(v.People, PersonRef{p.ID, p.Name, p.Kind, p.Relation})
			}
		}
		revisions, err := tx.Checklists.Revisions(ctx, "")
		if err != nil {
			return err
		}
		for _, r := range revisions {
			if r.State != assessment.Retired {
				v.Revisions = append(v.Revisions, viewRevision(r))
			}
		}
		recent, err := tx.Certificates.Page(ctx, "", nil, "", mostRecent)
		v.Recent = recent.Items
		return err
	})
	return v, err
}
