package api

import (
	"encoding/hex"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// DemonstrationHead is a record without its marks.
type DemonstrationHead struct {
	ID          string      `json:"id" format:"uuid"`
	Learner     Named       `json:"learner"`
	Observer    Named       `json:"observer"`
	Skill       SkillRef    `json:"skill"`
	RevisionID  string      `json:"revision_id" format:"uuid"`
	Revision    int         `json:"revision"`
	Client      *Named      `json:"client,omitempty"`
	Place       string      `json:"place"`
	Real        bool        `json:"real" doc:"With the child, else in simulation."`
	Formal      bool        `json:"formal" doc:"Counts toward competence, else it was practice."`
	PerformedAt time.Time   `json:"performed_at"`
	RecordedAt  time.Time   `json:"recorded_at"`
	Outcome     string      `json:"outcome" enum:"competent,not yet competent,stopped for safety"`
	Score       *Score      `json:"score,omitempty" doc:"Left out where no step was applicable."`
	SHA256      string      `json:"sha256" doc:"Of the record as it is kept, which every signature names."`
	Correction  *Correction `json:"correction,omitempty" doc:"Where the record was taken back: from then on it is as if it had never been."`
}

// Demonstration is one record. Nothing of it ever changes.
type Demonstration struct {
	DemonstrationHead
	Paper       *Paper         `json:"paper,omitempty" doc:"What it was typed in from, where it was marked on paper."`
	Drill       *RecordedDrill `json:"drill,omitempty" doc:"Where it was an emergency drill."`
	Stopped     bool           `json:"stopped"`
	StopReason  string         `json:"stop_reason,omitempty"`
	TakenBack   []Undone       `json:"taken_back_while_open" doc:"What stood on the open sheet against the learner and was taken back before it was recorded, oldest first."`
	Reasons     []WhyNot       `json:"reasons" doc:"Every rule that failed, and every value out of its range."`
	Marks       []Mark         `json:"marks"`
	Parameters  []Ordered      `json:"parameters" doc:"The child's values as they stood."`
	Bedside     *Bedside       `json:"bedside,omitempty" doc:"Where it was filled in on a device without a network."`
	Checklist   Checklist      `json:"checklist"`
	Signatures  []Signature    `json:"signatures"`
	Certificate *Certificate   `json:"certificate,omitempty"`
}

// Undone is a stop for safety, or a step marked unsafe, that was taken back.
type Undone struct {
	At     time.Time `json:"at" doc:"When it was taken back."`
	Step   int       `json:"step,omitempty" doc:"Left out: the stop."`
	Reason string    `json:"reason,omitempty" doc:"Given with the stop."`
}

// Score is an exact share of what could be earned.
type Score struct {
	Exact   string `json:"exact" doc:"A fraction." example:"35/36"`
	Percent string `json:"percent" doc:"Cut to one decimal, never rounded up." example:"97.2"`
}

// WhyNot is one rule that failed.
type WhyNot struct {
	Rule string `json:"rule" enum:"unsafe,critical,value,cues,score,nothing shown"`
	Step int    `json:"step,omitempty" doc:"Left out where it concerns the whole sheet."`
	Of   string `json:"of,omitempty" doc:"The value concerned."`
	Says string `json:"says" doc:"In words."`
}

// Signature is one of the two that make a demonstration count.
type Signature struct {
	Part     string    `json:"part" enum:"observer,learner"`
	Person   Named     `json:"person" doc:"With the name as it was printed."`
	Licence  string    `json:"licence,omitempty"`
	Meaning  string    `json:"meaning"`
	SignedAt time.Time `json:"signed_at"`
	Zone     string    `json:"zone" doc:"Of the agency's clocks." example:"America/Denver"`
	SHA256   string    `json:"sha256" doc:"Of the record that was signed."`
}

// SignatureForm is one signature.
type SignatureForm struct {
	Part string `json:"part" enum:"observer,learner"`
	Signing
	Passkey string `json:"passkey,omitempty" maxLength:"65536" pattern:"^\\{" writeOnly:"true" doc:"In place of both: what the passkey of who signs answered, as the browser writes it in JSON (W3C Web Authentication Level 3, section 5.1.3). Ask for the question first."`
}

// SignaturePart says who is to sign.
type SignaturePart struct {
	Part string `json:"part" enum:"observer,learner"`
}

func (f SignatureForm) proof() office.Proof {
	p := f.Signing.proof()
	p.Passkey = f.Passkey
	return p
}

// Correction says why a record was taken back.
type Correction struct {
	Reason string    `json:"reason"`
	By     string    `json:"by"`
	At     time.Time `json:"at"`
}

// SignedReason is why something is done, signed.
type SignedReason struct {
	Reason string `json:"reason" maxLength:"4000" doc:"Why. It stays with the record."`
	Signing
}

func demonstrationHead(d postgres.Demonstration) DemonstrationHead {
	h := DemonstrationHead{ID: string(d.ID), Learner: Named{string(d.LearnerID), d.Learner}, Observer: Named{string(d.ObserverID), d.Observer},
		Skill: SkillRef{string(d.SkillID), d.Code, d.Title}, RevisionID: string(d.RevisionID), Revision: d.Revision, Client: namedClient(d.ClientID, d.Client),
		Place: d.Place, Real: d.RealClient, Formal: d.Formal, PerformedAt: d.PerformedAt.UTC(), RecordedAt: d.RecordedAt.UTC(), Outcome: string(d.Outcome),
		SHA256: hex.EncodeToString(d.BodySHA256)}
	if d.Score != nil {
		h.Score = score(*d.Score)
	}
	if d.CorrectedAt != nil {
		h.Correction = &Correction{Reason: d.Correction, By: d.CorrectedBy, At: d.CorrectedAt.UTC()}
	}
	return h
}

func score(kept string) *Score {
	n, err := assessment.ParseNumber(kept)
	if err != nil {
		return &Score{Exact: kept}
	}
	return &Score{Exact: n.Fraction(), Percent: n.Percent()}
}

func undone(t office.TakenBack) Undone { return Undone{At: t.At.UTC(), Step: t.Step, Reason: t.Reason} }

func demonstration(v office.DemonstrationView) Demonstration {
	d := Demonstration{DemonstrationHead: demonstrationHead(v.Demonstration), Paper: paper(v.Paper), Drill: recordedDrill(v.Drill), Stopped: v.Stopped, StopReason: v.StopReason, TakenBack: each(v.TakenBack, undone), Marks: []Mark{},
		Parameters: ordered(v.Parameters, v.Words), Checklist: checklist(v.Checklist), Bedside: bedside(v), Signatures: each(v.Signatures, signature)}
	d.Reasons = each(v.Result.Reasons, func(r assessment.Reason) WhyNot {
		return WhyNot{Rule: string(r.Rule), Step: r.Step, Of: r.Of, Says: r.InWords(v.Checklist)}
	})
	for _, step := range v.Checklist.Steps() {
		if e, ok := v.Entries[step.No]; ok {
			d.Marks = append(d.Marks, recordedMark(e, v.Effective[step.No], v.MarkedAt[step.No]))
		}
	}
	if v.Certificate != nil {
		c := certificate(*v.Certificate)
		d.Certificate = &c
	}
	return d
}

func recordedMark(e assessment.SheetEntry, effective assessment.Mark, at string) Mark {
	m := Mark{Step: e.No, Mark: string(e.Mark), Effective: string(effective), NotApplicable: e.NotApplicable, Reason: e.Reason, Note: e.Note}
	if t, err := time.Parse(time.RFC3339Nano, at); err == nil {
		m.MarkedAt = maybeInstant(&t)
	}
	for name, q := range e.Values {
		if m.Readings == nil {
			m.Readings = map[string]Reading{}
		}
		m.Readings[name] = Reading{Value: q.Value.String(), Unit: q.Unit}
	}
	return m
}

func signature(s postgres.Signature) Signature {
	return Signature{Part: s.Part, Person: Named{string(s.PersonID), s.PrintedName}, Licence: s.Licence, Meaning: s.Meaning, SignedAt: s.SignedAt.UTC(),
		Zone: s.Zone, SHA256: hex.EncodeToString(s.BodySHA256)}
}
