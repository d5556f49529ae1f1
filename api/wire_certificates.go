package api

import (
	"encoding/hex"
	"time"

	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Certificate is one as it was issued.
type Certificate struct {
	ID              string    `json:"id" format:"uuid"`
	Number          int       `json:"number" doc:"Within the agency, without gaps."`
	Code            string    `json:"code" doc:"The check code, as it is read." example:"4H7K-9QXM-2TBT"`
	DemonstrationID string    `json:"demonstration_id" format:"uuid" doc:"The record that brought it."`
	Person          Named     `json:"person"`
	Skill           Named     `json:"skill" doc:"With the title as it was printed."`
	Client          *Named    `json:"client,omitempty"`
	HeldOn          string    `json:"held_on" format:"date"`
	Through         string    `json:"through" format:"date" doc:"As printed. A standing says how it is now."`
	IssuedAt        time.Time `json:"issued_at"`
	SHA256          string    `json:"sha256" doc:"Of the bytes as issued."`
}

// Checked is what anybody who has a certificate in hand may learn.
type Checked struct {
	Agency    string `json:"agency"`
	Demo      bool   `json:"demo" doc:"The agency is invented: this certifies nothing."`
	Number    int    `json:"number"`
	Code      string `json:"code"`
	Person    string `json:"person,omitempty" doc:"Left out where it is erased."`
	Title     string `json:"title,omitempty" doc:"Left out where it is erased."`
	ForChild  bool   `json:"for_child" doc:"Held for one child; which one is not told."`
	HeldOn    string `json:"held_on,omitempty" format:"date" doc:"Left out where it is erased."`
	Through   string `json:"through,omitempty" format:"date" doc:"As printed. Left out where it is erased."`
	On        string `json:"on" format:"date" doc:"The day of this answer."`
	Erased    string `json:"erased_on,omitempty" format:"date" doc:"Day on which what is held about its holder or its child was erased: nothing more can be told, and it cannot be relied on."`
	Standing  string `json:"standing,omitempty" enum:"not started,learning,current,due,lapsed,withdrawn,waived" doc:"As it is on that day."`
	Holds     bool   `json:"holds" doc:"Whether the certificate can be relied on on that day: the skill is held, all that it rests on stands, and its holder is with the agency."`
	TakenBack string `json:"taken_back_on,omitempty" format:"date" doc:"Day on which a record that it rests on was taken back; left out where all stand."`
	Left      string `json:"left_on,omitempty" format:"date" doc:"First day on which its holder is no longer with the agency; left out where that is not so."`
	Now       string `json:"now,omitempty" format:"date" doc:"Last day as it stands now; left out where nothing holds."`
	SHA256    string `json:"sha256" doc:"Of the bytes as issued."`
}

// Transcript is all that a caregiver has shown and holds.
type Transcript struct {
	At           time.Time       `json:"at"`
	Standings    PersonStandings `json:"standings"`
	Records      []SignedHead    `json:"records" doc:"Newest first."`
	Certificates []Certificate   `json:"certificates"`
	Checks       []PassedCheck   `json:"checks" doc:"Knowledge checks that were passed, the newest pass of each. No standing comes of them. Empty for those who may not read checks."`
}

// PassedCheck is the newest pass of a knowledge check, as it stood on the day.
type PassedCheck struct {
	Skill   SkillRef `json:"skill"`
	On      string   `json:"on" format:"date"`
	Through string   `json:"through,omitempty" format:"date" doc:"Its last day. Left out: without end."`
	Holds   bool     `json:"holds" doc:"Whether the check itself holds on the day. It makes nobody current."`
	Right   int      `json:"right"`
	Of      int      `json:"of"`
	Reader  bool     `json:"could_read_items" doc:"They could read what it asks, because of their role: it counts only where a trainer was there."`
	Present string   `json:"trainer_present_by,omitempty" doc:"Who says that a trainer was there."`
}

// SignedHead is a record in short, with its signatures.
type SignedHead struct {
	DemonstrationHead
	Signatures []Signature `json:"signatures"`
}

func certificate(c postgres.Certificate) Certificate {
	return Certificate{ID: string(c.ID), Number: c.Number, Code: office.ShowCode(c.Code), DemonstrationID: string(c.DemonstrationID),
		Person: Named{string(c.PersonID), c.Person}, Skill: Named{string(c.SkillID), c.Title}, Client: namedClient(c.ClientID, c.Client),
		HeldOn: c.HeldOn.String(), Through: c.ThroughOn.String(), IssuedAt: c.IssuedAt.UTC(), SHA256: hex.EncodeToString(c.PDFSHA256)}
}

func checked(c office.Checked) Checked {
	w := Checked{Agency: c.Agency, Demo: c.Demo, Number: c.Number, Code: office.ShowCode(c.Code), Person: c.Person, Title: c.Title, ForChild: c.Client,
		HeldOn: c.HeldOn.String(), Through: c.Through.String(), On: c.On.String(), Standing: string(c.Standing.Word), Holds: c.Holds(),
		TakenBack: c.TakenBackOn.String(), Now: c.Now.String(), SHA256: hex.EncodeToString(c.SHA256)}
	w.Erased = c.Erased.String()
	if c.Left() {
		w.Left = c.LeftOn.String()
	}
	return w
}

func transcript(v office.Transcript) Transcript {
	return Transcript{At: v.At.UTC(), Standings: personStandings(v.Standings), Records: each(v.Records, func(d postgres.Demonstration) SignedHead {
		return SignedHead{demonstrationHead(d), each(v.Signatures[d.ID], signature)}
	}), Certificates: each(v.Certificates, certificate), Checks: each(v.Checks, func(c office.PassedCheck) PassedCheck {
		return PassedCheck{skillRef(c.Skill), c.On.String(), c.Through.String(), c.Holds, c.Right, c.Of, c.Reader, c.PresentBy}
	})}
}
