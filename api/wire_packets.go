package api

import (
	"encoding/hex"
	"time"

	"wellshown/assessment/office"
)

// PacketForm asks for a surveyor's packet.
type PacketForm struct {
	ID      string `json:"id,omitempty" format:"uuid" doc:"A UUID of version 7, so that asking twice makes one. Left out: made here."`
	About   string `json:"about" enum:"incident,person,child,period"`
	Person  string `json:"person,omitempty" format:"uuid" doc:"Of an incident, or about one person."`
	Skill   string `json:"skill,omitempty" doc:"Of an incident: its code."`
	Client  string `json:"client,omitempty" format:"uuid" doc:"About one child; of an incident in a skill that is held for each child."`
	Shift   string `json:"shift,omitempty" doc:"Of an incident on a shift: what counts is what was known when it began."`
	On      string `json:"on,omitempty" format:"date" doc:"The night. Left out: today, or that of the shift."`
	From    string `json:"from,omitempty" format:"date" doc:"First day of a period."`
	Through string `json:"through,omitempty" format:"date" doc:"Last day of a period, at most a year after the first."`
}

// Packet is one that was asked for, and how far it is.
type Packet struct {
	ID      string     `json:"id" format:"uuid"`
	About   string     `json:"about" enum:"incident,person,child,period"`
	Person  string     `json:"person,omitempty" doc:"Name."`
	Skill   string     `json:"skill,omitempty" doc:"Title."`
	Client  string     `json:"client,omitempty" doc:"First name and code."`
	From    string     `json:"from" format:"date"`
	Through string     `json:"through" format:"date"`
	AskedBy Named      `json:"asked_by"`
	AskedAt time.Time  `json:"asked_at" doc:"All is told as it was known then."`
	State   string     `json:"state" enum:"waiting,making,ready,refused"`
	Done    int        `json:"done" doc:"Of the records."`
	Total   int        `json:"total" doc:"0: not known yet."`
	Why     string     `json:"why,omitempty" doc:"Why it cannot be made."`
	Pages   int        `json:"pages,omitempty"`
	SHA256  string     `json:"data_sha256,omitempty" doc:"Of the file packet.json."`
	MadeAt  *time.Time `json:"made_at,omitempty"`
	Until   *time.Time `json:"kept_until,omitempty"`
}

func packet(v office.PacketView) Packet {
	p := Packet{ID: string(v.ID), About: v.Kind, Person: v.Person, Skill: v.Skill, Client: v.Client, From: v.FromOn.String(), Through: v.ThroughOn.String(),
		AskedBy: Named{ID: string(v.AskedBy), Name: v.Asker}, AskedAt: v.AskedAt, State: v.State, Done: v.Done, Total: v.Total, Why: v.Refused, Pages: v.Pages, SHA256: hex.EncodeToString(v.DataSHA256), MadeAt: maybeInstant(v.MadeAt)}
	if !v.GoneAt.IsZero() {
		until := v.GoneAt
		p.Until = &until
	}
	return p
}
