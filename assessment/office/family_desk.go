package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// FamilyDesk is what a caregiver has done, what is left, and how far their
// children's ways home are.
type FamilyDesk struct {
	Person  PersonView
	Today   civil.Date
	Rows    []StandingView
	Records []postgres.Demonstration // newest first
	ToSign  Waiting
	Ways    []WayHome     // one a child on whose team they are today
	Waits   string        // why they cannot sign yet, in words; empty: they can
	Says    phrase.Phrase // the same, to be said in any language
	Next    phrase.Phrase // what they do next by their learning plan; nothing where nothing is left
}

// WayHome is a child with how far its plan for going home is.
type WayHome struct {
	Client ClientRef
	Ready  bool // all that the plan asks for is in place, or waived by name
	Signed bool // and a licensed clinician has signed that, which stands
	Left   int
	All    int // lines of the plan; 0: there is none
}

// FamilyDesk answers about the actor, for today.
func (o *Office) FamilyDesk(ctx context.Context, by assessment.Actor) (FamilyDesk, error) {
	var v FamilyDesk
	err := o.as(ctx, by, assessment.ReadStandings, func(tx *postgres.Tx, now Moment) error {
		kept, err := tx.People.Get(ctx, by.Person)
		if err != nil {
			return err
		}
		v = FamilyDesk{Person: viewPerson(kept), Today: now.Today}
		if v.Says, err = waitsForVouching(ctx, tx, now, by.Person); err != nil {
			return err
		}
		v.Waits = v.Says.String()
		if v.Rows, err = o.foldPerson(ctx, tx, now, v.Person, now.Today); err != nil {
			return err
		}
		if v.Records, err = tx.Demonstrations.All(ctx, postgres.DemonstrationFilter{Learner: by.Person}); err != nil {
			return err
		}
		if v.Next, err = o.nextByPlan(ctx, tx, now, v.Person); err != nil {
			return err
		}
		if v.ToSign, err = o.awaiting(ctx, tx, now, by, by.Person, ""); err != nil {
			return err
		}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{TeamOf: by.Person, On: now.Today})
		if err != nil {
			return err
		}
		v.Ways, err = o.ways(ctx, tx, now, clients)
		return err
	})
	return v, err
}

// ways tells how far each of some children is, in their order.
func (o *Office) ways(ctx context.Context, tx *postgres.Tx, now Moment, clients []postgres.Client) ([]WayHome, error) {
	answers, err := o.waysHome(ctx, tx, now, clients)
	if err != nil {
		return nil, err
	}
	var all []WayHome
	for _, c := range clients {
		a := answers[c.ID]
		all = append(all, WayHome{ClientRef{c.ID, c.Code, c.FirstName}, a.Ready, a.SignatureStands(), a.Left(), len(a.Lines)})
	}
	return all, nil
}
