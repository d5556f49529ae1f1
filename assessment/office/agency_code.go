package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// ChangeAgencyCode gives the actor's agency another code, which is what people
// type where an e-mail address is known in several agencies, and what commands on
// the server name it by. Nothing that was signed holds it. Only who gives roles
// may; a code that another agency has is a conflict.
func (o *Office) ChangeAgencyCode(ctx context.Context, by assessment.Actor, code string) error {
	var f form
	code = f.line("code", code, 31, "Give a short code, such as larkmoor.")
	if err := f.Err(); err != nil {
		return err
	}
	return o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Agencies.SetCode(ctx, code); err != nil {
			return fmt.Errorf("change the agency's code: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.GiveRoles, "agency code", string(by.Agency))
	})
}
