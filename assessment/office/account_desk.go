package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// AccountView is what somebody sees of their own account.
type AccountView struct {
	IdentityView
	Email    string
	PIN      PINView
	Sessions []SessionLine  // the last used first
	Devices  []DeviceView   // at the bedside
	Events   []AccountEvent // newest first
	News     int            // how many of Events they have not done and not put away
}

// PINView tells whether somebody has a PIN for signing.
type PINView struct {
	May    bool // whoever signs nothing needs none
	SetAt  time.Time
	Set    bool
	ShutAt *time.Time // guessed at too often; another one must be set
}

// SessionLine is one session as its owner can tell it from others.
type SessionLine struct {
	Handle   string // to end it by; opens nothing
	Device   string // in coarse words
	OpenedAt time.Time
	UsedAt   time.Time
	This     bool // whoever asks acts in it
}

// mostEvents is how many events an account shows.
const mostEvents = 60

// Account is one's own account.
func (o *Office) Account(ctx context.Context, by assessment.Actor) (AccountView, error) {
	var v AccountView
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) (err error) {
		if v.IdentityView, err = identity(ctx, tx, now, by, by.Person); err != nil {
			return err
		}
		p, err := tx.People.Get(ctx, by.Person)
		if err != nil {
			return err
		}
		v.Email = p.Email
		pin, err := tx.PINs.Of(ctx, by.Person)
		if err != nil {
			return err
		}
		v.PIN = PINView{May: by.May(assessment.SignRecord) == nil, Set: pin.Hash != "", SetAt: pin.SetAt, ShutAt: pin.ShutAt}
		if err := v.sessions(ctx, tx, now, by); err != nil {
			return err
		}
		if v.Devices, err = devicesOf(ctx, tx, by.Person); err != nil {
			return err
		}
		v.Events, err = accountEvents(ctx, tx, by.Person)
		v.markNews()
		return err
	})
	return v, err
}

func (v *AccountView) sessions(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor) error {
	found, err := tx.Sessions.Of(ctx, by.Person, now.At, now.At.Add(-sessionIdle))
	for _, s := range found {
		this := hex.EncodeToString(s.TokenHash) == by.Session
		v.Sessions = append(v.Sessions, SessionLine{handle(s.TokenHash), s.Device, s.CreatedAt, s.SeenAt, this})
		if this {
			v.News = s.News
		}
	}
	return err
}

// markNews marks the events that the session acted in has told as news when it was
// opened.
func (v *AccountView) markNews() {
	var opened time.Time
	for _, s := range v.Sessions {
		if s.This {
			opened = s.OpenedAt
		}
	}
	left := v.News
	for i, e := range v.Events {
		if left > 0 && !e.Own && !e.At.After(opened) {
			v.Events[i].New = true
			left--
		}
	}
}

// handle is what a session is called outside: neither its token nor the hash that
// is kept of it can be told from it.
func handle(tokenHash []byte) string {
	hash := sha256.Sum256(append([]byte("listed "), tokenHash...))
	return hex.EncodeToString(hash[:12])
}

// deviceOf says in coarse words what somebody signed in with. It is told by what
// the browser says of itself, which anybody can make up: it helps its owner to
// tell sessions apart and decides nothing.
func deviceOf(browser string) string {
	has := func(word string) bool { return strings.Contains(browser, word) }
	switch {
	case browser == "":
		return "unknown"
	case has("iPad"), has("Tablet"), has("Android") && !has("Mobile"):
		return "tablet"
	case has("Mobi"):
		return "phone"
	case has("Mozilla/"):
		return "computer"
	}
	return "program"
}

type browserKey struct{}

// FromBrowser says in what browser a use case is asked for, as it names itself: a
// session that is opened by it is told from others so.
func FromBrowser(ctx context.Context, browser string) context.Context {
	return context.WithValue(ctx, browserKey{}, browser)
}

func browserOf(ctx context.Context) string {
	name, _ := ctx.Value(browserKey{}).(string)
	return name
}

// EndSession ends one of one's own sessions.
func (o *Office) EndSession(ctx context.Context, by assessment.Actor, named string) error {
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		found, err := tx.Sessions.Of(ctx, by.Person, now.At, now.At.Add(-sessionIdle))
		if err != nil {
			return err
		}
		for _, s := range found {
			if handle(s.TokenHash) != named {
				continue
			}
			if err := tx.Sessions.End(ctx, s.TokenHash); err != nil {
				return err
			}
			return o.note(ctx, tx, now, by, assessment.OwnAccount, "session ended", string(by.Person))
		}
		return notFound()
	})
}

// EndOtherSessions ends all of one's own sessions but the one acted in.
func (o *Office) EndOtherSessions(ctx context.Context, by assessment.Actor) error {
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		keep, err := hex.DecodeString(by.Session)
		if err != nil {
			return err
		}
		if err := tx.Sessions.EndAllOf(ctx, by.Person, keep); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "other sessions ended", string(by.Person))
	})
}

// PutNewsAway says that one has read what happened to the account.
func (o *Office) PutNewsAway(ctx context.Context, by assessment.Actor) error {
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Sessions.PutAway(ctx, by.Person); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "news put away", string(by.Person))
	})
}

// SetLanguage changes the language in which one reads pages and letters.
func (o *Office) SetLanguage(ctx context.Context, by assessment.Actor, language string) error {
	if !slices.Contains(languages, language) {
		return faultAt("language", "Choose English or Spanish.")
	}
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.People.Lock(ctx, by.Person)
		if err != nil {
			return err
		}
		p.Language = language
		if err := tx.People.Save(ctx, p); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, languageChanged, string(by.Person))
	})
}
