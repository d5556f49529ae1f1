package api

import (
	"time"

	"wellshown/assessment/office"
)

// NewLink is a single-use link. It is shown this once.
type NewLink struct {
	Person    Named     `json:"person"`
	Purpose   string    `json:"purpose" enum:"invitation,reset"`
	URL       string    `json:"url" doc:"To be handed over to them, and to nobody else."`
	ExpiresAt time.Time `json:"expires_at"`
}

// TakenLink is what somebody sends who uses a link.
type TakenLink struct {
	Token    string `json:"token" maxLength:"200" writeOnly:"true" doc:"The word at the end of the link."`
	Password string `json:"password" maxLength:"1000" writeOnly:"true" doc:"Of their own choice."`
	Code     string `json:"code,omitempty" maxLength:"100" writeOnly:"true" doc:"A one-time or recovery code that they had before. With it they keep their passkeys, and nobody needs to vouch for them. One-time codes stay on either way."`
}

// Identity tells how somebody came to the secret that they sign with.
type Identity struct {
	Person Named  `json:"person"`
	Links  []Link `json:"links" doc:"The newest first."`
	Waits  string `json:"waits,omitempty" doc:"Why they cannot sign yet. Left out: they can."`
}

// Link is a link as it is listed.
type Link struct {
	Purpose   string     `json:"purpose" enum:"invitation,reset"`
	IssuedBy  Named      `json:"issued_by"`
	IssuedAt  time.Time  `json:"issued_at"`
	ExpiresAt time.Time  `json:"expires_at"`
	EndedAt   *time.Time `json:"ended_at,omitempty" doc:"When a newer one took its place."`
	UsedAt    *time.Time `json:"used_at,omitempty"`
	VouchedBy *Named     `json:"vouched_by,omitempty" doc:"Who has seen that it was them."`
	VouchedAt *time.Time `json:"vouched_at,omitempty"`
}

// Account is one's own account.
type Account struct {
	Identity
	PIN      PIN           `json:"pin"`
	Sessions []OpenSession `json:"sessions" doc:"The last used first."`
	Events   []Event       `json:"events" doc:"What happened to the account, the newest first."`
}

// PIN tells whether one has a PIN for signing.
type PIN struct {
	Set    bool       `json:"set"`
	SetAt  *time.Time `json:"set_at,omitempty"`
	ShutAt *time.Time `json:"shut_at,omitempty" doc:"Since when it is shut: there were too many wrong tries."`
}

// OpenSession is one of one's sessions.
type OpenSession struct {
	Handle   string    `json:"handle" doc:"To end it by; it opens nothing."`
	Device   string    `json:"device" enum:"phone,tablet,computer,program,unknown" doc:"In coarse words, as it says of itself."`
	OpenedAt time.Time `json:"opened_at"`
	UsedAt   time.Time `json:"used_at"`
	This     bool      `json:"this" doc:"The one that is used for this."`
}

// Event is something that happened to an account.
type Event struct {
	At   time.Time `json:"at"`
	What string    `json:"what"`
	By   string    `json:"by,omitempty" doc:"A name. Left out: nobody who was signed in."`
	Own  bool      `json:"own" doc:"Done by whose account it is."`
}

// NewPIN is a PIN to be set.
type NewPIN struct {
	Password string `json:"password" maxLength:"1000" writeOnly:"true"`
	PIN      string `json:"pin" maxLength:"100" writeOnly:"true" doc:"6 to 12 digits."`
}

func identity(v office.IdentityView) Identity {
	return Identity{Person: named(v.Person), Links: each(v.Links, link), Waits: v.Waits}
}

func named(p office.PersonRef) Named { return Named{string(p.ID), p.Name} }

func link(l office.LinkLine) Link {
	out := Link{Purpose: string(l.Purpose), IssuedBy: named(l.IssuedBy), IssuedAt: l.IssuedAt.UTC(), ExpiresAt: l.ExpiresAt.UTC(),
		EndedAt: utc(l.EndedAt), UsedAt: utc(l.UsedAt), VouchedAt: utc(l.VouchedAt)}
	if l.VouchedBy.ID != "" {
		by := named(l.VouchedBy)
		out.VouchedBy = &by
	}
	return out
}

func utc(at *time.Time) *time.Time {
	if at == nil {
		return nil
	}
	u := at.UTC()
	return &u
}

func account(v office.AccountView) Account {
	a := Account{Identity: identity(v.IdentityView), PIN: PIN{Set: v.PIN.Set, ShutAt: utc(v.PIN.ShutAt)},
		Sessions: each(v.Sessions, func(s office.SessionLine) OpenSession {
			return OpenSession{s.Handle, s.Device, s.OpenedAt.UTC(), s.UsedAt.UTC(), s.This}
		}),
		Events: each(v.Events, func(e office.AccountEvent) Event { return Event{e.At.UTC(), e.What, e.By, e.Own} })}
	if v.PIN.Set {
		a.PIN.SetAt = utc(&v.PIN.SetAt)
	}
	return a
}
