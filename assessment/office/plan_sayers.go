package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// currentLicences are those of somebody that are good today.
func currentLicences(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) ([]assessment.Licence, error) {
	kept, err := tx.Qualifications.Licences(ctx, person)
	if err != nil {
		return nil, fmt.Errorf("read licences: %w", err)
	}
	var current []assessment.Licence
	for _, l := range kept {
		if licence := (assessment.Licence{Kind: l.Kind, Number: l.Number, Through: l.ThroughOn}); licence.CurrentOn(now.Today) {
			current = append(current, licence)
		}
	}
	return current, nil
}

// maySay refuses whoever may not say what is so about a line.
func maySay(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, c assessment.Criterion) error {
	current, err := currentLicences(ctx, tx, now, by.Person)
	if err != nil || c.MaySay(by.Roles, current) {
		return err
	}
	return fault.Of(fault.Refused, "By this plan only %s may say this. Nothing was kept. Ask one of them, or have your licence recorded under People if you hold it.", c.SaidBy())
}

// mayChange refuses whoever would change or take off a line that takes a clinician
// without being one: it would be a way around what only they may say.
func mayChange(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, c assessment.Criterion) error {
	if !guarded(c) {
		return nil
	}
	current, err := currentLicences(ctx, tx, now, by.Person)
	if err != nil || c.MaySay(by.Roles, current) {
		return err
	}
	return fault.Of(fault.Refused, "What this line asks can be changed, waived or taken off by %s only, as they alone may say that it is so. Nothing was changed.", c.SaidBy())
}

// guarded reports whether it takes a clinician, or a licence of some kind, to say that a
// line is met.
func guarded(c assessment.Criterion) bool {
	return c.Says == assessment.SaidByClinician || c.Licence != ""
}
