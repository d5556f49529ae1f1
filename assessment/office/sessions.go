package office

import (
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// How long a session lasts: unused, and at all. How often its use is noted.
const (
	sessionIdle  = 12 * time.Hour
	sessionMost  = 7 * 24 * time.Hour
	sessionTouch = time.Minute
)

// AgencyView is the tenant as people see it.
type AgencyView struct {
	ID   assessment.AgencyID
	Code string
	Name string
	Zone string // IANA name
	Demo bool
}

func viewAgency(a postgres.Agency) AgencyView {
	return AgencyView{ID: a.ID, Code: a.Code, Name: a.Name, Zone: a.Zone, Demo: a.Demo}
}

// SessionView is who is signed in.
type SessionView struct {
	Actor              assessment.Actor
	Agency             AgencyView
	MustChangePassword bool // nothing else is to be offered until they have
	Language           string
	CSRF               string // goes into every form; changes with the session
	Kind               assessment.CaregiverKind
	Email              string
	HasPasskey         bool // one that is accepted
	PINSuffices        bool // they have signed in this session not long ago, and have a PIN
	News               int  // what happened to the account before it and was not put away yet
}

// openSession opens a session for whoever was proven, if they still are. Whoever sets
// a password or takes a passkey away by a link waits for the same lock, and ends the
// sessions that were opened before.
func (o *Office) openSession(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, proven still) (string, assessment.Actor, error) {
	raw, err := o.bytes(sessionSecret)
	if err != nil {
		return "", assessment.Actor{}, err
	}
	token := base64.RawURLEncoding.EncodeToString(raw)
	var actor assessment.Actor
	err = o.in(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.People.Lock(ctx, person)
		if err != nil {
			return err
		}
		if err := proven.or(ctx, tx, fault.Of(fault.Unauthenticated, "What you signed in with was changed or taken away while you did. Sign in again.")); err != nil {
			return err
		}
		if gone(p.LeftOn, now.Today) || len(p.Roles) == 0 {
			return fault.Of(fault.Forbidden, "This account is not open. Ask an administrator of your agency.")
		}
		actor = actorIn(agency, p, token)
		news, err := o.news(ctx, tx, now, agency, person)
		if err != nil {
			return err
		}
		open := postgres.OpenSession{TokenHash: tokenHash(token), Device: deviceOf(browserOf(ctx)), News: news}
		if err := tx.Sessions.Add(ctx, open, person, now.At, now.At.Add(sessionMost)); err != nil {
			return err
		}
		if err := tx.Sessions.ForgetTries(ctx, person, now.At.Add(-24*time.Hour)); err != nil {
			return err
		}
		return o.note(ctx, tx, now, actor, assessment.OwnAccount, signedInKind, string(person))
	})
	return token, actor, err
}

func actorOf(agency assessment.AgencyID, p postgres.Person) assessment.Actor {
	return assessment.Actor{Agency: agency, Person: p.ID, Name: p.Name, Roles: p.Roles}
}

// actorIn is actorOf for somebody who is signed in.
func actorIn(agency assessment.AgencyID, p postgres.Person, token string) assessment.Actor {
	a := actorOf(agency, p)
	a.Session = hex.EncodeToString(tokenHash(token))
	return a
}

func tokenHash(token string) []byte {
	hash := sha256.Sum256([]byte(token))
	return hash[:]
}

func csrf(token string) string {
	m := hmac.New(sha256.New, []byte(token))
	m.Write([]byte("form"))
	return base64.RawURLEncoding.EncodeToString(m.Sum(nil))
}

// Session tells whose token it is, with the roles they have now.
func (o *Office) Session(ctx context.Context, token string) (SessionView, error) {
	signedOut := fault.Of(fault.Unauthenticated, "You are signed out. Sign in again.")
	if !LooksLikeToken(token) || strings.HasPrefix(token, TokenPrefix) {
		return SessionView{}, signedOut
	}
	agency, err := o.db.AtDoor().Session(ctx, tokenHash(token))
	if fault.KindOf(err) == fault.NotFound {
		return SessionView{}, signedOut
	}
	if err != nil {
		return SessionView{}, err
	}
	var v SessionView
	var open bool
	err = o.in(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Sessions.Find(ctx, tokenHash(token))
		if err != nil {
			return err
		}
		v = SessionView{Actor: actorIn(agency, s.Person, token), Agency: viewAgency(now.Agency), MustChangePassword: s.MustChange,
			Language: s.Language, CSRF: csrf(token), Kind: s.Kind, Email: s.Email,
			PINSuffices: s.HasPIN && assessment.PINSuffices(s.SignedAt, now.At), News: s.News, HasPasskey: s.HasPasskey}
		if v.Actor.Survey, err = surveyOf(ctx, tx, now, s.Person); err != nil {
			return err
		}
		open = now.At.Before(s.ExpiresAt) && now.At.Sub(s.SeenAt) < sessionIdle && !gone(s.LeftOn, now.Today) && len(s.Roles) > 0
		return keepSession(ctx, tx, now, token, s, open)
	})
	if fault.KindOf(err) == fault.NotFound || err == nil && !open {
		return SessionView{}, signedOut
	}
	return v, err
}

// keepSession notes that an open session was used, and ends one that is over.
func keepSession(ctx context.Context, tx *postgres.Tx, now Moment, token string, s postgres.Session, open bool) error {
	switch {
	case !open:
		return tx.Sessions.End(ctx, tokenHash(token))
	case now.At.Sub(s.SeenAt) >= sessionTouch:
		return tx.Sessions.Touch(ctx, tokenHash(token), now.At)
	}
	return nil
}

// SignOut ends a session. One that is over already is as good.
func (o *Office) SignOut(ctx context.Context, token string) error {
	agency, err := o.db.AtDoor().Session(ctx, tokenHash(token))
	if fault.KindOf(err) == fault.NotFound {
		return nil
	}
	if err != nil {
		return err
	}
	return o.in(ctx, agency, func(tx *postgres.Tx, _ Moment) error { return tx.Sessions.End(ctx, tokenHash(token)) })
}
