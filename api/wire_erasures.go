package api

import (
	"time"

	"wellshown/assessment/office"
)

// RetentionForm is how long records are to be kept.
type RetentionForm struct {
	Years  int    `json:"years,omitempty" doc:"From how many years on an erasure may be asked for, 6 to 100. Left out: everything is kept for ever."`
	Reason string `json:"reason" maxLength:"2000" doc:"Which law or agreement. It stays."`
}

// ErasureForm asks that what is held about somebody be erased.
type ErasureForm struct {
	ID     string `json:"id,omitempty" format:"uuid" doc:"Made by whoever sends it, so that sending it twice is harmless."`
	Person string `json:"person,omitempty" format:"uuid" doc:"Somebody who has left, or:"`
	Client string `json:"client,omitempty" format:"uuid" doc:"A child who is no longer served."`
	Reason string `json:"reason" maxLength:"2000" doc:"It stays when all the rest is gone, so without the name."`
}

// Erasure is one that was asked for, with what became of it.
type Erasure struct {
	ID      string     `json:"id" format:"uuid"`
	Person  string     `json:"person,omitempty" format:"uuid"`
	Client  string     `json:"client,omitempty" format:"uuid"`
	Name    string     `json:"name" doc:"As it is now; \"erased\" once it is carried out."`
	Reason  string     `json:"reason"`
	AskedBy Named      `json:"asked_by"`
	AskedAt time.Time  `json:"asked_at"`
	Verdict string     `json:"verdict,omitempty" enum:"carried out,refused,taken back" doc:"Left out: it waits for a second person."`
	EndedBy *Named     `json:"ended_by,omitempty"`
	EndedAt *time.Time `json:"ended_at,omitempty"`
	Rows    int        `json:"rows" doc:"Whose content is gone."`
}

// Erasable is somebody who has left, or a child who is no longer served.
type Erasable struct {
	Person      string `json:"person,omitempty" format:"uuid"`
	Client      string `json:"client,omitempty" format:"uuid"`
	Name        string `json:"name"`
	LeftOn      string `json:"left_on" format:"date"`
	KeptThrough string `json:"kept_through" format:"date" doc:"From the day after, an erasure may be asked for."`
	Now         bool   `json:"now" doc:"It may be asked for today."`
}

// Erasures is how long records are kept, and what was erased.
type Erasures struct {
	Years  int        `json:"years" doc:"0: everything is kept for ever."`
	Reason string     `json:"reason" doc:"Of that setting."`
	Items  []Erasure  `json:"items" doc:"Newest first."`
	Over   []Erasable `json:"over" doc:"Who has left, by the day through which they are kept. None where everything is kept for ever."`
}

func erasure(v office.ErasureView) Erasure {
	w := Erasure{ID: string(v.ID), Person: string(v.PersonID), Client: string(v.ClientID), Name: v.Name, Reason: v.Reason, AskedBy: Named{string(v.AskedBy), v.Asker},
		AskedAt: v.AskedAt.UTC(), Verdict: string(v.Verdict), EndedAt: utc(v.EndedAt), Rows: v.Rows}
	if v.EndedBy != "" {
		w.EndedBy = &Named{string(v.EndedBy), v.Ender}
	}
	return w
}

func erasable(v office.Erasable) Erasable {
	return Erasable{Person: string(v.PersonID), Client: string(v.ClientID), Name: v.Name, LeftOn: v.LeftOn.String(), KeptThrough: v.KeptThrough.String(), Now: v.Now}
}
