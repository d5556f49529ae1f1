package api

import (
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/handover"
	"wellshown/assessment/office"
)

// Neighbours is the agencies elsewhere whose files are known by their key.
type Neighbours struct {
	Line        string      `json:"line,omitempty" doc:"What the other agency enters of this one: its key, a space and its id. Left out: nothing can be signed here."`
	Fingerprint string      `json:"fingerprint,omitempty" doc:"Of it, to be compared by telephone."`
	Neighbours  []Neighbour `json:"neighbours" doc:"Those that were ended last."`
}

// Neighbour is an agency elsewhere.
type Neighbour struct {
	ID          string     `json:"id" format:"uuid"`
	Name        string     `json:"name" doc:"As it is called here."`
	Fingerprint string     `json:"fingerprint"`
	Known       bool       `json:"known" doc:"Agreed to by a second person and not ended: what it signed may be carried in."`
	EnteredBy   Named      `json:"entered_by"`
	EnteredAt   time.Time  `json:"entered_at"`
	AgreedBy    string     `json:"agreed_by,omitempty" doc:"Name. Left out: nobody yet."`
	AgreedAt    *time.Time `json:"agreed_at,omitempty"`
	EndedBy     string     `json:"ended_by,omitempty" doc:"Name. Left out: it was not ended."`
	EndedAt     *time.Time `json:"ended_at,omitempty"`
	EndReason   string     `json:"end_reason,omitempty"`
}

// NeighbourForm enters one.
type NeighbourForm struct {
	Name string `json:"name" maxLength:"200" doc:"As it is called here."`
	Line string `json:"line" maxLength:"1000" doc:"As their page of neighbours shows it: the key, a space and the agency's id."`
}

// NeighbourAgreement is the second person's word.
type NeighbourAgreement struct {
	Compared bool `json:"compared" doc:"The fingerprint was compared with them, by telephone or face to face."`
}

// CheckedFile is what anybody may learn who holds a signed file. What was changed tells nothing.
type CheckedFile struct {
	Answer      string      `json:"answer" enum:"another,changed,unknown,known,ended,here" doc:"Another: no such file. Unknown, known, ended: unchanged, by a key that nobody here knows, that somebody here knows, or knows no more. Here: unchanged, and signed here. None of them says that anybody is current."`
	Changed     []string    `json:"changed" doc:"What was changed, in words."`
	Note        string      `json:"note" doc:"To be told beside every answer."`
	Agency      string      `json:"agency,omitempty"`
	Person      string      `json:"person,omitempty"`
	Day         string      `json:"day,omitempty" doc:"That it is of, on that agency's clocks."`
	MadeAt      string      `json:"made_at,omitempty"`
	Invented    bool        `json:"invented" doc:"It is of a demonstration agency."`
	SHA256      string      `json:"sha256,omitempty" doc:"Of the whole file."`
	Fingerprint string      `json:"fingerprint,omitempty" doc:"Of the key and the agency."`
	KnownBy     []KnownKey  `json:"known_by"`
	Held        []HeldThere `json:"held" doc:"How they stood there on that day. It makes nobody current here."`
	Entries     []FileEntry `json:"entries"`
	Later       []string    `json:"later" doc:"Only where it was signed here: days after it was made on which something came that speaks against them."`
	Gone        bool        `json:"gone" doc:"It was signed here, and there is no such person here."`
	Erased      bool        `json:"erased" doc:"It was signed here, and words of it were erased."`
}

// KnownKey is an agency here that knows a key, or knew it.
type KnownKey struct {
	Agency string `json:"agency"`
	As     string `json:"as" doc:"What they call it."`
	Ended  string `json:"ended_on,omitempty" format:"date" doc:"Since when they know it no more."`
}

// HeldThere is how somebody stood in one skill on the day of the file.
type HeldThere struct {
	Skill   string `json:"skill" doc:"Its code there."`
	Title   string `json:"title"`
	Child   int    `json:"child" doc:"Which child of the file, none by name. 0: for every child."`
	How     string `json:"how" enum:"was held,had lapsed,was withdrawn,was waived,was being learnt"`
	Since   string `json:"since,omitempty"`
	Through string `json:"through,omitempty"`
}

// FileEntry is one thing that was written down there.
type FileEntry struct {
	Kind    string `json:"kind" enum:"demonstration,withdrawal,reinstatement,waiver"`
	Title   string `json:"title"`
	Child   int    `json:"child"`
	On      string `json:"on"`
	Outcome string `json:"outcome,omitempty"`
	Setting string `json:"setting,omitempty"`
	Formal  bool   `json:"formal"`
	By      string `json:"by,omitempty" doc:"Who observed it, or decided it."`
	Taken   string `json:"taken_back_on,omitempty" doc:"Before the file was made."`
	There   *bool  `json:"stands_in_ledger,omitempty" doc:"Only where it was signed here."`
	TakenOn string `json:"taken_back_since,omitempty" format:"date" doc:"Only where it was signed here: after the file was made."`
}

// TakeInForm takes a neighbour's file in, about somebody here.
type TakeInForm struct {
	File   string `json:"file" maxLength:"4194304" doc:"The text of the file, as it came."`
	Client string `json:"client,omitempty" format:"uuid" doc:"Which child here the one child in the file is. Left out: what was shown for one child is left out."`
	Same   bool   `json:"same" doc:"The file is about this person."`
	Named  string `json:"named,omitempty" maxLength:"200" doc:"The name in the file, where it is not the person's here."`
}

// TakenIn is what was carried in. No standing comes of it.
type TakenIn struct {
	From  string   `json:"from" doc:"What the neighbour is called here."`
	New   int      `json:"new"`
	There int      `json:"already_there"`
	Left  []string `json:"left_out" doc:"What was held there and is not carried in: no such skill here, or for a child that was not chosen."`
}

func neighbours(v office.NeighboursView) Neighbours {
	return Neighbours{v.Line, v.Fingerprint, each(v.All, func(n office.NeighbourView) Neighbour {
		return Neighbour{string(n.ID), n.Name, n.Fingerprint, n.Known, Named{string(n.EnteredBy), n.Enterer}, n.EnteredAt.UTC(), n.Agreer, maybeInstant(n.AgreedAt), n.Ender, maybeInstant(n.EndedAt), n.EndReason}
	})}
}

func checkedFile(c office.CheckedHandover) CheckedFile {
	b := c.Opened.Handover
	v := CheckedFile{Answer: c.Answer(), Changed: each(c.Changed, func(f handover.Finding) string { return f.Phrase().String() }), Note: handover.Note, Agency: b.About.Agency.Name, Person: b.About.Person.Name,
		Day: b.About.Day, MadeAt: b.About.MadeAt, Invented: b.About.Demo, SHA256: c.SHA256, Fingerprint: c.Fingerprint, Gone: c.Gone, Erased: c.Erased, Entries: []FileEntry{},
		KnownBy: each(c.KnownBy, func(k office.KnownBy) KnownKey { return KnownKey{k.Agency, k.As, k.Ended.String()} }),
		Held: each(b.Held, func(h handover.Held) HeldThere {
			return HeldThere{h.Skill, h.Title, h.Child, h.How, h.Since, h.Through}
		}),
		Later: each(c.Later, civil.Date.String)}
	for i, e := range b.Entries {
		line := FileEntry{Kind: e.Kind, Title: e.Title, Child: e.Child, On: e.On, Outcome: e.Outcome, Setting: e.Setting, Formal: e.Formal, By: e.By.Name}
		if e.Taken != nil {
			line.Taken = e.Taken.On
		}
		if i < len(c.Since) {
			line.There, line.TakenOn = &c.Since[i].There, c.Since[i].TakenOn.String()
		}
		v.Entries = append(v.Entries, line)
	}
	return v
}
