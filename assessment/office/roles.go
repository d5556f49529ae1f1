package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// changeRoles gives and ends what lies between two sets of roles. The agency
// keeps an administrator whatever happens, and tokens end with the role that made them.
func (o *Office) changeRoles(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, id assessment.PersonID, had, has []assessment.Role) error {
	for _, r := range assessment.Roles {
		before, after := slices.Contains(had, r), slices.Contains(has, r)
		if before == after {
			continue
		}
		if err := by.May(assessment.GiveRoles); err != nil {
			return err
		}
		change, kind := tx.People.GiveRole, roleGiven
		if before {
			change, kind = tx.People.EndRole, roleEnded
		}
		if before && r == assessment.Administrator {
			if err := mayLoseAdministrator(ctx, tx, id); err != nil {
				return err
			}
		}
		if before && r == assessment.Surveyor {
			if err := o.endAllAccess(ctx, tx, now, by, id); err != nil {
				return err
			}
		}
		if err := change(ctx, id, r, by.Person, now.At); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.GiveRoles, kind+string(r), string(id)); err != nil {
			return err
		}
	}
	if plans := (assessment.Actor{Roles: has}); plans.Reach(assessment.ReadReminders) == assessment.Nothing {
		if err := o.endFeeds(ctx, tx, now, by, assessment.GiveRoles, id, true); err != nil {
			return err
		}
	}
	return o.endTokens(ctx, tx, now, by, id, allowOtherwise(had, has))
}

func mayLoseAdministrator(ctx context.Context, tx *postgres.Tx, id assessment.PersonID) error {
	others, err := tx.People.OtherAdministrators(ctx, id)
	if err != nil {
		return err
	}
	if others == 0 {
		return fault.Of(fault.Refused, "This is the agency's last administrator. Make somebody else an administrator first.")
	}
	return nil
}

// PersonLeaves says from which day on somebody is no longer there. From then on
// they cannot sign in, and count for no child's team; what they signed stays.
func (o *Office) PersonLeaves(ctx context.Context, by assessment.Actor, id assessment.PersonID, on civil.Date) error {
	return o.as(ctx, by, assessment.EditPeople, o.leaving(ctx, by, id, on))
}

// PreviewLeaving tells what it would change that somebody leaves.
func (o *Office) PreviewLeaving(ctx context.Context, by assessment.Actor, id assessment.PersonID, on civil.Date) (Preview, error) {
	return o.rehearse(ctx, by, assessment.EditPeople, "", o.leaving(ctx, by, id, on))
}

func (o *Office) leaving(ctx context.Context, by assessment.Actor, id assessment.PersonID, on civil.Date) func(*postgres.Tx, Moment) error {
	return func(tx *postgres.Tx, now Moment) error {
		if on.IsZero() {
			return faultAt("on", "Give the first day on which they are no longer there, as YYYY-MM-DD.")
		}
		p, err := tx.People.Lock(ctx, id)
		if err != nil {
			return err
		}
		if slices.Contains(p.Roles, assessment.Administrator) {
			if err := mayLoseAdministrator(ctx, tx, id); err != nil {
				return err
			}
		}
		wasGone := gone(p.LeftOn, now.Today)
		p.LeftOn = on
		if err := tx.People.Save(ctx, p); err != nil {
			return err
		}
		if gone(on, now.Today) {
			if err := tx.Sessions.EndAllOf(ctx, id, nil); err != nil {
				return err
			}
		}
		if wasGone || gone(on, now.Today) { // a later day does not bring back what ended with an earlier one
			if err := o.endTokens(ctx, tx, now, by, id, every); err != nil {
				return err
			}
			if err := o.endFeeds(ctx, tx, now, by, assessment.EditPeople, id, false, true); err != nil {
				return err
			}
			if err := o.endAllAccess(ctx, tx, now, by, id); err != nil {
				return err
			}
		}
		return o.note(ctx, tx, now, by, assessment.EditPeople, "leaving", string(id))
	}
}
