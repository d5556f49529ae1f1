package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// tokensEnded is what the journal tells whose tokens ended with their own rights.
const tokensEnded = "tokens ended"

// endTokens ends for good the tokens of whoever's rights change, where what they
// allow would change with them: a token that slept while its maker had lost a role
// must not wake when the role comes back. Each is noted as a revoked token, and its
// maker is told.
func (o *Office) endTokens(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, maker assessment.PersonID, ends func(postgres.Token) bool) error {
	all, err := tx.Tokens.OpenOf(ctx, maker)
	if err != nil {
		return err
	}
	ended := 0
	for _, t := range all {
		if !ends(t) {
			continue
		}
		ended++
		if err := tx.Tokens.Revoke(ctx, t.ID, by.Person, now.At); err != nil && !postgres.None(err) { // else somebody revoked it meanwhile
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.GiveRoles, "token revoked", string(t.ID)); err != nil {
			return err
		}
	}
	if ended == 0 {
		return nil
	}
	return o.note(ctx, tx, now, by, assessment.GiveRoles, tokensEnded, string(maker))
}

// allowOtherwise are the tokens that allow more or less by one set of their maker's
// roles than by another.
func allowOtherwise(had, has []assessment.Role) func(postgres.Token) bool {
	return func(t postgres.Token) bool {
		return len(t.Allows(assessment.Actor{Roles: had})) != len(t.Allows(assessment.Actor{Roles: has}))
	}
}

func every(postgres.Token) bool { return true }
