package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// LinkLine is one link of a person as it is listed: by whom, when, and what
// became of it.
type LinkLine struct {
	Purpose   assessment.LinkPurpose
	IssuedBy  PersonRef
	IssuedAt  time.Time
	ExpiresAt time.Time
	EndedAt   *time.Time
	UsedAt    *time.Time
	VouchedBy PersonRef // empty: nobody
	VouchedAt *time.Time
	Proven    bool // with it a second secret was shown, so that nobody needs to vouch
}

// IdentityView tells how somebody came to the secret that they sign with.
type IdentityView struct {
	Person   PersonRef
	Links    []LinkLine    // newest first
	Waits    string        // why they cannot sign yet, in words; empty: they can
	Says     phrase.Phrase // the same, to be said in any language
	MayVouch bool          // whoever asks may vouch for them
	MayLink  bool          // whoever asks may make a link for them
	NoLink   string        // why they may not, where they may for others; empty: they may
	Invited  bool          // such a link would be an invitation: they have no password yet

	MayEndCodes bool // they have one-time codes, and whoever asks may turn them off
}

// Identity answers how somebody came to their secret.
func (o *Office) Identity(ctx context.Context, by assessment.Actor, id assessment.PersonID) (IdentityView, error) {
	var v IdentityView
	err := o.as(ctx, by, assessment.ReadPeople, func(tx *postgres.Tx, now Moment) (err error) {
		if err := by.MayFor(assessment.ReadPeople, id, false); err != nil {
			return err
		}
		v, err = identity(ctx, tx, now, by, id)
		return err
	})
	return v, err
}

func identity(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, id assessment.PersonID) (IdentityView, error) {
	p, err := tx.People.Get(ctx, id)
	if err != nil {
		return IdentityView{}, err
	}
	v := IdentityView{Person: PersonRef{ID: p.ID, Name: p.Name}}
	found, err := tx.Links.Of(ctx, id)
	if err != nil {
		return v, err
	}
	for _, l := range found {
		v.Links = append(v.Links, LinkLine{l.Purpose, PersonRef{ID: l.IssuedBy, Name: l.Issuer}, l.IssuedAt, l.ExpiresAt, l.EndedAt, l.UsedAt,
			PersonRef{ID: l.VouchedBy, Name: l.Voucher}, l.VouchedAt, l.ProvenBy != ""})
	}
	from, _, err := origin(ctx, tx, now, id)
	if err != nil {
		return v, err
	}
	if v.Says, err = waitsForVouching(ctx, tx, now, id); err != nil {
		return v, err
	}
	v.Waits = v.Says.String()
	kept, err := tx.People.Credential(ctx, id)
	if err != nil {
		return v, err
	}
	v.Invited = kept.PasswordHash == ""
	if by.May(assessment.GiveRoles) == nil {
		not := mayBeLinked(by, p, now)
		if v.MayLink = not == nil; !v.MayLink && id != by.Person && !gone(p.LeftOn, now.Today) {
			v.NoLink = not.Error()
		}
	}
	v.MayEndCodes = by.May(assessment.GiveRoles) == nil && mayEndCodes(ctx, tx, by, id) == nil
	v.MayVouch = by.May(assessment.VouchFor) == nil && mayVouch(ctx, tx, now, by, from) == nil
	return v, nil
}

func mayVouch(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, of assessment.Origin) error {
	from, err := secretsOf(ctx, tx)
	if err != nil {
		return err
	}
	return of.MayVouch(by.Person, from.hands.As(by.Person, now.At))
}

// Vouch says, signed, that the one who vouches has seen that it was this person
// who chose the password. From then on what they sign counts.
func (o *Office) Vouch(ctx context.Context, by assessment.Actor, id assessment.PersonID, proof Proof) error {
	may := func(tx *postgres.Tx, now Moment) (postgres.Link, error) {
		if _, err := tx.People.Get(ctx, id); err != nil {
			return postgres.Link{}, err
		}
		of, l, err := origin(ctx, tx, now, id)
		if err != nil {
			return l, err
		}
		return l, mayVouch(ctx, tx, now, by, of)
	}
	proof = proof.over("vouch", id)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		if _, err := may(tx, now); err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			p, err := tx.People.Get(ctx, id)
			return fmt.Sprintf("Vouch for %s. “I have seen that this is %s, and that the password is theirs.”", p.Name, p.Name), err
		})
	}
	return o.signing(ctx, by, assessment.VouchFor, proof, look, func(tx *postgres.Tx, now Moment) error {
		l, err := may(tx, now)
		if err != nil {
			return err
		}
		if err := tx.Links.Vouch(ctx, l.ID, by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.VouchFor, vouched, string(id))
	})
}
