package office

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// TokenForm is a token as an administrator asks for it.
type TokenForm struct {
	Name    string   // of the program
	Acts    []string // what it allows
	Reading bool     // nothing that changes anything
	Days    string   // how long it lasts; empty: 90
}

// TokenView is a token as it is listed.
type TokenView struct {
	ID        assessment.TokenID
	Name      string
	Acts      []assessment.Act
	Reading   bool
	MadeBy    PersonRef
	MadeAt    time.Time
	ExpiresAt time.Time
	UsedAt    *time.Time // to the minute; nil: never
	RevokedAt *time.Time
	RevokedBy PersonRef
	Dead      string // why it does not work; empty: it does
}

// NewToken is a token as it is shown once.
type NewToken struct {
	TokenView
	Secret string // kept nowhere
}

// TokensDesk is all that there is to know about the agency's tokens.
type TokensDesk struct {
	Tokens []TokenView
	Grant  []assessment.Act // what the asker may put into one
}

// MakeToken makes a token for a program.
func (o *Office) MakeToken(ctx context.Context, by assessment.Actor, f TokenForm) (NewToken, error) {
	raw, err := o.bytes(32)
	if err != nil {
		return NewToken{}, err
	}
	made := NewToken{Secret: tokenSecret(raw)}
	err = o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		n, err := f.read(by, now)
		if err != nil {
			return err
		}
		if n.ID, err = newID[assessment.TokenID](o, now.At); err != nil {
			return err
		}
		if err := tx.Tokens.Add(ctx, n, tokenHash(made.Secret)); err != nil {
			return err
		}
		made.TokenView = viewToken(n, "")
		return o.note(ctx, tx, now, by, assessment.GiveRoles, "token made", string(n.ID))
	})
	if err != nil {
		return NewToken{}, err
	}
	return made, nil
}

func (f TokenForm) read(by assessment.Actor, now Moment) (postgres.Token, error) {
	var faults form
	n := postgres.Token{MadeBy: by.Person, Maker: by.Name, Name: faults.line("name", f.Name, 80, "Enter the name of the program.")}
	n.Reading, n.MadeAt = f.Reading, now.At
	grant := by.MayGrant()
	for _, typed := range f.Acts {
		act := assessment.Act(typed)
		switch {
		case !slices.Contains(grant, act):
			faults.Add("acts", "You cannot give a program this: %s.", typed)
		case f.Reading && !act.Reads():
			faults.Add("acts", "A token that only reads cannot allow this: %s.", typed)
		case !slices.Contains(n.Acts, act):
			n.Acts = append(n.Acts, act)
		}
	}
	if len(f.Acts) == 0 {
		faults.Add("acts", "Choose what the program may do. Choose no more than it needs.")
	}
	days := assessment.TokenDays
	if typed := strings.TrimSpace(f.Days); typed != "" {
		var err error
		if days, err = strconv.Atoi(typed); err != nil || days < 1 || days > assessment.MostTokenDays {
			faults.Add("days", "A token lasts from 1 to %d days.", assessment.MostTokenDays)
		}
	}
	n.ExpiresAt = now.At.Add(time.Duration(days) * 24 * time.Hour)
	return n, faults.Err()
}

// Tokens lists the agency's tokens, with what became of each.
func (o *Office) Tokens(ctx context.Context, by assessment.Actor) (TokensDesk, error) {
	d := TokensDesk{Grant: by.MayGrant()}
	err := o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		all, err := tx.Tokens.All(ctx)
		d.Tokens = make([]TokenView, 0, len(all))
		makers := map[assessment.PersonID]postgres.Person{}
		for _, t := range all {
			maker, known := makers[t.MadeBy]
			if !known {
				if maker, err = tx.People.Get(ctx, t.MadeBy); err != nil {
					return err
				}
				makers[t.MadeBy] = maker
			}
			d.Tokens = append(d.Tokens, viewToken(t, t.Dead(now.At, actorOf(by.Agency, maker), gone(maker.LeftOn, now.Today))))
		}
		return err
	})
	return d, err
}

func viewToken(t postgres.Token, dead string) TokenView {
	return TokenView{ID: t.ID, Name: t.Name, Acts: t.Acts, Reading: t.Reading, MadeBy: PersonRef{ID: t.MadeBy, Name: t.Maker}, MadeAt: t.MadeAt,
		ExpiresAt: t.ExpiresAt, UsedAt: t.UsedAt, RevokedAt: t.RevokedAt, RevokedBy: PersonRef{ID: t.RevokedBy, Name: t.Revoker}, Dead: dead}
}

// RevokeToken ends a token at once. Every administrator of the agency may.
func (o *Office) RevokeToken(ctx context.Context, by assessment.Actor, id assessment.TokenID) error {
	return o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		err := tx.Tokens.Revoke(ctx, id, by.Person, now.At)
		if postgres.None(err) {
			return notFound()
		}
		if err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.GiveRoles, "token revoked", string(id))
	})
}
