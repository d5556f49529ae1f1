package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// loadObservation is what must be known to say whether somebody may observe, but
// for the skill and their own standing in it.
func (o *Office) loadObservation(ctx context.Context, tx *postgres.Tx, now Moment, observer, learner assessment.PersonID) (assessment.Observation, error) {
	seen := assessment.Observation{Observer: observer, Learner: learner}
	licences, err := tx.Qualifications.Licences(ctx, observer)
	if err != nil {
		return seen, fmt.Errorf("read the observer's licences: %w", err)
	}
	for _, l := range licences {
		seen.Licences = append(seen.Licences, assessment.Licence{Kind: l.Kind, Number: l.Number, Through: l.ThroughOn})
	}
	appointments, err := tx.Qualifications.Appointments(ctx, observer)
	if err != nil {
		return seen, fmt.Errorf("read the observer's appointments: %w", err)
	}
	for _, a := range appointments {
		seen.Appointments = append(seen.Appointments, coreAppointment(a, now.Zone))
	}
	return seen, nil
}
