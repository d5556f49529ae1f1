package api

import (
	"time"

	"wellshown/assessment/office"
)

// Preview is what a change would do.
type Preview struct {
	Version       string           `json:"version" doc:"The same while it would do the same today. Whoever proposes or agrees says which one they looked at."`
	Today         string           `json:"today" format:"date" doc:"The day it is where the agency is."`
	ShiftsThrough string           `json:"shifts_through" format:"date" doc:"Last day on which shifts were looked at."`
	People        int              `json:"people" doc:"Whose standing would change."`
	Standings     []StandingChange `json:"standings" doc:"On every day from today on, by name."`
	Broken        []CoverLine      `json:"broken" doc:"Shifts that would break, and do not."`
	Mended        []CoverLine      `json:"mended" doc:"Shifts that break, and would not any more."`
	Otherwise     []CoverLine      `json:"otherwise" doc:"Shifts that break either way, for other reasons than now."`
}

// StandingChange is a run of days on which somebody's standing would be another one.
type StandingChange struct {
	Person  PersonRef  `json:"person"`
	Skill   SkillRef   `json:"skill"`
	Client  *ClientRef `json:"client,omitempty" doc:"Left out: of every child."`
	From    string     `json:"from" format:"date"`
	Through string     `json:"through,omitempty" format:"date" doc:"Left out: on every day after."`
	Before  string     `json:"before" doc:"The standing as it is."`
	After   string     `json:"after" doc:"As it would be."`
}

func preview(p office.Preview) Preview {
	return Preview{p.Version, p.Today.String(), p.ShiftsThrough.String(), p.People, each(p.Standings, standingChange), each(p.Broken, coverLine), each(p.Mended, coverLine), each(p.Otherwise, coverLine)}
}

func standingChange(c office.StandingChange) StandingChange {
	v := StandingChange{Person: personRef(c.Person), Skill: skillRef(c.Skill), Client: clientRef(c.Client), From: c.From.String(), Before: string(c.Before), After: string(c.After)}
	if !c.Through.IsZero() {
		v.Through = c.Through.String()
	}
	return v
}

// ForceLook says what coming into force is to be seen beforehand.
type ForceLook struct {
	Version   string `json:"version" maxLength:"200" doc:"The version of the revision that was read."`
	RecheckBy string `json:"recheck_by,omitempty" format:"date" doc:"Everybody is to be seen on this revision by this day. Left out: nobody has to."`
}

// ForceProposal is what a licensed clinician states and signs who proposes to put a draft in force.
type ForceProposal struct {
	ForceLook
	Seen      string `json:"seen" maxLength:"200" doc:"The version of the preview that was looked at. Refused where it would do something else by now."`
	Statement string `json:"statement" maxLength:"4000" doc:"What was reviewed, and against what."`
	Signing
}

// Agreement is the second person's word.
type Agreement struct {
	Seen string `json:"seen" maxLength:"200" doc:"The version of the preview that was looked at. Refused where it would do something else by now."`
	Signing
}

// Proposal is one to put a revision in force, with what became of it.
type Proposal struct {
	ID         string     `json:"id" format:"uuid"`
	Revision   string     `json:"revision" format:"uuid"`
	Skill      SkillRef   `json:"skill"`
	Number     int        `json:"number" doc:"Of the revision."`
	Version    string     `json:"version" doc:"Of the text that was proposed."`
	Statement  string     `json:"statement"`
	RecheckBy  string     `json:"recheck_by,omitempty" format:"date"`
	ProposedBy Named      `json:"proposed_by"`
	ProposedAt time.Time  `json:"proposed_at"`
	Verdict    string     `json:"verdict,omitempty" enum:"agreed,declined,taken back" doc:"Left out: it waits for a second person."`
	Reason     string     `json:"reason,omitempty" doc:"Why it was declined."`
	EndedBy    *Named     `json:"ended_by,omitempty"`
	EndedAt    *time.Time `json:"ended_at,omitempty"`
}

// ProposalInFull is a proposal with what agreeing to it now would change.
type ProposalInFull struct {
	Proposal
	MayNot  string   `json:"may_not,omitempty" doc:"Why whoever asks cannot agree to it. Left out: they can, or it is decided."`
	Preview *Preview `json:"preview,omitempty" doc:"Left out: whoever asks cannot agree."`
}

func proposal(v office.ProposalView) Proposal {
	p := Proposal{ID: string(v.ID), Revision: string(v.Revision), Skill: SkillRef{string(v.Skill), v.Code, v.Title}, Number: v.Number, Version: v.Version, Statement: v.Statement,
		ProposedBy: Named{string(v.ProposedBy.ID), v.ProposedBy.Name}, ProposedAt: v.ProposedAt.UTC(), Verdict: string(v.Verdict), Reason: v.Reason}
	if !v.RecheckBy.IsZero() {
		p.RecheckBy = v.RecheckBy.String()
	}
	if v.Verdict != "" {
		at := v.EndedAt.UTC()
		p.EndedBy, p.EndedAt = &Named{string(v.EndedBy.ID), v.EndedBy.Name}, &at
	}
	return p
}

func proposalInFull(d office.ProposalDesk) ProposalInFull {
	v := ProposalInFull{Proposal: proposal(d.ProposalView), MayNot: d.MayNot}
	if d.Preview.Version != "" {
		p := preview(d.Preview)
		v.Preview = &p
	}
	return v
}

// Dropping ends a proposal.
type Dropping struct {
	Reason string `json:"reason,omitempty" maxLength:"2000" doc:"What is to be changed first. Whoever takes their own back may leave it out."`
}

// WithdrawalLook says which withdrawal is to be seen beforehand.
type WithdrawalLook struct {
	Person  string `json:"person" doc:"An id."`
	Skill   string `json:"skill" maxLength:"200" doc:"The code."`
	Client  string `json:"client,omitempty" doc:"The child: an id. Needed where the skill is held for each child."`
	Until   string `json:"until" enum:"redemonstrated,reinstated" doc:"What would lift it."`
	Related bool   `json:"related,omitempty" doc:"With the related skills that they hold as well."`
}
