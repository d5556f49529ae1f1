package api

import (
	"time"

	"wellshown/assessment/office"
)

// TokenForm is a token for a program, as an administrator asks for it.
type TokenForm struct {
	Name    string   `json:"name" maxLength:"200" doc:"Of the program."`
	Acts    []string `json:"acts" maxItems:"50" doc:"What it allows, by the names that GET /me gives. Only what its maker may do, and nothing that takes a person."`
	Reading bool     `json:"reading,omitempty" doc:"Nothing that changes anything."`
	Days    int      `json:"days,omitempty" minimum:"1" maximum:"365" doc:"How long it lasts; 90 unless given."`
}

// Token is a token as it is listed.
type Token struct {
	ID        string     `json:"id" format:"uuid"`
	Name      string     `json:"name"`
	Acts      []string   `json:"acts"`
	Reading   bool       `json:"reading"`
	MadeBy    Named      `json:"made_by"`
	MadeAt    time.Time  `json:"made_at"`
	ExpiresAt time.Time  `json:"expires_at"`
	UsedAt    *time.Time `json:"used_at,omitempty" doc:"When it was last used, to the minute. Left out: never."`
	RevokedAt *time.Time `json:"revoked_at,omitempty"`
	RevokedBy *Named     `json:"revoked_by,omitempty"`
	Dead      string     `json:"dead,omitempty" doc:"Why it does not work. Left out: it does."`
}

// NewToken is a token as it is shown once.
type NewToken struct {
	Token
	Secret string `json:"token" doc:"To be sent as Authorization: Bearer. It is shown this once."`
}

func programToken(v office.TokenView) Token {
	t := Token{ID: string(v.ID), Name: v.Name, Acts: texts(v.Acts), Reading: v.Reading, MadeBy: named(v.MadeBy), MadeAt: v.MadeAt.UTC(), ExpiresAt: v.ExpiresAt.UTC(),
		UsedAt: utc(v.UsedAt), RevokedAt: utc(v.RevokedAt), Dead: v.Dead}
	if v.RevokedBy.ID != "" {
		by := named(v.RevokedBy)
		t.RevokedBy = &by
	}
	return t
}
