package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ErrPersonChanged refuses a change that was made from what no longer stands: it
// would undo what somebody else has changed, such as a role that was ended.
var ErrPersonChanged = fault.Of(fault.Conflict, "Somebody has changed this person since you read it.")

// EditPerson changes what is known of a person, as long as it still is what the
// change was made from. Roles that are nil stay as they are; an empty list ends
// them all.
func (o *Office) EditPerson(ctx context.Context, by assessment.Actor, id assessment.PersonID, p PersonForm) (PersonView, error) {
	var v PersonView
	err := o.as(ctx, by, assessment.EditPeople, func(tx *postgres.Tx, now Moment) error {
		if p.Password != "" {
			return faultAt("password", "Make a link by which they choose a password themselves.")
		}
		n, err := p.read()
		if err != nil {
			return err
		}
		kept, err := tx.People.Lock(ctx, id)
		if err != nil {
			return err
		}
		if personVersion(kept) != p.Version {
			return ErrPersonChanged
		}
		n.ID, n.LeftOn = id, kept.LeftOn
		if p.Roles == nil {
			n.Roles = kept.Roles
		}
		if n.Kind == "" && slices.Contains(n.Roles, assessment.Caregiver) {
			return faultAt("kind", "Say what kind of caregiver they are: family, nurse or aide.")
		}
		if err := o.editPerson(ctx, tx, now, by, kept, n); err != nil {
			return err
		}
		kept, err = tx.People.Get(ctx, id)
		v = viewPerson(kept)
		return err
	})
	return v, err
}

func (o *Office) editPerson(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, was, is postgres.Person) error {
	if err := mayRename(by, was, is); err != nil {
		return err
	}
	if err := tx.People.Save(ctx, is); err != nil {
		return err
	}
	kinds := []string{"person"}
	if was.Name != is.Name {
		kinds = append(kinds, nameChanged)
	}
	if was.Email != is.Email {
		kinds = append(kinds, addressChanged)
	}
	for _, kind := range kinds {
		if err := o.note(ctx, tx, now, by, assessment.EditPeople, kind, string(is.ID)); err != nil {
			return err
		}
	}
	return o.changeRoles(ctx, tx, now, by, is.ID, was.Roles, is.Roles)
}

// mayRename leaves to administrators the names that judgements are signed with, and
// the addresses that administrators sign in with: another name would stand under
// what somebody signs, another address would lock them out.
func mayRename(by assessment.Actor, was, is postgres.Person) error {
	if by.May(assessment.GiveRoles) == nil {
		return nil
	}
	var f form
	roles := assessment.Actor{Roles: was.Roles}
	if was.Name != is.Name && roles.May(assessment.VouchFor) == nil {
		f.Add("name", "%s signs for the agency, so an administrator changes the name. Ask one, or leave it as it was.", was.Name)
	}
	if was.Email != is.Email && roles.Is(assessment.Administrator) {
		f.Add("email", "%s is an administrator, so only an administrator changes the address they sign in with. Leave it as it was.", was.Name)
	}
	return f.Err()
}

// personVersion is the same for the same words about a person and another for every
// other. The day they leave and their password have acts of their own, which no
// edit undoes.
func personVersion(p postgres.Person) string {
	roles := slices.Sorted(slices.Values(p.Roles))
	text, err := json.Marshal([]any{p.Name, p.Kind, p.Relation, p.Email, p.Language, roles})
	if err != nil {
		panic(fmt.Sprintf("tell the version of a person: %v", err)) // text alone can always be written
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:12])
}
