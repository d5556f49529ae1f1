package office

import (
	"context"
	"encoding/base64"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// NewLink is a single-use link as it is shown once, to be handed over.
type NewLink struct {
	Person    PersonRef
	Email     string // what they will sign in with
	Language  string // that they read in
	Agency    AgencyView
	Purpose   assessment.LinkPurpose
	URL       string // holds the token; kept nowhere
	ExpiresAt time.Time
}

// linkPath is where a link leads, before its token.
const linkPath = "/link/"

// deadLink is the one answer for a link that was forged, used, replaced by a newer
// one or has run out: whoever tries one learns nothing.
func deadLink() error {
	return fault.Of(fault.NotFound, "This link cannot be used. It was used already, it has run out, or a newer one took its place. Ask an administrator of your agency for a new one.")
}

// MakeLink makes a link by which somebody chooses a password themselves: the first
// one, or another one in its place. The ones that they have not used end.
func (o *Office) MakeLink(ctx context.Context, by assessment.Actor, id assessment.PersonID) (NewLink, error) {
	raw, err := o.bytes(32)
	if err != nil {
		return NewLink{}, err
	}
	token := base64.RawURLEncoding.EncodeToString(raw)
	var made NewLink
	err = o.as(ctx, by, assessment.GiveRoles, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.People.Lock(ctx, id)
		if err != nil {
			return err
		}
		if err := mayBeLinked(by, p, now); err != nil {
			return err
		}
		kept, err := tx.People.Credential(ctx, id)
		if err != nil {
			return err
		}
		l := postgres.Link{PersonID: id, Purpose: assessment.Invitation, IssuedBy: by.Person, IssuedAt: now.At}
		if kept.PasswordHash != "" {
			l.Purpose = assessment.Reset
		}
		l.ExpiresAt = now.At.Add(l.Purpose.Lasts())
		if l.ID, err = newID[string](o, now.At); err != nil {
			return err
		}
		made = NewLink{Person: PersonRef{ID: p.ID, Name: p.Name}, Email: p.Email, Language: p.Language, Agency: viewAgency(now.Agency), Purpose: l.Purpose, URL: strings.TrimSuffix(o.opt.BaseURL, "/") + linkPath + token, ExpiresAt: l.ExpiresAt}
		if err := tx.Links.Add(ctx, l, tokenHash(token)); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.GiveRoles, string(l.Purpose)+linkMade, string(id))
	})
	return made, err
}

func mayBeLinked(by assessment.Actor, p postgres.Person, now Moment) error {
	switch {
	case p.ID == by.Person:
		return fault.Of(fault.Refused, "Change your own password under your account.")
	case p.Email == "":
		return fault.Of(fault.Refused, "They have no e-mail address to sign in with. Enter one first.")
	case gone(p.LeftOn, now.Today):
		return fault.Of(fault.Refused, "They left the agency on %s and can no longer sign in.", p.LeftOn)
	case len(p.Roles) == 0:
		return fault.Of(fault.Refused, "They have no role, so no password would let them in. Give a role first, under Change.")
	}
	return nil
}

// LinkView is what whoever opens a link sees before they use it.
type LinkView struct {
	Agency string
	Name   string
	Email  string // what they will sign in with
	// Language is the one that they read in.
	Language string
	Purpose  assessment.LinkPurpose
	HasCode  bool // they have one-time codes, and can show one to prove that it is them
}

// Link looks at a link and changes nothing, however often it is opened.
func (o *Office) Link(ctx context.Context, token string) (LinkView, error) {
	found, err := o.openLink(ctx, token)
	return LinkView{Agency: found.agency.Name, Name: found.person.Name, Email: found.person.Email, Language: found.person.Language, Purpose: found.link.Purpose, HasCode: found.codes}, err
}

// opened is a link that can be used, with whose it is.
type opened struct {
	agency postgres.Agency
	person postgres.Person
	link   postgres.Link
	codes  bool // one-time codes are asked of them
}

func (o *Office) openLink(ctx context.Context, token string) (opened, error) {
	agency, err := o.db.AtDoor().Link(ctx, tokenHash(token))
	if fault.KindOf(err) == fault.NotFound {
		return opened{}, deadLink()
	}
	if err != nil {
		return opened{}, err
	}
	var found opened
	err = o.reading(ctx, agency, func(tx *postgres.Tx, now Moment) (err error) {
		found, err = useable(ctx, tx, now, token)
		return err
	})
	if err != nil {
		return opened{}, err
	}
	return found, nil
}

// useable is the link of a token, or a refusal where it cannot be used now.
func useable(ctx context.Context, tx *postgres.Tx, now Moment, token string) (opened, error) {
	l, err := tx.Links.ByToken(ctx, tokenHash(token))
	if err != nil {
		return opened{}, err
	}
	p, err := tx.People.Get(ctx, l.PersonID)
	if err != nil {
		return opened{}, err
	}
	if !l.OpenAt(now.At) || gone(p.LeftOn, now.Today) {
		return opened{}, deadLink()
	}
	c, err := tx.OneTimeCodes.Of(ctx, l.PersonID)
	if err != nil && fault.KindOf(err) != fault.NotFound {
		return opened{}, err
	}
	return opened{now.Agency, p, l, err == nil && c.ConfirmedAt != nil}, nil
}

// LinkForm is what somebody sends who uses a link.
type LinkForm struct {
	Token    string
	Password string // of their own choice
	Code     string // one-time or recovery code that they had before; empty: none
	Address  string // of the client, for slowing down guesses
}

// TakeLink uses a link up: its owner has chosen a password. All their sessions end,
// and so does their PIN. Whoever shows a code besides keeps their passkeys; else those
// end too, since nobody can tell whose they were. One-time codes stay on either way: a
// link alone must not do what takes a password and a code.
func (o *Office) TakeLink(ctx context.Context, f LinkForm) error {
	found, err := o.openLink(ctx, f.Token)
	if err != nil {
		return err
	}
	var faults form
	faults.Take("new", checkPassword(f.Password, found.person.Name, found.person.Email))
	if err := faults.Err(); err != nil {
		return err
	}
	by := actorOf(found.agency.ID, found.person)
	if f.Code != "" {
		if err := o.proveCode(ctx, by.Agency, by.Person, f.Code, place{name: Network(f.Address)}); err != nil {
			return err
		}
	}
	hash, err := o.hash(ctx, f.Password)
	if err != nil {
		return err
	}
	return o.own(ctx, by.Agency, by.Person, func(tx *postgres.Tx, now Moment) error {
		return o.takeLink(ctx, tx, now, by, f, hash)
	})
}

func (o *Office) takeLink(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f LinkForm, hash string) error {
	if _, err := tx.People.Lock(ctx, by.Person); err != nil { // before any row of a link: whoever makes one does so too
		return err
	}
	found, err := useable(ctx, tx, now, f.Token)
	if err != nil {
		return err
	}
	before, _, err := origin(ctx, tx, now, by.Person)
	if err != nil {
		return err
	}
	from, err := secretsOf(ctx, tx)
	if err != nil {
		return err
	}
	provenBy := ""
	if f.Code != "" && before.SecondCounts(from.hands.As(found.link.IssuedBy, found.link.IssuedAt)...) {
		provenBy = "code"
	}
	if err := tx.Links.Use(ctx, found.link.ID, now.At, provenBy); err != nil {
		if postgres.None(err) { // meanwhile somebody has used it
			return deadLink()
		}
		return err
	}
	if provenBy == "" {
		if err := o.endPasskeys(ctx, tx, now, by); err != nil {
			return err
		}
		if err := o.endFeeds(ctx, tx, now, by, assessment.OwnAccount, by.Person, false, true); err != nil {
			return err
		}
	}
	return o.setPassword(ctx, tx, now, by, by.Person, postgres.Credential{PasswordHash: hash}, nil, string(found.link.Purpose)+linkUsed)
}

// endPasskeys ends the passkeys of somebody: whoever had the account before must not
// keep a way in.
func (o *Office) endPasskeys(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor) error {
	if err := tx.Passkeys.Lock(ctx, by.Person); err != nil {
		return err
	}
	keys, err := tx.Passkeys.Of(ctx, by.Person)
	if err != nil {
		return err
	}
	for _, k := range keys {
		if err := tx.Passkeys.Remove(ctx, by.Person, k.ID, now.At); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.OwnAccount, "passkey removed", string(by.Person)); err != nil {
			return err
		}
	}
	return nil
}
